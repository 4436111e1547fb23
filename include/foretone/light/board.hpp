#pragma once
/// The finished board in light: maps of a board and the colors of a finish into pixels.
///
/// A pixel is the body's color for its shade and uptake, made brighter or duller by the fibres' highlight, plus what
/// the film's facets mirror of the light. White balance is the light's own: a perfect diffuser at the middle of the
/// board is neutral, Y = 100.

#include <cstdint>
#include <string>
#include <vector>

#include "foretone/appearance/tones.hpp"
#include "foretone/grain/grain.hpp"
#include "foretone/light/image.hpp"
#include "foretone/light/screen.hpp"

namespace foretone::light {

/// How the board is lit and looked at.
enum class View {
    flat,     ///< as an instrument reads it, 45/0: no highlights; its mean is the reading
    window,   ///< a window beyond the board, somewhat to the left; the eye on this side, 30° from straight above
    lamp,     ///< a shaded lamp beyond the board, to the right, in a dimmer room
    passing,  ///< a small light beyond the board, for one that is carried along the grain
    even      ///< a reading (`flat`) at which fibres still shimmer: no mirrored light, no falloff, to tell colors apart
};

/// "flat", "window", "lamp", "passing", "even".
std::string_view word(View view);

/// The surface of one state of a board.
struct Sheen {
    double covered = 0;   ///< share of the area under film, 0–1; the rest is dry, sanded wood
    double n = 1.5;       ///< index of the uppermost film
    double alpha = 1;     ///< its GGX roughness, 0–1
    double outer = 0.04;  ///< diffuse first-surface reflection of the dry share
    double film_um = 0;   ///< what fills pores level
};

Sheen sheen_of(const appearance::Board& board, const material::Wood& wood);

/// The fibres' highlight (optics/fibre_lobe.hpp).
struct Fibres {
    material::Figure
        share;  ///< share of the 45/0 reading that is theirs, averaged over the board's turn under the instrument, 0–1
    material::Figure beta_deg;  ///< width of the lobe, one standard deviation
};

/// Of a wood under film, from its anatomy: much where fibres lie bare between few open cells, more where they are
/// interlocked (the woods that shimmer), little where large pores break them up. The dry share keeps a fifth of it,
/// twice as wide, because its surface scatters on the way in and out. Not measured: marked practice, with a wide
/// spread.
Fibres fibres_of(const material::Wood& wood);

/// One state of a finish on one wood, ready to be lit.
struct Finished {
    const appearance::ToneTable& tones;  ///< at 45/0, under the light
    Sheen sheen;
    Fibres fibres;
};

struct Lighting {
    View view = View::window;
    double tilt_deg = 0;  ///< the light swung along the grain, to the right if positive; −60…60. Not for `flat`.
};

struct Lit {
    Image image;
    color::Xyz mean;  ///< of the scene's light over the board, before any fit to the screen; Y = 100 for the diffuser
    Tally tally;      ///< pixels changed to fit the screen
    double reduced_share() const;
    double white_share() const;
};

/// The picture of a board; `threads` 0: as many as the machine has; the same bytes for any number. Maps without turn
/// and rise have straight fibres; without uptake, an even one. Throws std::invalid_argument for maps whose lengths
/// disagree, or a tilt out of range.
Lit light_board(const grain::Maps& maps, const Finished& finished, const Lighting& lighting, int threads = 0);

}  // namespace foretone::light
