#pragma once
/// How far boards lie from their prediction when the materials are exactly as predicted.

#include <vector>

#include "foretone/color/xyz.hpp"
#include "foretone/learn/fit.hpp"
#include "foretone/search/finished.hpp"

namespace foretone::learn {

/// Share of such boards that the bound is to hold.
inline constexpr double noise_share = 0.95;

/// ΔE00 from the prediction. The first four are one standard deviation under the first light, each by itself.
struct BoardNoise {
    double reading_de00 = 0;  ///< of the reading's repeat
    double board_de00 = 0;    ///< of one board of the wood from the next
    double place_de00 = 0;    ///< of one place of the board from the next
    double hand_de00 = 0;     ///< of the wet films as the hand lays them
    double bound_de00 = 0;    ///< 95 % of boards lie within this under every light

    double reading_and_board_de00() const;  ///< one standard deviation of one reading of one board
};

/// The noise of a reading (one standard deviation of its repeat `spread_de`, ΔE*ab) of `finish` on the bench under
/// `lights` (one or more). What is not known of the materials is no part of it. Throws schedule::Fault as `finished`.
BoardNoise board_noise(const search::Setting& setting, const schedule::Finish& finish,
                       const std::vector<color::Weights>& lights, double spread_de, const Noise& noise = {});

}  // namespace foretone::learn
