#pragma once
/// The two-flux equations with a beam and an eye, solved by growing the slab from below in thin layers (invariant
/// embedding), by Runge and Kutta's fourth-order rule: an independent way to the closed forms of the kernels.

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "../../src/optics/beam.hpp"
#include "foretone/optics/calibration.hpp"
#include "foretone/optics/stack.hpp"

namespace foretone::test {

/// What is below a level: diffuse up, beam up, diffuse seen, beam seen, diffuse through, beam through (see
/// kernels::Channels).
using Grown = std::array<double, 6>;

/// A thin layer adds to each what it turns, loses or shows, per unit thickness; S, K two-flux coefficients, q and q′
/// the beam's and the eye's scattering into one hemisphere, m and m′ their extinction along the normal.
inline Grown growth(const Grown& g, double k, double s, double reduced, double m, double m_eye, double beam,
                    double eye) {
    const auto [dd, bd, dv, bv, dt, bt] = g;
    const double q = 0.5 * reduced * beam, q_eye = optics::source_gain * 0.5 * reduced * eye, loss = k + s;
    return {s - 2 * loss * dd + s * dd * dd,
            q * (1 + dd) - (loss + m) * bd + s * dd * bd,
            q_eye * (1 + dd) - (m_eye + loss) * dv + s * dd * dv,
            0.25 * reduced * beam * eye + q_eye * bd - (m + m_eye) * bv + dv * (q + s * bd),
            dt * (s * dd - loss),
            -m * bt + dt * (q + s * bd)};
}

/// A slab (µa, µs, g, thickness) over `below`, beam and eye at secants 1/µ. Good to 1e-10 for depths below about 100.
inline Grown grown(double absorption, double scattering, double g, double thickness_mm, double beam, double eye,
                   Grown below) {
    const double reduced = (1 - g) * scattering, extinction = absorption + reduced;
    const optics::KubelkaMunk km = optics::from_transport(absorption, scattering, g);
    const int steps = 20 + static_cast<int>(extinction * thickness_mm * std::max(beam, eye) / 0.004);
    const double h = thickness_mm / steps;
    const auto rate = [&](const Grown& at) {
        return growth(at, km.absorption_per_mm, km.scattering_per_mm, reduced, extinction * beam, extinction * eye,
                      beam, eye);
    };
    const auto moved = [](Grown from, const Grown& by, double step) {
        for (std::size_t i = 0; i < from.size(); ++i) from[i] += step * by[i];
        return from;
    };
    for (int i = 0; i < steps; ++i) {
        const Grown a = rate(below), b = rate(moved(below, a, h / 2));
        const Grown c = rate(moved(below, b, h / 2)), d = rate(moved(below, c, h));
        for (std::size_t j = 0; j < below.size(); ++j) below[j] += h / 6 * (a[j] + 2 * b[j] + 2 * c[j] + d[j]);
    }
    return below;
}

}  // namespace foretone::test
