// Colors of many draws. Symbols: N draws · d uncertain figures · z_j deviate of figure j in standard deviations.
//
// Each draw sets all d figures at once, so products of effects (a stronger dye under a thinner coat) and bent responses
// are in the result, which moving one figure at a time leaves out. The one-at-a-time moves are made all the same: they
// say which figures matter, and they give the order in which figures take the lattice's dimensions, best spread first.
// Two moves of a few ΔE00 each are computed to 1e-9, so nothing cancels.

#include "foretone/appearance/spread.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>

#include "foretone/appearance/lattice.hpp"
#include "knobs.hpp"

namespace foretone::appearance {
namespace {
using color::Lab;
using Colors = std::vector<std::vector<Lab>>;  // [stage][light]

// What the stages look like with the knobs as they stand.
class Eye {
public:
    Eye(Knobs& knobs, const schedule::Finish& finish, optics::Geometry geometry, const Solver& solver,
        const std::vector<color::Weights>& lights)
        : knobs_(knobs), finish_(finish), geometry_(geometry), solver_(solver), lights_(lights) {}

    /// All stages; throws schedule::Fault.
    Colors all() { return look(false); }
    /// The last stage alone; empty if the schedule is impossible.
    std::optional<std::vector<Lab>> last() {
        try {
            return look(true).front();
        } catch (const schedule::Fault&) {
            return std::nullopt;
        }
    }

private:
    Colors look(bool only_last) {
        Colors out;
        const bool bare =
            std::all_of(finish_.steps.begin(), finish_.steps.end(), [](const auto& s) { return s.coats <= 0; });
        walk(knobs_.shelf(), knobs_.wood(), finish_, knobs_.departure(), nullptr, [&](const Moment& m) {
            if (only_last && m.kind != StageKind::finished && !bare) return;
            const auto total = render(m.board(), knobs_.wood(), geometry_, solver_).total();
            out.emplace_back();
            for (const auto& w : lights_) out.back().push_back(color::to_lab(color::xyz(total, w), w.white));
        });
        return out;
    }

    Knobs& knobs_;
    const schedule::Finish& finish_;
    optics::Geometry geometry_;
    const Solver& solver_;
    const std::vector<color::Weights>& lights_;
};

// ΔE00 of the finished color under the first light by each knob alone.
std::vector<double> one_at_a_time(Knobs& knobs, Eye& eye) {
    const auto base = eye.last();
    std::vector<double> out(knobs.count(), 0.0);
    for (std::size_t k = 0; k < knobs.count(); ++k) {
        for (const double sigmas : {1.0, -1.0}) {
            knobs.turn(k, sigmas);
            const auto moved = eye.last();
            if (base && moved && !base->empty()) out[k] = color::delta_e_00(base->front(), moved->front());
            if (moved) break;
        }
        knobs.turn(k, 0);
    }
    return out;
}

std::vector<Contribution> contributions(const Knobs& knobs, const std::vector<double>& alone) {
    std::vector<Contribution> out;
    for (std::size_t k = 0; k < knobs.count(); ++k) {
        if (out.empty() || out.back().what != knobs.what(k)) out.push_back({knobs.what(k), 0});
        out.back().de00 = std::hypot(out.back().de00, alone[k]);
    }
    std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.de00 > b.de00; });
    return out;
}

std::uint64_t seed_of(const Knobs& knobs) {
    std::uint64_t seed = 0;
    for (std::size_t k = 0; k < knobs.count(); ++k)
        for (const char c : knobs.what(k)) seed = mixed(seed, static_cast<unsigned char>(c));
    return seed;
}

// Sets all knobs to a point of the lattice and looks. An impossible schedule is drawn again from the same point of
// other shifts; a point that fails every time is left out.
std::optional<Colors> draw(Knobs& knobs, Eye& eye, const ShiftedLattice& lattice, const std::vector<std::size_t>& order,
                           std::size_t point, std::size_t& redrawn) {
    constexpr unsigned most_shifts = 64;
    for (unsigned again = 0; again < most_shifts; ++again) {
        for (std::size_t d = 0; d < order.size(); ++d)
            knobs.turn(order[d], normal_quantile(lattice.at(point, d, again)));
        try {
            return eye.all();
        } catch (const schedule::Fault&) {
            ++redrawn;
        }
    }
    return std::nullopt;
}

void weakest_marks(const material::Shelf& used, Spread& out) {
    for (const auto& [id, m] : used) {
        material::Material copy = m;
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

Spread spread(const material::Shelf& shelf, const std::string& wood, const schedule::Finish& finish,
              optics::Geometry geometry, const Solver& solver, const std::vector<color::Weights>& lights, double hand) {
    Spread out;
    Knobs knobs(shelf, wood, finish, hand);
    weakest_marks(knobs.shelf(), out);
    Eye eye(knobs, finish, geometry, solver, lights);
    const Colors base = eye.all();
    const auto alone = one_at_a_time(knobs, eye);
    out.contributions = contributions(knobs, alone);

    std::vector<std::size_t> order(knobs.count());
    std::iota(order.begin(), order.end(), std::size_t{0});
    // In steps of a factor 2: figures of like effect keep their dimensions when a figure changes a little, and the
    // result then changes little. What moves the color by no more than rounding does is told apart by nothing but its
    // place in the list.
    constexpr double rounding = 1e-6;
    const auto octave = [&](std::size_t k) {
        return alone[k] > rounding ? std::ilogb(alone[k]) : std::numeric_limits<int>::min();
    };
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return octave(a) > octave(b); });
    const ShiftedLattice lattice(order.size(), seed_of(knobs));
    std::vector<std::vector<std::vector<Lab>>> seen(base.size());  // [stage][light][draw]
    for (auto& stage : seen) stage.resize(lights.size());
    for (std::size_t point = 0; point < lattice_points; ++point) {
        const auto colors = draw(knobs, eye, lattice, order, point, out.redrawn);
        if (!colors) continue;
        for (std::size_t s = 0; s < base.size(); ++s)
            for (std::size_t l = 0; l < lights.size(); ++l) seen[s][l].push_back((*colors)[s][l]);
    }
    for (const auto& stage : seen) {
        out.regions.emplace_back();
        for (const auto& colors : stage) out.regions.back().push_back(region(colors));
    }
    out.finished = std::move(seen.back());
    return out;
}

}  // namespace foretone::appearance
