#include "foretone/job/book.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "face.hpp"
#include "foretone/appearance/spread.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/parallel.hpp"
#include "foretone/job/board.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/material/figures.hpp"
#include "on_wood.hpp"

namespace foretone::job {
namespace {

// A strip of colors says how far boards may differ, no decimals: two sets of worlds tell that as well as many.
constexpr appearance::Drawing few_worlds{2, 2, 0};
constexpr std::size_t colors_of_a_strip = 12;

/// A scene on one wood.
struct Group {
    std::size_t scene = 0;
    scene::Scene on;
    bool bare = false;      ///< its wood's first
    std::string face;       ///< which piece of wood
    std::size_t first = 0;  ///< chip
};

/// All that a piece of the scene's wood shows, as text.
std::string shown_of(const scene::Scene& s) {
    auto m = s.materials.at(s.wood);
    const auto& w = std::get<material::Wood>(m.data);
    std::string out = m.name + "\n" + w.ages_as + "\n" + base::shortest(w.grit) + " " +
                      std::to_string(static_cast<int>(w.geometry)) + " " +
                      (w.grain ? std::to_string(static_cast<int>(w.grain->pores)) : "-");
    for (const auto& f : material::figures(m)) {
        out += "\n" + f.key + " " + base::shortest(f.sd());
        if (f.figure) out += " " + base::shortest(f.figure->value);
        if (f.spectrum)
            for (const double v : f.spectrum->values) out += " " + base::shortest(v);
    }
    return out;
}

/// An id is one wood in every scene that means the same by it; a scene that means another has a piece of its own.
void give_faces(std::vector<Group>& groups) {
    std::map<std::string, std::map<std::string, std::string>> faces;  // [id][what it shows]
    for (auto& g : groups) {
        auto& of_id = faces[g.on.wood];
        const auto own = of_id.empty() ? g.on.wood : g.on.wood + "/" + std::to_string(g.scene);
        g.face = of_id.emplace(shown_of(g.on), own).first->second;
    }
}

std::vector<Group> groups_of(const std::vector<scene::Scene>& scenes, const scene::Library& library,
                             const BookRequest& request) {
    std::vector<Group> out;
    for (std::size_t s = 0; s < scenes.size(); ++s) {
        if (scenes[s].finishes.empty())
            throw scene::InputError("finish-empty", {scenes[s].file, 1, 1},
                                    "there is no finish: add [[finish]] with a name and at least one [[finish.step]]");
        if (request.woods.empty()) out.push_back({s, scenes[s], false, ""});
        for (const auto& id : request.woods) out.push_back({s, on_wood(scenes[s], id, library), false, ""});
    }
    give_faces(out);
    std::vector<std::string> order;
    for (const auto& g : out)
        if (std::find(order.begin(), order.end(), g.face) == order.end()) order.push_back(g.face);
    std::stable_sort(out.begin(), out.end(), [&](const Group& a, const Group& b) {
        return std::find(order.begin(), order.end(), a.face) < std::find(order.begin(), order.end(), b.face);
    });
    for (std::size_t i = 0; i < out.size(); ++i) out[i].bare = i == 0 || out[i].face != out[i - 1].face;
    return out;
}

std::vector<schedule::Finish> finishes_of(const Group& g) {
    std::vector<schedule::Finish> out;
    if (g.bare) out.push_back({"bare wood", {}, false});
    out.insert(out.end(), g.on.finishes.begin(), g.on.finishes.end());
    return out;
}

/// Works the finish out once for its faults, which it places in the scene.
void require_workable(const Group& g, std::size_t finish) {
    int step = 0;
    try {
        appearance::stages(g.on.materials, g.on.wood, g.on.finishes[finish], optics::Geometry::g45_0,
                           appearance::two_flux_solver(), &step);
    } catch (const schedule::Fault& fault) {
        throw g.on.at(fault, finish, static_cast<std::size_t>(std::max(step, 0)));
    }
}

void draw(BookChip& chip, const Group& g, const Face& face, const color::Weights& light) {
    const auto& m = g.on.materials;
    const auto board = appearance::boards(m, g.on.wood, chip.finish).back();
    const auto reading =
        appearance::render(board, g.on.wood_data(), optics::Geometry::g45_0, appearance::two_flux_solver());
    const auto xyz = color::xyz(reading.total(), light);
    chip.lab = color::to_lab(xyz, light.white);
    chip.screen = color::to_display(xyz, light.white);
    chip.fails = schedule::fails(schedule::check_order(chip.finish, m, &g.on.wood_data()));
    chip.picture = painted(face, state_on(face, board), light);
}

void add_spread(std::vector<BookChip>& chips, const Group& g, const color::Weights& light, Book& out) {
    const auto finishes = finishes_of(g);
    const auto spreads = appearance::spreads({g.on.materials,
                                              g.on.wood,
                                              finishes,
                                              optics::Geometry::g45_0,
                                              appearance::two_flux_solver(),
                                              {light},
                                              appearance::StagesAsked::last,
                                              g.on.knowledge(),
                                              {},
                                              few_worlds,
                                              false});
    for (std::size_t f = 0; f < spreads.size(); ++f) {
        auto& chip = chips[g.first + f];
        chip.region = spreads[f].regions.back()[0];
        for (const auto& lab : appearance::plausible(spreads[f].finished[0], chip.region, colors_of_a_strip))
            chip.plausible.push_back(color::to_display(color::from_lab(lab, light.white), light.white));
        out.rests_on = material::weaker(out.rests_on, spreads[f].rests_on);
    }
}

void warn_of_looks(Book& out, const std::vector<scene::Scene>& scenes) {
    for (const auto& s : scenes) {
        std::vector<std::string> differs;
        const auto& l = s.look.lights;
        if (std::find(l.begin(), l.end(), out.light) == l.end()) differs.push_back("under another light");
        if (s.look.observer != out.observer) differs.push_back("by another observer");
        if (s.look.geometry != optics::Geometry::g45_0) differs.push_back("in another geometry");
        if (!s.look.after.empty()) differs.push_back("after some time too");
        if (differs.empty()) continue;
        std::string text;
        for (const auto& d : differs) text += (text.empty() ? "" : ", ") + d;
        out.warnings.push_back({"book-look",
                                {s.file},
                                "the scene looks " + text + "; the whole book is shown new, under " + out.light +
                                    ", by observer " + out.observer + " at 45/0"});
    }
}

}  // namespace

Book book(const std::vector<scene::Scene>& scenes, const scene::Library& library, const BookRequest& request) {
    Book out;
    out.light = request.light.empty() ? scenes.at(0).look.lights.front() : request.light;
    out.observer = scenes.at(0).look.observer;
    const auto light = color::make_weights(library.illuminant(out.light), library.observer(out.observer));
    auto groups = groups_of(scenes, library, request);
    std::vector<std::size_t> of;  // group of each chip
    std::set<std::string> said;
    std::size_t pieces = 0;
    for (auto& g : groups) {
        if (g.bare) ++pieces;
        g.first = out.chips.size();
        for (const auto& finish : finishes_of(g)) {
            out.chips.push_back({g.scene,
                                 g.on.wood,
                                 g.on.materials.at(g.on.wood).name,
                                 finish.name,
                                 finish,
                                 {},
                                 {},
                                 {},
                                 {},
                                 false,
                                 {},
                                 pieces - 1});
            of.push_back(static_cast<std::size_t>(&g - groups.data()));
        }
        for (auto& word : cautions_of(g.on)) said.insert(word);
    }
    if (out.chips.size() > most_book_chips)
        throw scene::InputError("book-too-many", {scenes.front().file},
                                std::to_string(out.chips.size()) + " chips do not go into one book; at most " +
                                    std::to_string(most_book_chips) + ": take fewer scenes, or fewer woods (--wood)");
    for (std::size_t g = 0; g < groups.size(); ++g)
        for (std::size_t f = 0; f < groups[g].on.finishes.size(); ++f) require_workable(groups[g], f);

    // One piece of each wood.
    std::vector<const Group*> firsts;
    for (const auto& g : groups)
        if (g.bare) firsts.push_back(&g);
    const auto faces = base::parallel_map(firsts.size(), 0, [&](std::size_t i) {
        return std::optional(face_of(firsts[i]->on.wood_data(), request.cut, seed_of(firsts[i]->on.wood), request.width,
                                     request.height, request.dpi));
    });
    std::map<std::string, const Face*> face;
    for (std::size_t i = 0; i < firsts.size(); ++i) face[firsts[i]->face] = &*faces[i];
    base::parallel_for_all(out.chips.size(), [&](std::size_t i) {
        draw(out.chips[i], groups[of[i]], *face.at(groups[of[i]].face), light);
    });
    std::vector<Book> parts(groups.size());
    base::parallel_for_all(groups.size(), [&](std::size_t g) { add_spread(out.chips, groups[g], light, parts[g]); });
    for (const auto& p : parts) out.rests_on = material::weaker(out.rests_on, p.rests_on);

    out.cautions.assign(said.begin(), said.end());
    for (const auto& s : scenes) out.warnings.insert(out.warnings.end(), s.warnings.begin(), s.warnings.end());
    warn_of_looks(out, scenes);
    return out;
}

}  // namespace foretone::job
