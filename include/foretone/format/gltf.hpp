#pragma once
/// A board as a glTF 2.0 file: a flat board of its true size with one material.
///
/// glTF's clear coat (KHR_materials_clearcoat) is the film: its roughness is √α, its index is fixed at 1.5 and it has
/// no tint. What lies under it is the base color; the base's own dielectric lobe, which a finished board does not have,
/// is either turned off or used for the fibres' highlight (KHR_materials_specular, _ior, _anisotropy). What the model
/// reads at 45/0, with w clearcoatFactor, b base color, f the fibres' Fresnel reflectance at 22.5°:
///
///     R = 0.04·w·L(α) + (1 − 0.04·w)·((1 − max f)·b + f·L_fibre)
///
/// It is solved for b channel by channel.

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "foretone/format/surface.hpp"

namespace foretone::format {

/// Factors as glTF names them; metallic is 0.
struct GltfMaterial {
    Rgb base_color{1, 1, 1};  ///< linear
    double roughness = 1;     ///< of the base's lobe: α = roughness²
    double ior = 1.5;
    double specular = 0;
    Rgb specular_color{1, 1, 1};  ///< linear, may exceed 1
    double anisotropy = 0;        ///< 0–1; the wide side lies across the grain
    double clearcoat = 0;
    double clearcoat_roughness = 0;  ///< α = roughness²
};

/// Radiance factor that the model shows at 45/0.
Rgb reading_45_0(const GltfMaterial& material);

struct GltfFit {
    GltfMaterial material;
    Loss loss;
};

/// The material whose reading at 45/0 is the surface's under D65; as `fit_open_pbr`.
GltfFit fit_gltf(const Surface& surface, const FitLights& lights, const FibreGlint& fibre = {});

/// Solves for the base color of `material`; the one it has is not looked at.
BaseSolver base_solver(const GltfMaterial& material);

/// The board that carries the material, and what the file says about itself.
struct GltfBoard {
    double width_m = 0.3, height_m = 0.2;  ///< > 0; the grain runs along the width, the face looks along +z
    std::vector<std::uint8_t> png;         ///< base color as an sRGB picture; empty: the color is the same all over
    std::string name, generator;
    std::vector<std::pair<std::string, std::string>> words;  ///< into `extras`
    std::vector<std::pair<std::string, double>> figures;     ///< into `extras`
};

/// The file as JSON text with its buffer (and picture) inside. Throws std::invalid_argument for a size not above 0.
std::string gltf(const GltfMaterial& material, const GltfBoard& board);

}  // namespace foretone::format
