#pragma once
/// Cone-like signals: the matrices that adaptation and appearance work in.

#include <glm/mat3x3.hpp>
#include <glm/vec3.hpp>

#include "foretone/color/adaptation.hpp"

namespace foretone::color {

/// XYZ to the signals of `cat`.
glm::dmat3 cone_matrix(Cat cat);

/// Signals of a white; throws std::invalid_argument, naming it `which`, unless all are positive.
glm::dvec3 cones_of_white(const glm::dmat3& cone, const Xyz& white, const char* which);

}  // namespace foretone::color
