#pragma once
/// In whose units a scene is written, and so its results are printed.

#include "foretone/scene/scene.hpp"

namespace foretone::scene {

/// What [look] units says, else whose keys the scene has more of (wet_mil, coverage_ft2_per_gal and oz_per_qt are US;
/// wet_um, wet_g_per_m2, coverage_m2_per_l, g_per_l, ml and g metric), else metric.
schedule::UnitSystem units_of(const Scene& scene);

}  // namespace foretone::scene
