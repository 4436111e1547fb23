// Complete von Kries adaptation: XYZ → cone-like signals, each scaled by the ratio of the whites, and back.
//
// Symbols: C cone matrix · w1, w2 whites from and to · M = C⁻¹ diag(C w2 / C w1) C.
// The three cone matrices have condition numbers 2.1 to 2.9, so M carries the full precision of the whites.

#include "foretone/color/adaptation.hpp"

#include <cmath>
#include <stdexcept>
#include <string>

#include <glm/matrix.hpp>

#include "foretone/color/cones.hpp"
#include "foretone/base/number.hpp"
#include "matrix.hpp"

namespace foretone::color {

glm::dmat3 cone_matrix(Cat cat) {
    switch (cat) {
        case Cat::bradford:  // Lam 1985
            return rows({0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296});
        case Cat::cat02:  // CIE 159:2004
            return rows({0.7328, 0.4296, -0.1624}, {-0.7036, 1.6975, 0.0061}, {0.0030, 0.0136, 0.9834});
        case Cat::cat16:  // Li et al. 2017
            return rows({0.401288, 0.650173, -0.051461}, {-0.250268, 1.204414, 0.045854},
                        {-0.002079, 0.048952, 0.953127});
    }
    throw std::invalid_argument("adaptation: cat is " + std::to_string(static_cast<int>(cat)) +
                                ", not one of the three");
}

// All must be positive for a ratio of whites to mean anything.
glm::dvec3 cones_of_white(const glm::dmat3& cone, const Xyz& white, const char* which) {
    const glm::dvec3 c = cone * vec(white);
    for (int i = 0; i < 3; ++i) {
        if (!(c[i] > 0) || !std::isfinite(c[i])) {
            using base::shortest;
            throw std::invalid_argument(std::string("adaptation: white `") + which + "` is " + shortest(white.x) +
                                        ", " + shortest(white.y) + ", " + shortest(white.z) +
                                        ", not the color of a white light");
        }
    }
    return c;
}

glm::dmat3 adaptation_matrix(Cat cat, const Xyz& from, const Xyz& to) {
    const glm::dmat3 cone = cone_matrix(cat);
    const glm::dvec3 ratio = cones_of_white(cone, to, "to") / cones_of_white(cone, from, "from");
    const glm::dmat3 scale(ratio.x, 0, 0, 0, ratio.y, 0, 0, 0, ratio.z);
    return glm::inverse(cone) * scale * cone;
}

Xyz adapt(const Xyz& c, const Xyz& from, const Xyz& to, Cat cat) {
    return xyz_of(adaptation_matrix(cat, from, to) * vec(c));
}

}  // namespace foretone::color
