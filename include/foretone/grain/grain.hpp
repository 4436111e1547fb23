#pragma once
/// A board of a wood as maps: how dark, how much a spot takes up, and which way its fibres lie, point by point.
///
/// The board is a plane through a log: rings are noisy cylinders around a wandering pith; pores, rays, streaks and curl
/// belong to the log, so that one description gives flat, quarter and rift faces. Lengths are millimetres: the same
/// seed at another scale is the same board sampled finer or coarser, each pixel the mean over its area.

#include <cstdint>
#include <vector>

#include "foretone/material/material.hpp"

namespace foretone::grain {

/// How the board lies in the log: `flat` far out and level with the rings, `quarter` along a radius, `rift` between.
enum class Cut { flat, quarter, rift };

/// Maps of a board's face, row by row from the top; the grain runs along x. Each holds width · height values.
struct Maps {
    int width = 0, height = 0;  ///< pixels
    double mm_per_px = 0;
    std::vector<float> shade;  ///< ln of local K/S over K/S of the library's mean wood; > 0 darker; within −2.5 … 4
    std::vector<float>
        uptake;  ///< local absorbency over the wood's mean absorbency; mean 1 over the board; within 0.05 … 8
    std::vector<float> rise;    ///< the fibre's angle out of the face, radians; + rises toward +x
    std::vector<float> turn;    ///< the fibre's angle in the face from +x toward +y (down), radians
    std::vector<float> pore{};  ///< share of the pixel that lies in open pores, 0–1

    std::size_t at(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
    }
};

/// A board of `width` × `height` pixels, each `mm_per_px` wide. `wood` without grain is drawn with
/// material::plain_grain().
///
/// Mean uptake is 1 within 1e-5; the mean bare reflectance over the board is that of the wood's file within 5e-4,
/// weighted by the eye's sensitivity (at single wavelengths 400–700 nm within 0.015, worst in the blue of strongly
/// ringed softwoods). `threads` 0: as many as the machine has; the result is the same for any number. Throws
/// std::invalid_argument unless both sides are 1–20000 pixels and at most 6000 mm, and `mm_per_px` is 0.005–5.
Maps grain(const material::Wood& wood, Cut cut, int width, int height, double mm_per_px, std::uint64_t seed,
           int threads = 0);

}  // namespace foretone::grain
