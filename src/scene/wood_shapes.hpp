#pragma once
/// What a color alone leaves open of a wood: which of the library's shapes its reflectance has, and which wood it is
/// like.

#include "foretone/material/relevel.hpp"
#include "foretone/scene/library.hpp"

namespace foretone::scene {

/// How far the reflectances of the library's woods, each brought to `lab`, differ over 400 to 700 nm: the root mean
/// square of their relative differences from their mean, and how many woods there are. A color that few woods can have
/// gives 0.1, of two or fewer.
struct ShapeSpread {
    double sd = 0.1;
    int woods = 0;
};
ShapeSpread shape_spread(const Library& library, const color::Lab& lab, const color::Weights& weights);

/// The library's wood whose color under `weights` is nearest to `lab` (ΔE*ab).
std::string nearest_wood(const Library& library, const color::Lab& lab, const color::Weights& weights);

/// What to say where a wood among the materials is one that light darkens much and the library's is fresh; empty if
/// none.
std::string will_darken(const material::Materials& materials);

/// Twice the spread of every figure but the reflectance: nobody has said which wood it is.
void make_generic(material::Wood& wood);

}  // namespace foretone::scene
