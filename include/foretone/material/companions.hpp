#pragma once
/// Figures that only mean something together: a color number and the solids of the liquid it was read on, a scattering
/// and how it falls with the wavelength. Who states one of such a pair and takes the other from somewhere else is told.

#include <span>
#include <string_view>

#include "foretone/material/material.hpp"

namespace foretone::material {

/// `key` was stated on its own: `with` then comes from elsewhere, and matters because of `why`.
struct Companion {
    std::string_view key, with, why;
};

/// The pairs among the figures of what `data` holds, each in both directions where both matter. Keys are those of
/// `figures`; "wet_um" stands for each of its methods.
std::span<const Companion> companions(const Data& data);

}  // namespace foretone::material
