#pragma once
/// A board as an OpenPBR surface in a MaterialX document.
///
/// The wood with all that is in it is the diffuse base; the films are the coat, with their index, roughness and tint.
/// OpenPBR's roughness is √α. What the model reads at 45/0 (as MaterialX 1.39 builds it: coat over base, albedo
/// scaling, darkening by internal reflection), with w coat_weight, F0 = ((n−1)/(n+1))², K = 1 − (1−F0)/n², b
/// base_color, c coat_color:
///
///     R = w·L(α, n) + (1 − w·F0)·(1 − w + w·c)·(1 − w + w·(1−K)/(1−K·b))·((1 − max s)·b + s·L_fibre)
///
/// L the coat's lobe, s the fibres' reflectance. It is solved for b channel by channel in closed form.

#include <string>

#include "foretone/format/surface.hpp"

namespace foretone::format {

/// Parameters by their OpenPBR 1.1 names; all others keep the standard's defaults.
struct OpenPbr {
    Rgb base_color{0.8, 0.8, 0.8};
    double specular_weight = 0;
    Rgb specular_color{1, 1, 1};
    double specular_roughness = 0.3, specular_ior = 1.5, specular_roughness_anisotropy = 0;
    double coat_weight = 0, coat_roughness = 0, coat_ior = 1.6, coat_darkening = 1;
    Rgb coat_color{1, 1, 1};
};

/// Radiance factor that the model shows at 45/0.
Rgb reading_45_0(const OpenPbr& material);

struct OpenPbrFit {
    OpenPbr material;
    Loss loss;
};

/// The material whose reading at 45/0 is the surface's under D65. `base_color` is kept within 0–1 and the rest rounded
/// to the six decimals that are written; the loss is that of the material as written.
OpenPbrFit fit_open_pbr(const Surface& surface, const FitLights& lights, const FibreGlint& fibre = {});

/// Solves for the base color of `material`; the one it has is not looked at.
BaseSolver base_solver(const OpenPbr& material);

/// What the document says about itself.
struct MaterialWords {
    std::string name;     ///< of the material: letters, digits and '_' (others become '_')
    std::string comment;  ///< a paragraph on what it shows and what is lost
    std::string
        texture;  ///< file of the base color, sRGB codes, beside the document; empty: the color is the same all over
    double width_m = 0, height_m = 0;  ///< of what the texture shows
};

/// The document: MaterialX 1.39, color space lin_rec709.
std::string open_pbr_mtlx(const OpenPbr& material, const MaterialWords& words);

}  // namespace foretone::format
