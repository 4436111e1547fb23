#include "foretone/job/preview.hpp"

#include <algorithm>

#include "foretone/base/parallel.hpp"
#include "foretone/color/words.hpp"
#include "foretone/search/chance.hpp"
#include "readable.hpp"
#include "seen_finish.hpp"

namespace foretone::job {
namespace {

constexpr std::size_t plausible_boards = 24;

void what_next(SeenFinish& out) {
    auto found = next_on_board(out.stages, &SeenStage::stage, out.spread);
    out.readings = std::move(found.readings);
    out.next = std::move(found.next);
}

// How sure all of it is: one account for all finishes.
void add_spreads(Preview& out, const appearance::Solver& solver, const std::vector<color::Weights>& lights) {
    const auto& scene = out.scene;
    auto spreads =
        appearance::spreads({scene.materials, scene.wood, scene.finishes, scene.look.geometry, solver, lights,
                             appearance::StagesAsked::all, scene.knowledge(), base::parallel_for_all});
    for (std::size_t f = 0; f < out.finishes.size(); ++f) {
        auto& finish = out.finishes[f];
        take_spread(finish, std::move(spreads[f]));
        for (std::size_t l = 0; l < lights.size(); ++l) {
            finish.plausible.emplace_back();
            for (const auto& lab :
                 appearance::plausible(finish.spread.finished[l], finish.spread.regions.back()[l], plausible_boards))
                finish.plausible.back().push_back(
                    color::to_display(color::from_lab(lab, lights[l].white), lights[l].white));
        }
        what_next(finish);
    }
}

// What light and time make of the finished boards.
void add_aged(Preview& out, const appearance::Solver& solver, const std::vector<color::Weights>& lights) {
    auto aged = see_aged(out.scene, lights, solver);
    for (std::size_t f = 0; f < aged.size(); ++f) out.finishes[f].aged = std::move(aged[f]);
}

Difference difference(const Preview& p, std::size_t from, std::size_t to, std::size_t light) {
    const auto &a = p.finishes[from], &b = p.finishes[to];
    const auto &ca = a.stages.back().colors[light].lab, &cb = b.stages.back().colors[light].lab;
    const auto &da = a.spread.finished[light], &db = b.spread.finished[light];
    return {a.name,
            b.name,
            p.scene.look.lights[light],
            color::delta_e_00(ca, cb),
            b.spread.from_earlier[from][light],
            appearance::chance_beyond(search::client_sees_de00, da, db),
            appearance::chance_beyond(search::client_sees_de00, da, appearance::on_the_other_board(db)),
            color::describe(ca, cb),
            color::describe(cb, ca)};
}

}  // namespace

Preview preview(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver) {
    if (scene.finishes.empty())
        throw scene::InputError("finish-empty", {scene.file, 1, 1},
                                "there is no finish: add [[finish]] with a name and at least one [[finish.step]]");
    Preview out{scene, solver.name, scene.materials.at(scene.wood).name, {}, {}, {}, scene.warnings, {}};
    const auto lights = weights_of(scene.look, library);
    for (std::size_t i = 0; i < scene.finishes.size(); ++i)
        out.finishes.push_back(see_finish(scene, i, solver, lights));
    add_spreads(out, solver, lights);
    for (std::size_t i = 0; i < out.finishes.size(); ++i)
        for (std::size_t j = i + 1; j < out.finishes.size(); ++j)
            for (std::size_t l = 0; l < lights.size(); ++l) out.differences.push_back(difference(out, i, j, l));
    for (const auto& f : out.finishes) {
        const auto& colors = f.stages.back().colors;
        for (std::size_t l = 1; l < colors.size(); ++l)
            out.across.push_back({f.name, colors[0].light, colors[l].light,
                                  color::delta_e_ucs(color::ucs(colors[0].seen), color::ucs(colors[l].seen)),
                                  color::describe(colors[0].seen, colors[l].seen)});
    }
    add_aged(out, solver, lights);
    out.reference = scene.target && !scene.target->finish.empty() ? scene.target->finish : scene.finishes.front().name;
    warn_resampled(scene, out.warnings);
    return out;
}

}  // namespace foretone::job
