#pragma once
/// The Henyey–Greenstein phase function averaged over azimuth, and its integrals over a set of streams.

#include <vector>

#include "angular_streams.hpp"

namespace foretone::optics::angular_detail {

/// Phase function of anisotropy g, mean 1 over the sphere, between cosines µ and ν (−1 to 1), averaged over azimuth.
double mean_phase(double mu, double nu, double g);

/// Scattering into a direction from a field known at the streams: forward (same side) and backward parts,
/// ½∫ p(µ, ±ν) I(ν) dν ≈ Σ forward_j I_j (backward_j).
struct ScatterRow {
    std::vector<double> forward, backward;  ///< one entry a stream of the medium; 0 for views
};

/// That row for the direction of cosine `mu` in a medium of index n, to about 1e-9 where the field is a polynomial in
/// each interval.
ScatterRow scatter_row(const Streams& streams, double n, double g, double mu);

}  // namespace foretone::optics::angular_detail
