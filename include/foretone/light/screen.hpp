#pragma once
/// Many colors onto an sRGB screen: what color::to_display does for one, fast.

#include <array>
#include <cstdint>

#include "foretone/color/xyz.hpp"
#include "foretone/light/image.hpp"

namespace foretone::light {

/// How often a screen could not show a color as it is.
struct Tally {
    std::uint64_t reduced = 0;  ///< chroma reduced at constant CIELAB hue and lightness
    std::uint64_t white = 0;    ///< lighter than white: shown as white

    void add(const Tally& more) {
        reduced += more.reduced;
        white += more.white;
    }
};

/// Colors under one white, adapted to D65 by CAT16. The same codes as color::to_display, one code apart at most
/// (tested); never clipped per channel beyond the rounding of single precision, a hundredth of a code.
class Screen {
public:
    /// Throws std::invalid_argument for a white that no light has.
    explicit Screen(const color::Xyz& white);

    /// The code of a color, Y = 100 for the white.
    Code code(float x, float y, float z, Tally& tally) const {
        std::array<float, 3> rgb{};
        for (std::size_t c = 0; c < 3; ++c) rgb[c] = to_linear_[c][0] * x + to_linear_[c][1] * y + to_linear_[c][2] * z;
        for (const float v : rgb)
            if (!(v >= edge && v <= 1 - edge)) {
                rgb = fitted({x, y, z}, tally);
                break;
            }
        return {encoded(rgb[0]), encoded(rgb[1]), encoded(rgb[2])};
    }

    /// Linear sRGB of a color, 0–1 inside the gamut, not fitted into it.
    std::array<float, 3> linear(float x, float y, float z) const {
        std::array<float, 3> rgb{};
        for (std::size_t c = 0; c < 3; ++c) rgb[c] = to_linear_[c][0] * x + to_linear_[c][1] * y + to_linear_[c][2] * z;
        return rgb;
    }

    /// What loops over pixels read: the matrix to linear sRGB, row by row, how near an edge a channel must be fitted,
    /// and the code of light i/(entries − 1).
    struct Lent {
        std::array<float, 9> to_linear;
        float edge;
        const std::uint8_t* codes;
        std::size_t entries;
    };
    Lent lent() const;

private:
    // Of linear light. Colors come in single precision, known to 3e-7 of it, and their sums to 1e-6: nearer the edge
    // than `edge` double precision decides, and what is out by less than `rounding` is in.
    static constexpr float edge = 4e-6F;
    static constexpr double rounding = 5e-7;
    static constexpr std::size_t code_entries = 1U << 16U;
    using Matrix = std::array<std::array<double, 3>, 3>;

    std::uint8_t encoded(float linear) const {
        const float v = linear < 0 ? 0 : linear > 1 ? 1 : linear;
        return codes_[static_cast<std::size_t>(v * static_cast<float>(code_entries - 1) + 0.5F)];
    }
    // What the screen shows of a color near its edge or beyond.
    std::array<float, 3> fitted(const std::array<float, 3>& xyz, Tally& tally) const;

    std::array<std::array<float, 3>, 3> to_linear_{};  // XYZ under the white, Y = 100, to linear sRGB
    Matrix to_relative_{};                             // to XYZ under D65 over its white
    Matrix from_relative_{};                           // and that to linear sRGB
    const std::uint8_t* codes_;                        // of light i/(code_entries − 1): one table for all screens
};

}  // namespace foretone::light
