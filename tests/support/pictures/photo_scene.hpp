#pragma once
/// A photograph that never was: a bare board, a card and a bench under a lamp, seen by a camera with noise, worked out
/// from spectra.

#include <cstdint>
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
};

struct Staged {
    Staging as;
    grain::Maps maps;  ///< of the board
    light::Box board, card, clamp;
    Codes codes;           ///< sRGB, 8 bits
    photo::Pixels pixels;  ///< the same in linear light
};

/// Stages the photograph: neutral bench, the board with a margin, the card at its upper left, a black iron clamp at its
/// right edge, a small glint of the lamp on the board.
Staged staged(const Staging& as);

/// Bare wood and a finish as tables under `light`.
appearance::ToneTable tones(const std::string& wood, const schedule::Finish& finish, const std::string& light);

/// XYZ of the board's pixel (x, y) of the picture under D65 (Y = 100), solved from its own shade and uptake.
color::Xyz direct(const Staged& staged, const appearance::ToneTable& table, int x, int y);

}  // namespace foretone::test
