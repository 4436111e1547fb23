#pragma once
/// Scattering between the streams of one medium, independent of wavelength.

#include <Eigen/Dense>

#include "angular_streams.hpp"

namespace foretone::optics::angular_detail {

/// With x = √flux-weight · radiance, downward x↓ and upward x↑, s = x↓ + x↑ and d = x↓ − x↑, and albedo a of single
/// scattering, light in the medium obeys, per unit optical depth downward,
///     ds/dτ = −(1/µ − a·odd) d,    dd/dτ = −(1/µ − a·even) s.
/// Both matrices are symmetric (reciprocity), 1/µ − a·even is non-negative for a ≤ 1 and annuls isotropic light at a =
/// 1 (energy), 1/µ − a·odd is positive.
struct Scattering {
    Eigen::VectorXd inverse_cosine;  ///< 1/µ of each stream that exists in the medium
    Eigen::VectorXd root_flux;       ///< √flux-weight: isotropic light of unit radiance
    Eigen::MatrixXd even, odd;
};

/// Henyey–Greenstein scattering of anisotropy −1 < g < 1 in a medium of index n.
Scattering make_scattering(const Streams& streams, double n, double g);

}  // namespace foretone::optics::angular_detail
