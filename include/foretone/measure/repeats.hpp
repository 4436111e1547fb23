#pragma once
/// Several readings of one patch brought to one, with the spread that they show.

#include "foretone/color/xyz.hpp"
#include "foretone/measure/reading.hpp"

namespace foretone::measure {

/// Averages readings that agree in name, tags, light, observer and geometry, in the order in which each patch first
/// appears.
///
/// Reflectances are averaged at the first repeat's wavelengths (others by cubic interpolation), Lab and XYZ by value.
/// `spread_de` becomes one standard deviation of a single reading: sqrt(Σ ΔE00(reading, mean)² / (m − 1)) over m ≥ 2
/// repeats; of spectra under `weights`, else of Lab. A reading that was not repeated keeps its own. A note tells what
/// was averaged. Repeats of which only some hold a reflectance (Lab, XYZ) stay apart.
Readings average_repeats(const Readings& in, const color::Weights& weights);

}  // namespace foretone::measure
