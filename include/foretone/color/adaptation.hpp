#pragma once
/// Chromatic adaptation: the tristimulus values that look, under one white, like others under another.

#include <glm/mat3x3.hpp>

#include "foretone/color/xyz.hpp"

namespace foretone::color {

/// The cone matrix a von Kries adaptation works in.
enum class Cat { bradford, cat02, cat16 };

/// The 3×3 matrix that takes XYZ under white `from` to XYZ under white `to` (complete adaptation).
/// GLM is column-major: `m * v`. Sources of the cone matrices: Lam 1985 (Bradford), CIE 159:2004 (CAT02), Li et al.
/// 2017 (CAT16).
glm::dmat3 adaptation_matrix(Cat cat, const Xyz& from, const Xyz& to);

/// `c` adapted from white `from` to white `to`: by CAT16 where colors are looked at; ICC profiles use Bradford.
Xyz adapt(const Xyz& c, const Xyz& from, const Xyz& to, Cat cat = Cat::cat16);

}  // namespace foretone::color
