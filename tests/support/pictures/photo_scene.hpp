#pragma once
/// A photograph that never was: a bare board, a card and a bench under a lamp, seen by a camera with noise, worked out
/// from spectra.

#include <cstdint>
#include <functional>
#include <string>

#include "foretone/appearance/tones.hpp"
#include "foretone/grain/grain.hpp"
#include "foretone/photo/photo.hpp"
#include "support/pictures/photo_maker.hpp"

namespace foretone::test {

struct Staging {
    std::string wood = "cherry", light = "D65";
    grain::Cut cut = grain::Cut::flat;
    double exposure = 0.85;  ///< of the card's brightest channel, linear, at its reflectance
    double card = 0.90, bench = 0.30;
    double noise = 0;     ///< codes of 255, one standard deviation
    double gradient = 0;  ///< light falls by this share from left to right
    int width = 480, height = 360;
    double mm_per_px = 0.5;
    std::uint64_t seed = 3;
    bool glint = true;
    bool second_card = false;  ///< a card like the first, at the lower right of the board
    /// Brightness of the light at a place 0–1 across and down, over that where it is 1; empty: by `gradient`.
    std::function<double(double u, double v)> brightness = {};
    /// A second lamp and its share of the light at a place; empty: none.
    std::string other_light = {};
    std::function<double(double u, double v)> other_share = {};
};

struct Staged {
    Staging as;
    grain::Maps maps;  ///< of the board
    light::Box board, card, clamp;
    light::Box far_card;   ///< the second card, if there is one
    Codes codes;           ///< sRGB, 8 bits
    photo::Pixels pixels;  ///< the same in linear light
};

/// Stages the photograph: neutral bench, the board with a margin, the card at its upper left, a black iron clamp at its
/// right edge, a small glint of the lamp on the board.
Staged staged(const Staging& as);

/// The light at a pixel of the picture as it was staged: brightness and the second lamp's share.
struct StagedLight {
    double brightness = 1, other = 0;
};
StagedLight light_of(const Staging& as, int x, int y);

/// Bare wood and a finish as tables under `light`.
appearance::ToneTable tones(const std::string& wood, const schedule::Finish& finish, const std::string& light);

/// XYZ of the board's pixel (x, y) of the picture under D65 (Y = 100), solved from its own shade and uptake.
color::Xyz direct(const Staged& staged, const appearance::ToneTable& table, int x, int y);

}  // namespace foretone::test
