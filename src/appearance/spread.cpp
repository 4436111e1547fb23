// How sure colors are: slopes, then worlds, then what they make of every stage.

#include "foretone/appearance/spread.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "judged.hpp"

namespace foretone::appearance {

#ifdef FORETONE_SANITIZED
const std::size_t draw_sets = 4, most_draw_sets = 4;  // the same code on fewer worlds
#else
const std::size_t draw_sets = 6, most_draw_sets = 42;
#endif

namespace {

std::vector<Contribution> contributions(const UncertainFigures& figures, const std::vector<double>& alone,
                                        std::size_t finish) {
    std::vector<Contribution> out;
    for (std::size_t c = 0; c < alone.size(); ++c) {
        if (alone[c] <= 0) continue;
        const Contribution one{figures.what(c, finish), alone[c], figures.coordinates()[c].origin};
        const auto same = std::find_if(out.begin(), out.end(), [&](const auto& o) { return o.what == one.what; });
        if (same == out.end())
            out.push_back(one);
        else
            same->de00 = std::hypot(same->de00, one.de00);
    }
    std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.de00 > b.de00; });
    return out;
}

void weakest_marks(const material::Materials& used, const std::vector<std::string>& ids, Spread& out) {
    for (const auto& id : ids) {
        material::Material copy = used.at(id);
        for (const auto& f : material::figures(copy)) {
            if (!f.optical) continue;
            const auto mark = f.from().mark;
            if (mark > out.rests_on) out.weakest.clear();
            out.rests_on = material::weaker(out.rests_on, mark);
            if (mark == out.rests_on && (out.weakest.empty() || out.weakest.back() != id)) out.weakest.push_back(id);
        }
    }
}

// What the worlds of `sets` make of every stage.
void look_at(const std::vector<Set>& sets, const SpreadQuestion& q, const Slopes& slopes,
             const UncertainFigures& figures, std::vector<Spread>& out) {
    struct Place {
        std::size_t finish, stage, light;
    };
    const Worlds worlds(sets, figures.coordinates().size());
    const std::size_t lights = q.lights.size();
    std::vector<Place> places;
    for (std::size_t f = 0; f < out.size(); ++f) {
        auto& spread = out[f];
        const std::size_t stages = slopes.lab[f].size();
        spread.regions.assign(stages, std::vector<Region>(lights));
        spread.stages.assign(stages, {});
        spread.finished.assign(lights, {});
        spread.boards.assign(lights, {});
        for (std::size_t s = 0; s < stages; ++s)
            for (std::size_t l = 0; l < lights; ++l) places.push_back({f, s, l});
    }
    for_each(q, places.size(), [&](std::size_t i) {
        const auto [f, s, l] = places[i];
        auto& spread = out[f];
        const bool finished = s + 1 == slopes.lab[f].size();
        const auto& slope = slopes.lab[f][s][l];
        Draws draws = drawn(sets, f, s, l, finished);
        auto& region = spread.regions[s][l];
        region = region_of(draws, worlds, finished, slope, figures.coordinates());
        if (l == 0) spread.stages[s] = finished ? drawn(sets, f, s, l, false) : draws;
        if (!finished) return;
        set_boards_share(region, draws);
        spread.boards[l] = boards_alone(draws, region.mean, worlds, slope, figures.coordinates());
        spread.finished[l] = std::move(draws);
    });
    if (!q.compared) return;
    for_each(q, out.size(), [&](std::size_t f) {
        out[f].from_earlier.assign(f, {});
        for (std::size_t a = 0; a < f; ++a)
            for (std::size_t l = 0; l < lights; ++l)
                out[f].from_earlier[a].push_back(difference_of(out[a].finished[l], out[f].finished[l],
                                                               out[a].regions.back()[l].mean, worlds,
                                                               slopes.lab[f].back()[l] - slopes.lab[a].back()[l]));
    });
}

// Whether a quantile is off by more than is meant, of what is read of colors and of their differences side by side.
bool too_rough(double quantile, double error) {
    return error > sampling_error_meant && error * quantile > unseen_error_de00;
}

bool too_rough(const Region& region) { return too_rough(region.de00_90, region.de00_90_error); }

bool too_rough(const std::vector<Spread>& spreads) {
    for (const auto& spread : spreads) {
        for (const auto& stage : spread.regions)
            for (const auto& region : stage)
                if (too_rough(region)) return true;
        for (const auto& region : spread.boards)
            if (too_rough(region)) return true;
        for (const auto& from : spread.from_earlier)
            for (const auto& d : from)
                if (too_rough(d.high_de00, d.sampling_error)) return true;
    }
    return false;
}

}  // namespace

std::vector<Spread> spreads(const SpreadQuestion& q) {
    if (q.lights.empty()) throw std::invalid_argument("spreads: no light");
    if (q.finishes.empty()) return {};
    const UncertainFigures figures(q.materials, q.wood, q.finishes, q.lights.front(), q.knowledge);
    const auto slopes = one_at_a_time(q, figures.coordinates().size());
    const Plan plan(figures, slopes.finished());
    const std::uint64_t seed = q.drawing.seed ? mixed(seed_of(figures), q.drawing.seed) : seed_of(figures);

    std::vector<Spread> out(q.finishes.size());
    for (std::size_t f = 0; f < out.size(); ++f) {
        out[f].contributions = contributions(figures, slopes.de00[f], f);
        weakest_marks(figures.materials(), figures.used(f), out[f]);
        if (q.knowledge.ages())
            out[f].rests_on = material::weaker(out[f].rests_on, weakest(figures.ageing(), figures.materials()));
    }
    std::vector<Set> sets;
    do {
        const std::size_t from = sets.size();
        sets.resize(from == 0 ? q.drawing.sets : from + further_sets);
        for_each(q, sets.size() - from,
                 [&](std::size_t i) { sets[from + i] = draw_set(q, plan, mixed(seed, from + i)); });
        look_at(sets, q, slopes, figures, out);
    } while (sets.size() + further_sets <= q.drawing.most_sets && too_rough(out));
    for (auto& spread : out)
        for (const auto& set : sets) spread.redrawn += set.redrawn;
    return out;
}

Spread spread(const material::Materials& materials, const std::string& wood, const schedule::Finish& finish,
              optics::Geometry geometry, const Solver& solver, const std::vector<color::Weights>& lights,
              const Knowledge& knowledge) {
    return std::move(
        spreads({materials, wood, {finish}, geometry, solver, lights, StagesAsked::all, knowledge}).front());
}

}  // namespace foretone::appearance
