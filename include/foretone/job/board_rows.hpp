#pragma once
/// Boards whose pictures are handed over row by row: however large they are, little of them is in memory.

#include <cstdint>
#include <functional>
#include <span>
#include <string>

#include "foretone/job/stoppable.hpp"

namespace foretone::job {

/// Takes whole rows of a picture, from the top, three bytes a pixel.
using TakeRows = std::function<void(std::span<const std::uint8_t> rgb)>;

/// A picture that is about to be drawn.
struct NewPicture {
    std::string finish, light;  ///< as of its SeenBoard
    bool shaded = false;        ///< with toned edges
    bool strip = false;         ///< the strip under a passing light
    int width = 0, height = 0;  ///< pixels
};
using BeginPicture = std::function<TakeRows(const NewPicture&)>;

inline constexpr double held_pixels = 4e6;

/// As `boards`, but images and strips stay empty: `begin` is told of each in order and its rows go to what it returns.
/// Boards of more than `held` pixels are drawn in pieces, as often as they are needed: the same pictures.
Boards boards(const scene::Scene& scene, const scene::Library& library, const BoardRequest& request, const Going& going,
              const BeginPicture& begin, double held = held_pixels);

}  // namespace foretone::job
