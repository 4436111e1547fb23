// Blotch is uptake that differs from place to place by more than grain: ln u is taken as normal, s its standard
// deviation, and u = exp(s z − s²/2) has the mean 1. Over the outer tenth of z the mean is φ(z₁₀)/0.1 = 1.7550, with
// z₁₀ = 1.2816. The color at the mean deviate stands for the mean color of the tenth: ΔE00 is nearly straight in z over
// so narrow a part.

#include "foretone/appearance/uneven.hpp"

#include <cmath>

#include "foretone/appearance/tones.hpp"
#include "foretone/color/lab.hpp"

namespace foretone::appearance {

std::array<double, 2> outer_tenths(double blotch) {
    constexpr double z = 1.7550;
    return {std::exp(-z * blotch - blotch * blotch / 2), std::exp(z * blotch - blotch * blotch / 2)};
}

Tenths tenths(const Board& board, const material::Wood& wood, optics::Geometry geometry, const Solver& solver) {
    const auto [least, most] = outer_tenths(wood.grain ? wood.grain->blotch.value : 0);
    return {render(at_uptake(board, least), wood, geometry, solver),
            render(at_uptake(board, most), wood, geometry, solver)};
}

double uneven_de00(const Tenths& tenths, const color::Weights& light) {
    const auto lab = [&](const SplitReflectance& r) {
        return color::to_lab(color::xyz(r.total(), light), light.white);
    };
    return color::delta_e_00(lab(tenths[0]), lab(tenths[1]));
}

std::string_view uneven_word(double de00) {
    return de00 < 1 ? "even" : de00 < 2 ? "slightly uneven" : de00 < 4 ? "uneven" : "blotchy";
}

}  // namespace foretone::appearance
