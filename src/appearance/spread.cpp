// How sure colors are: slopes, then worlds, then what they make of every stage.

#include "foretone/appearance/spread.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "judged.hpp"

namespace foretone::appearance {
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
    for (std::size_t f = 0; f < out.size(); ++f) {
        auto& spread = out[f];
        spread.regions.clear(), spread.stages.clear(), spread.finished.clear(), spread.boards.clear();
        const std::size_t stages = slopes.lab[f].size();
        for (std::size_t s = 0; s < stages; ++s) {
            const bool finished = s + 1 == stages;
            spread.regions.emplace_back();
            for (std::size_t l = 0; l < q.lights.size(); ++l) {
                const Sample sample = sampled(sets, f, s, l, finished);
                spread.regions.back().push_back(region_of(sample, slopes.lab[f][s][l], figures.coordinates()));
                if (finished) {
                    auto& region = spread.regions.back().back();
                    spread.finished.push_back(sample.all());
                    set_boards_share(region, spread.finished.back());
                    spread.boards.push_back(boards_alone(spread.finished.back(), region.mean));
                }
                if (l == 0) spread.stages.push_back(finished ? sampled(sets, f, s, l, false).all() : sample.all());
            }
        }
    }
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
    }
    for (std::size_t a = 0; a < spreads.size(); ++a)
        for (std::size_t b = a + 1; b < spreads.size(); ++b)
            for (std::size_t l = 0; l < spreads[a].finished.size(); ++l) {
                const auto d = difference_spread(spreads[a].finished[l], spreads[b].finished[l]);
                if (too_rough(d.high_de00, d.sampling_error)) return true;
            }
    return false;
}

}  // namespace

std::vector<Spread> spreads(const SpreadQuestion& q) {
    if (q.lights.empty()) throw std::invalid_argument("spreads: no light");
    if (q.finishes.empty()) return {};
    UncertainFigures figures(q.materials, q.wood, q.finishes, q.lights.front(), q.knowledge);
    Eye eye(q, figures);
    const auto slopes = one_at_a_time(figures, eye);
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
        const auto draw = [&](std::size_t i) { sets[from + i] = draw_set(q, plan, mixed(seed, from + i)); };
        if (q.for_each)
            q.for_each(sets.size() - from, draw);
        else
            for (std::size_t i = 0; from + i < sets.size(); ++i) draw(i);
        look_at(sets, q, slopes, figures, out);
    } while (sets.size() + further_sets <= q.drawing.most_sets && too_rough(out));
    for (auto& spread : out)
        for (const auto& set : sets) spread.redrawn += set.redrawn;
    return out;
}

Spread spread(const material::Materials& materials, const std::string& wood, const schedule::Finish& finish,
              optics::Geometry geometry, const Solver& solver, const std::vector<color::Weights>& lights,
              const Knowledge& knowledge) {
    return std::move(spreads({materials, wood, {finish}, geometry, solver, lights, true, knowledge}).front());
}

}  // namespace foretone::appearance
