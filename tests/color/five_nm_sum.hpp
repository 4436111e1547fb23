#pragma once
/// White points as the CIE worked them out.

#include "foretone/color/xyz.hpp"
#include "foretone/spectral/sampled.hpp"

namespace foretone::test {

/// The plain sum over the 5 nm table from 380 to 780 nm, with which the CIE computed the white points and
/// chromaticities that it prints; Y = 100.
inline color::Xyz five_nm_sum(const spectral::Illuminant& l, const spectral::Observer& o) {
    color::Xyz c;
    for (double nm = 380; nm <= 780; nm += 5) {
        const double s = spectral::linear_at(l.power, nm);
        c.x += s * spectral::linear_at(o.x, nm);
        c.y += s * spectral::linear_at(o.y, nm);
        c.z += s * spectral::linear_at(o.z, nm);
    }
    return {100 * c.x / c.y, 100, 100 * c.z / c.y};
}

}  // namespace foretone::test
