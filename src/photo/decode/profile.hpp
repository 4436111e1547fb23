#pragma once
/// What a file's codes stand for: a curve for each channel and a matrix, or a table of the profile's own.

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "foretone/photo/pixels.hpp"

namespace foretone::photo {

/// Codes into linear light.
class CodeMeaning {
public:
    /// sRGB, for codes of 8 or 16 bits.
    static CodeMeaning srgb(int bits);
    /// A PNG's own statement: exponent of its codes (1/2.2 is 0.45455) and chromaticities (white, red, green, blue; x
    /// and y).
    static CodeMeaning stated(int bits, double gamma, const std::array<double, 8>& chromaticities);
    /// An ICC profile; nothing if it is damaged or not for red, green and blue.
    static std::optional<CodeMeaning> icc(int bits, std::span<const std::uint8_t> profile);

    /// `count` pixels of red, green, blue into 3 · count values of linear light.
    void decode(const std::uint8_t* codes, std::uint16_t* linear, int count) const;
    void decode(const std::uint16_t* codes, std::uint16_t* linear, int count) const;

    const ToXyz& to_xyz() const { return to_xyz_; }
    const std::string& name() const { return name_; }
    /// The primaries are those of sRGB within what profiles are rounded to.
    bool like_srgb() const;

private:
    std::array<std::vector<std::uint16_t>, 3> curve_;
    std::shared_ptr<void> table_;  // the profile's table as a transform into linear BT.2020
    ToXyz to_xyz_{};
    std::string name_;
};

}  // namespace foretone::photo
