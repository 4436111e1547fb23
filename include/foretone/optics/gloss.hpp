#pragma once
/// The surface of a film: 60° gloss units to microfacet roughness, and the share of first-surface light each geometry
/// reads. GGX facets (Walter et al. 2007) with Smith shadowing; gloss after ISO 2813 (black glass n = 1.567).

#include "foretone/optics/stack.hpp"

namespace foretone::optics {

/// Gloss units of a surface of GGX roughness `alpha` (0 = smooth … 1) and index `n` (1–3) at 20, 60 or 85 degrees, with
/// ISO 2813's source image and receptor aperture; integrated to 1e-4 units. About half a millisecond. Throws
/// std::invalid_argument for arguments out of range.
double gloss_units(double alpha, double n, double angle_deg);

/// GGX roughness whose 60° gloss is `gu60` at index `n`. Values at or above the smooth gloss of that index give 0; the
/// result never exceeds 1. A fit to `gloss_units`, within 0.02 % of the roughness for n 1.3–1.8 and roughness 0.002–1;
/// well under a microsecond. Throws std::invalid_argument for a negative or non-finite gloss or an index outside 1–3.
double roughness_from_gu60(double gu60, double n);

/// Radiance factor of the first surface as read in a geometry: the microfacet lobe at 45/0; the whole regular
/// reflectance at 8° for d/8-included; for d/8-excluded the part scattered outside the gloss trap, a cone of 5° half
/// angle about the mirror direction. Throws std::invalid_argument for a roughness outside 0–1 or an index outside 1–3.
double surface_radiance(double alpha, double n, Geometry geometry);

}  // namespace foretone::optics
