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

}  // namespace

std::vector<Spread> spreads(const SpreadQuestion& q) {
    if (q.lights.empty()) throw std::invalid_argument("spreads: no light");
    if (q.finishes.empty()) return {};
    UncertainFigures figures(q.materials, q.wood, q.finishes, q.lights.front(), q.knowledge);
    Eye eye(q, figures);
    const auto slopes = one_at_a_time(figures, eye);
    const Plan plan(figures, slopes.finished());
    const std::uint64_t seed = q.drawing.seed ? mixed(seed_of(figures), q.drawing.seed) : seed_of(figures);
    std::vector<Set> sets(q.drawing.sets);
    const auto draw = [&](std::size_t set) { sets[set] = draw_set(q, plan, mixed(seed, set)); };
    if (q.for_each)
        q.for_each(sets.size(), draw);
    else
        for (std::size_t set = 0; set < sets.size(); ++set) draw(set);

    std::vector<Spread> out(q.finishes.size());
    for (std::size_t f = 0; f < out.size(); ++f) {
        for (const auto& set : sets) out[f].redrawn += set.redrawn;
        out[f].contributions = contributions(figures, slopes.de00[f], f);
        weakest_marks(figures.materials(), figures.used(f), out[f]);
        if (q.knowledge.ages())
            out[f].rests_on = material::weaker(out[f].rests_on, weakest(figures.ageing(), figures.materials()));
        const std::size_t stages = slopes.lab[f].size();
        for (std::size_t s = 0; s < stages; ++s) {
            out[f].regions.emplace_back();
            for (std::size_t l = 0; l < q.lights.size(); ++l) {
                const Sample sample = sampled(sets, f, s, l, s + 1 == stages);
                out[f].regions.back().push_back(region_of(sample, slopes.lab[f][s][l], figures.coordinates()));
                if (s + 1 == stages) {
                    out[f].finished.push_back(sample.all());
                    set_boards_share(out[f].regions.back().back(), out[f].finished.back());
                }
                if (l == 0)
                    out[f].stages.push_back(s + 1 == stages ? sampled(sets, f, s, l, false).all() : sample.all());
            }
        }
        for (std::size_t l = 0; l < q.lights.size(); ++l)
            out[f].boards.push_back(boards_alone(out[f].finished[l], out[f].regions.back()[l].mean));
    }
    return out;
}

Spread spread(const material::Materials& materials, const std::string& wood, const schedule::Finish& finish,
              optics::Geometry geometry, const Solver& solver, const std::vector<color::Weights>& lights,
              const Knowledge& knowledge) {
    return std::move(spreads({materials, wood, {finish}, geometry, solver, lights, true, knowledge}).front());
}

}  // namespace foretone::appearance
