#pragma once
// States of finishes drawn on one piece of wood, in the even light that lets colors be told apart.

#include <cstdint>

#include "foretone/appearance/mean_matched.hpp"
#include "foretone/grain/grain.hpp"
#include "foretone/light/board.hpp"

namespace foretone::job {

/// A piece of wood of one size, and the wood whose spots make the mean wood there.
struct Face {
    material::Wood wood;
    grain::Maps maps;
    material::Wood spots;
};

/// The face of a board at `dpi` pixels an inch: true size.
Face face_of(const material::Wood& wood, grain::Cut cut, std::uint64_t seed, int width, int height, double dpi);

/// A state of a finish on a face; under every light the same spots.
struct FaceState {
    appearance::ToneSpectra tones;
    light::Sheen sheen;
};
FaceState state_on(const Face& face, const appearance::Board& board);

/// Its picture under a light.
light::Image painted(const Face& face, const FaceState& state, const color::Weights& light);

}  // namespace foretone::job
