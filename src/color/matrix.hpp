#pragma once
/// A 3×3 matrix written row by row, as in print; GLM stores columns.

#include <glm/mat3x3.hpp>
#include <glm/vec3.hpp>

#include "foretone/color/xyz.hpp"

namespace foretone::color {

inline glm::dmat3 rows(const glm::dvec3& r0, const glm::dvec3& r1, const glm::dvec3& r2) {
    return glm::transpose(glm::dmat3(r0, r1, r2));
}

inline glm::dvec3 vec(const Xyz& c) { return {c.x, c.y, c.z}; }
inline Xyz xyz_of(const glm::dvec3& v) { return {v.x, v.y, v.z}; }

}  // namespace foretone::color
