#include "foretone/job/overview.hpp"

#include <algorithm>
#include <set>
#include <stdexcept>

#include "foretone/base/parallel.hpp"
#include "foretone/color/words.hpp"
#include "foretone/job/cautions.hpp"
#include "on_wood.hpp"
#include "seen_finish.hpp"

namespace foretone::job {
namespace {

// One decimal of ± in a table of many: two sets of worlds tell that.
constexpr appearance::Drawing two_sets{2, 2, 0};

/// A scene on one wood, and the boards that come of it.
struct OnWood {
    scene::Scene scene;
    std::vector<OverviewBoard> boards;
};

std::vector<OnWood> each_on_its_wood(const Overview& all, const scene::Library& library) {
    std::vector<OnWood> out;
    std::size_t boards = 0;
    for (std::size_t s = 0; s < all.scenes.size(); ++s) {
        const auto& scene = all.scenes[s];
        if (scene.finishes.empty())
            throw scene::InputError("finish-empty", {scene.file, 1, 1},
                                    "there is no finish: add [[finish]] with a name and at least one [[finish.step]]");
        const std::size_t woods = std::max<std::size_t>(1, all.woods.size());
        for (std::size_t w = 0; w < woods; ++w) {
            OnWood one{all.woods.empty() ? scene : on_wood(scene, all.woods[w], library), {}};
            one.scene.look = all.look;
            for (const auto& finish : scene.finishes) {
                OverviewBoard board;
                board.scene = s, board.wood = one.scene.wood;
                board.wood_name = one.scene.materials.at(one.scene.wood).name;
                board.seen.name = finish.name;
                one.boards.push_back(std::move(board));
            }
            boards += one.boards.size();
            if (boards > most_overview_boards)
                throw scene::InputError("overview-too-many", {all.scenes.front().file},
                                        "these are more than " + std::to_string(most_overview_boards) +
                                            " boards: take fewer scenes, or fewer woods (--wood)");
            out.push_back(std::move(one));
        }
    }
    return out;
}

void warn_of_looks(Overview& out) {
    const auto& look = out.look;
    for (const auto& s : out.scenes) {
        std::vector<std::string> differs;
        if (s.look.lights != look.lights) differs.push_back("under other lights");
        if (s.look.observer != look.observer) differs.push_back("by another observer");
        if (s.look.geometry != look.geometry) differs.push_back("in another geometry");
        if (!s.look.after.empty()) differs.push_back("after some time too");
        if (differs.empty()) continue;
        std::string text;
        for (const auto& d : differs) text += (text.empty() ? "" : ", ") + d;
        std::string lights;
        for (const auto& id : look.lights) lights += (lights.empty() ? "" : ", ") + id;
        out.warnings.push_back({"overview-look",
                                {s.file},
                                "the scene looks " + text + "; all boards are shown new, under " + lights +
                                    ", by observer " + look.observer + " at " + scene::geometry_text(look.geometry)});
    }
}

// All finishes of a scene on one wood. What cannot be worked out is left out of the others' account.
void see_all(OnWood& one, const appearance::Solver& solver, const std::vector<color::Weights>& lights,
             appearance::StagesAsked spread_of) {
    std::vector<std::size_t> seen;
    std::vector<schedule::Finish> finishes;
    for (std::size_t f = 0; f < one.boards.size(); ++f) {
        auto& board = one.boards[f];
        try {
            board.seen = see_finish(one.scene, f, solver, lights);
        } catch (const scene::InputError& e) {
            board.fault = e.problems.front();
            continue;
        }
        board.words = color::describe(board.bare().colors[0].lab, board.finished().colors[0].lab);
        seen.push_back(f);
        finishes.push_back(one.scene.finishes[f]);
    }
    auto spreads = appearance::spreads({one.scene.materials,
                                        one.scene.wood,
                                        std::move(finishes),
                                        one.scene.look.geometry,
                                        solver,
                                        lights,
                                        spread_of,
                                        one.scene.knowledge(),
                                        {},
                                        two_sets,
                                        false});
    for (std::size_t i = 0; i < seen.size(); ++i) take_spread(one.boards[seen[i]].seen, std::move(spreads[i]));
}

}  // namespace

Overview overview(const std::vector<scene::Scene>& scenes, const scene::Library& library,
                  const std::vector<std::string>& woods, const appearance::Solver& solver,
                  appearance::StagesAsked spread_of, unsigned threads) {
    if (scenes.empty()) throw std::invalid_argument("job::overview: no scene");
    Overview out{scenes.front().look, solver.name, scenes, woods, {}, {}, {}};
    out.look.after.clear();
    const auto lights = weights_of(out.look, library);
    auto each = each_on_its_wood(out, library);
    base::parallel_for(each.size(), threads, [&](std::size_t i) { see_all(each[i], solver, lights, spread_of); });
    std::set<std::string> said;
    for (auto& one : each) {
        std::move(one.boards.begin(), one.boards.end(), std::back_inserter(out.boards));
        for (auto& word : cautions_of(one.scene)) said.insert(std::move(word));
    }
    out.cautions.assign(said.begin(), said.end());
    for (const auto& s : scenes) {
        out.warnings.insert(out.warnings.end(), s.warnings.begin(), s.warnings.end());
        warn_resampled(s, out.warnings);
    }
    warn_of_looks(out);
    return out;
}

}  // namespace foretone::job
