#pragma once
/// How the materials of a board age, as one world has it: the figures of material/ageing.hpp with their own spreads.

#include <functional>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "foretone/material/ageing.hpp"

namespace foretone::appearance {

/// Laws of all that finishes on one wood hold.
struct AgeingLaws {
    material::WoodAgeing wood;
    std::map<std::string, material::FilmAgeing, std::less<>> films;  ///< by class
    std::map<std::string, double, std::less<>> lightfastness;        ///< by dye
    double light = 1;  ///< what falls on this piece over what falls on one usual for the place

    const material::FilmAgeing& film(const material::Material& binder) const;
    /// Share of the ultraviolet that 50 µm of a binder keep back: its own figure, or its class's.
    double uv_absorbed(const material::Material& binder) const;
};

/// Of the materials as they stand.
AgeingLaws ageing_laws(const material::Materials& materials, const std::string& wood);

/// One independent standard normal number that moves the laws.
struct AgeingCoordinate {
    std::string name;       ///< "ageing/wood/brown"
    std::string what;       ///< what a finisher knows it as
    bool of_place = false;  ///< what differs from place to place, and not what materials are
    std::function<void(AgeingLaws&, double sigmas)> move;
};

/// Everything that is not known of how they age in those places. Amounts and doses are moved as logarithms, so that
/// none changes its sign; shares and lightfastness inside their range.
std::vector<AgeingCoordinate> ageing_coordinates(const AgeingLaws& laws, const material::Materials& materials,
                                                 std::span<const material::AgeSpan> places);

/// The weakest mark among the figures of age.
material::Mark weakest(const AgeingLaws& laws, const material::Materials& materials);

}  // namespace foretone::appearance
