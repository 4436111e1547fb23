// The fit of a color into sRGB at constant CIELAB lightness and hue.
//
// Symbols: f the cube root of CIELAB with its straight foot, its value for X, Y, Z over the white; t the share of the
// chroma kept. Lightness is f(Y) and hue the ratio of f(X) − f(Y) to f(Y) − f(Z), so that
//   X = f⁻¹(fy + t (fx − fy)),   Z = f⁻¹(fy + t (fz − fy)),
// and the largest t that fits is found by halving: grey fits, the whole does not. 16 halvings leave 1.5e-5 of the
// chroma.

#include "foretone/light/screen.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/color/adaptation.hpp"
#include "foretone/color/srgb.hpp"

namespace foretone::light {
namespace {

constexpr float foot = 6.0F / 29.0F;

float f(float t) { return t > foot * foot * foot ? std::cbrt(t) : t / (3 * foot * foot) + 4.0F / 29.0F; }
float f_inverse(float u) { return u > foot ? u * u * u : 3 * foot * foot * (u - 4.0F / 29.0F); }

}  // namespace

Screen::Screen(const color::Xyz& white) {
    const auto adapt = color::adaptation_matrix(color::Cat::bradford, white, color::srgb_white);
    const double d65[] = {color::srgb_white.x, color::srgb_white.y, color::srgb_white.z};
    for (int column = 0; column < 3; ++column) {
        // The linear matrix, column by column, from the colors of unit X, Y and Z.
        const auto one = color::xyz_to_srgb({column == 0 ? 1.0 : 0, column == 1 ? 1.0 : 0, column == 2 ? 1.0 : 0});
        for (std::size_t row = 0; row < 3; ++row)
            from_relative_[row][static_cast<std::size_t>(column)] =
                static_cast<float>(color::srgb_decode(one[row]) * d65[column]);
    }
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column)
            to_relative_[row][column] =
                static_cast<float>(adapt[static_cast<int>(column)][static_cast<int>(row)] / d65[row]);
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column)
            for (std::size_t k = 0; k < 3; ++k)
                to_linear_[row][column] += from_relative_[row][k] * to_relative_[k][column];
    codes_.resize(1U << 16U);
    for (std::size_t i = 0; i < codes_.size(); ++i) {
        const double linear = static_cast<double>(i) / static_cast<double>(codes_.size() - 1);
        codes_[i] = static_cast<std::uint8_t>(std::lround(255 * color::srgb_encode(linear)));
    }
}

std::array<float, 3> Screen::fitted(const std::array<float, 3>& xyz, Tally& tally) const {
    std::array<float, 3> relative{};
    for (std::size_t r = 0; r < 3; ++r)
        relative[r] = to_relative_[r][0] * xyz[0] + to_relative_[r][1] * xyz[1] + to_relative_[r][2] * xyz[2];
    if (!(relative[1] < 1)) {
        ++tally.white;
        return {1, 1, 1};
    }
    ++tally.reduced;
    if (relative[1] <= 0) return {0, 0, 0};
    const float fx = f(relative[0]), fy = f(relative[1]), fz = f(relative[2]);
    const auto with_chroma = [&](float t) {
        const float x = f_inverse(fy + t * (fx - fy)), z = f_inverse(fy + t * (fz - fy));
        std::array<float, 3> rgb{};
        for (std::size_t r = 0; r < 3; ++r)
            rgb[r] = from_relative_[r][0] * x + from_relative_[r][1] * relative[1] + from_relative_[r][2] * z;
        return rgb;
    };
    const auto fits = [](const std::array<float, 3>& rgb) {
        return std::all_of(rgb.begin(), rgb.end(), [](float v) { return v >= -slack && v <= 1 + slack; });
    };
    float low = 0, high = 1;
    for (int i = 0; i < 16; ++i) {
        const float middle = 0.5F * (low + high);
        (fits(with_chroma(middle)) ? low : high) = middle;
    }
    return with_chroma(low);
}

}  // namespace foretone::light
