#pragma once
/// What the two halves of the photograph's board share: curves over luminance, and a fast power.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace foretone::photo {

/// sRGB's white, Y = 1 (IEC 61966-2-1: x 0.3127, y 0.3290).
inline constexpr std::array<float, 3> d65_white = {0.3127F / 0.3290F, 1.0F, (1 - 0.3127F - 0.3290F) / 0.3290F};

/// A pixel's own color against its wood's is kept within these ratios of X and of Z, either way.
inline constexpr float x_limit = 1.2F, z_limit = 1.7F;

/// Pixels from this weight up are wood and nothing else: they make the mean color, unless they are brighter than wood
/// can be.
inline constexpr float whole = 0.98F;

/// Curves have entries evenly spaced in √Y, up to this Y: dark wood is where steps are seen.
inline constexpr std::size_t curve_entries = 1025;
inline constexpr float curve_top = 2.0F;

/// Finished colors have entries evenly spaced in ln of uptake, over the uptakes of a drawn board (0.05 to 8).
inline constexpr std::size_t uptake_entries = 25;
inline constexpr float ln_uptake_low = -2.9957F, ln_uptake_step = (2.0794F + 2.9957F) / float(uptake_entries - 1);

inline float curve_place(float luminance) {
    const float q = std::sqrt(std::clamp(luminance, 0.0F, curve_top) / curve_top) * float(curve_entries - 1);
    return std::min(q, float(curve_entries - 1) - 0.001F);
}

/// The entry for one luminance, linear between two. `Curve` is a vector of structs of floats with px, pz, gx, gz,
/// shade, above.
template <class Curve>
typename Curve::value_type entry_at_place(const Curve& curve, float q) {
    const auto i = static_cast<std::size_t>(q);
    const float f = q - float(i);
    const auto &a = curve[i], &b = curve[i + 1];
    typename Curve::value_type e;
    e.px = a.px + f * (b.px - a.px);
    e.pz = a.pz + f * (b.pz - a.pz);
    e.gx = a.gx + f * (b.gx - a.gx);
    e.gz = a.gz + f * (b.gz - a.gz);
    e.shade = a.shade + f * (b.shade - a.shade);
    e.above = a.above;
    return e;
}

template <class Curve>
typename Curve::value_type entry_at(const Curve& curve, float luminance) {
    return entry_at_place(curve, curve_place(luminance));
}

/// d ln(value)/d shade of each channel of evenly spaced tones, by differences; one-sided at the ends.
std::vector<std::array<double, 3>> log_slopes(const std::vector<std::array<double, 3>>& tones, double step);

/// r^g for r from 1/1.7 to 1.7 and g from 0 to 4, relative error below 1e-4: ln r = 2 (z + z³/3 + z⁵/5 + z⁷/7), z = (r
/// − 1)/(r + 1), and exp x = (exp(x/8))⁸ with five terms.
/// `T` is a float or a vector of floats.
template <class T>
T power(T r, T g) {
    const T z = (r - 1.0F) / (r + 1.0F), zz = z * z;
    const T x = g * 2.0F * z * (1.0F + zz * (1.0F / 3 + zz * (0.2F + zz * (1.0F / 7)))) / 8.0F;
    const T e = 1.0F + x * (1.0F + x * (0.5F + x * (1.0F / 6 + x * (1.0F / 24 + x * (1.0F / 120)))));
    const T e2 = e * e, e4 = e2 * e2;
    return e4 * e4;
}

}  // namespace foretone::photo
