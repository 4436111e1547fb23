// Differences of two finishes, draw by draw. Symbols: p, q colors of the two in one world.
//   ΔE00(p, q) in every world: its 5 % and 95 % quantiles, its share above a threshold; and what q − p is off its mean
//
// Pairs of one world share materials and board, so what both have in common cancels, as it does side by side.

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "foretone/appearance/spread.hpp"

namespace foretone::appearance {
namespace {
using color::Lab;

void require_pairs(const Draws& from, const Draws& to) {
    if (from.empty() || from.size() != to.size())
        throw std::invalid_argument("draws: " + std::to_string(from.size()) + " and " + std::to_string(to.size()) +
                                    ", not the same number, one or more");
}

}  // namespace

DifferenceSpread difference_spread(const Draws& from, const Draws& to, std::vector<double>* de00) {
    require_pairs(from, to);
    const auto n = static_cast<double>(from.size());
    Lab mean;
    for (std::size_t i = 0; i < from.size(); ++i) {
        mean.l += (to[i].l - from[i].l) / n;
        mean.a += (to[i].a - from[i].a) / n;
        mean.b += (to[i].b - from[i].b) / n;
    }
    std::vector<double> de;
    double squares = 0;
    for (std::size_t i = 0; i < from.size(); ++i) {
        de.push_back(color::delta_e_00(from[i], to[i]));
        const double off = color::delta_e_00({from[i].l + mean.l, from[i].a + mean.a, from[i].b + mean.b}, to[i]);
        squares += off * off;
    }
    if (de00) *de00 = de;
    constexpr double side = (1 - region_share) / 2;
    return {std::sqrt(squares / n), quantile(de, side), quantile(de, 1 - side)};
}

Draws on_the_other_board(Draws draws) {
    for (std::size_t i = 0; i + 1 < draws.size(); i += 2) std::swap(draws[i], draws[i + 1]);
    return draws;
}

double chance_beyond(double threshold, const Draws& from, const Draws& to) {
    require_pairs(from, to);
    std::size_t beyond = 0;
    for (std::size_t i = 0; i < from.size(); ++i) beyond += color::delta_e_00(from[i], to[i]) > threshold;
    return static_cast<double>(beyond) / static_cast<double>(from.size());
}

}  // namespace foretone::appearance
