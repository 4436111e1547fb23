// The fit of a color into sRGB at constant CIELAB lightness and hue.
//
// Symbols: f the cube root of CIELAB with its straight foot, its value for X, Y, Z over the white; t the share of the
// chroma kept. Lightness is f(Y) and hue the ratio of f(X) − f(Y) to f(Y) − f(Z), so that
//   X = f⁻¹(fy + t (fx − fy)),   Z = f⁻¹(fy + t (fz − fy)),
// and the largest t that fits is found by halving: grey fits, the whole does not. 20 halvings leave 1e-6 of the chroma.
//
// All of it in double precision and to the very edge. Where the line of t runs along a face of the gamut (deep oranges
// along the face where no green is left, pale yellows along that of full red), an allowance of ε in the channel that
// binds moves t, and with it the other channels, by many times ε: 1e-4 of light moved codes by up to eighty.

#include "foretone/light/screen.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "foretone/color/adaptation.hpp"
#include "foretone/color/srgb.hpp"

namespace foretone::light {
namespace {

using Linear = std::array<double, 3>;

constexpr double foot = 6.0 / 29.0;
constexpr int halvings = 20;

double f(double t) { return t > foot * foot * foot ? std::cbrt(t) : t / (3 * foot * foot) + 4.0 / 29.0; }
double f_inverse(double u) { return u > foot ? u * u * u : 3 * foot * foot * (u - 4.0 / 29.0); }

bool fits(const Linear& rgb, double slack) {
    return std::all_of(rgb.begin(), rgb.end(), [&](double v) { return v >= -slack && v <= 1 + slack; });
}

std::array<float, 3> single(const Linear& v) {
    return {static_cast<float>(v[0]), static_cast<float>(v[1]), static_cast<float>(v[2])};
}

std::vector<std::uint8_t> make_codes(std::size_t entries) {
    std::vector<std::uint8_t> codes(entries);
    for (std::size_t i = 0; i < entries; ++i) {
        const double linear = static_cast<double>(i) / static_cast<double>(entries - 1);
        codes[i] = static_cast<std::uint8_t>(std::lround(255 * color::srgb_encode(linear)));
    }
    return codes;
}

}  // namespace

Screen::Screen(const color::Xyz& white) {
    const auto adapt = color::adaptation_matrix(color::Cat::cat16, white, color::srgb_white);
    const double d65[] = {color::srgb_white.x, color::srgb_white.y, color::srgb_white.z};
    for (int column = 0; column < 3; ++column) {
        // The linear matrix, column by column, from the colors of unit X, Y and Z.
        const auto one = color::xyz_to_srgb({column == 0 ? 1.0 : 0, column == 1 ? 1.0 : 0, column == 2 ? 1.0 : 0});
        for (std::size_t row = 0; row < 3; ++row)
            from_relative_[row][static_cast<std::size_t>(column)] = color::srgb_decode(one[row]) * d65[column];
    }
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column)
            to_relative_[row][column] = adapt[static_cast<int>(column)][static_cast<int>(row)] / d65[row];
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column) {
            double sum = 0;
            for (std::size_t k = 0; k < 3; ++k) sum += from_relative_[row][k] * to_relative_[k][column];
            to_linear_[row][column] = static_cast<float>(sum);
        }
    // A power an entry: a third of the time that a small board takes, were it done for each.
    static const std::vector<std::uint8_t> codes = make_codes(code_entries);
    codes_ = codes.data();
}

Screen::Lent Screen::lent() const {
    Lent out{{}, edge, codes_, code_entries};
    for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t c = 0; c < 3; ++c) out.to_linear[3 * r + c] = to_linear_[r][c];
    return out;
}

std::array<float, 3> Screen::fitted(const std::array<float, 3>& xyz, Tally& tally) const {
    const auto times = [](const Matrix& m, const Linear& v) {
        Linear out{};
        for (std::size_t r = 0; r < 3; ++r) out[r] = m[r][0] * v[0] + m[r][1] * v[1] + m[r][2] * v[2];
        return out;
    };
    const Linear relative = times(to_relative_, {xyz[0], xyz[1], xyz[2]});
    const Linear whole = times(from_relative_, relative);
    if (fits(whole, rounding)) return single(whole);
    if (!(relative[1] < 1)) {
        ++tally.white;
        return {1, 1, 1};
    }
    ++tally.reduced;
    if (relative[1] <= 0) return {0, 0, 0};
    const double fx = f(relative[0]), fy = f(relative[1]), fz = f(relative[2]);
    const auto with_chroma = [&](double t) {
        return times(from_relative_, {f_inverse(fy + t * (fx - fy)), relative[1], f_inverse(fy + t * (fz - fy))});
    };
    double low = 0, high = 1;
    for (int i = 0; i < halvings; ++i) {
        const double middle = 0.5 * (low + high);
        (fits(with_chroma(middle), 0) ? low : high) = middle;
    }
    return single(with_chroma(low));
}

}  // namespace foretone::light
