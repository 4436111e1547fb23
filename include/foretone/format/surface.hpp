#pragma once
/// A board as a renderer with three color channels knows it: what both material formats are fitted to, and what they
/// lose.

#include <array>
#include <functional>

#include "foretone/appearance/render.hpp"
#include "foretone/color/xyz.hpp"
#include "foretone/format/exr.hpp"
#include "foretone/light/image.hpp"

namespace foretone::format {

/// Linear light, sRGB (Rec. 709) primaries, 1 = perfect diffuser.
using Rgb = std::array<double, 3>;

/// A finished (or any other) state of a board.
struct Surface {
    spectral::Spectrum reflectance{};  ///< reading at 45/0, first surface included
    double covered = 0;                ///< share of the area under film, 0–1
    double n = 1.5;                    ///< index of the uppermost film
    double alpha = 0;                  ///< its GGX roughness, 0–1
    spectral::Spectrum film_twice =
        spectral::Spectrum::constant(1);  ///< what all films let pass on the way in and out along the normal
};

/// The state as a surface; its reading is always taken at 45/0.
Surface surface_of(const appearance::Board& board, const material::Wood& wood, const appearance::Solver& solver);

/// Fibres that glint under the film (Marschner, Westin, Arbree & Moon 2005), as a renderer's anisotropic lobe.
struct FibreGlint {
    double share = 0;  ///< of the light that the wood sends to the eye at 45/0, all azimuths together, 0–0.5; 0: none
    double along =
        0.3;  ///< GGX roughness along the fibre, 0.05–1; across it the lobe is as wide as the model allows (1)
};

/// The lobe of fibres whose cone is `beta` wide (radians, inside the film) under a film of index `n`. A facet tilted by
/// δ turns the mirror direction by 2δ, 2δ/n inside: the cone's Gaussian is one of δ of standard deviation n β/2, and α
/// is √2 times that (as for Beckmann facets). Throws std::invalid_argument for a share outside 0–0.5 or a β not above
/// 0.
FibreGlint fibre_glint(double share, double beta, double n);

/// The two lights that the fit and its loss are told under, with the 2° observer.
struct FitLights {
    color::Weights d65, a;
};

/// Linear sRGB of a color under D65's white `white`, adapted from it to sRGB's own; components outside 0–1 are kept.
Rgb linear_srgb(const color::Xyz& c, const color::Xyz& white);

/// Linear sRGB of a reflectance under D65.
Rgb linear_srgb(const spectral::Spectrum& reflectance, const FitLights& lights);

/// How far a renderer's color is from the spectral one.
struct Loss {
    double d65 = 0;        ///< ΔE00 under D65
    double a = 0;          ///< ΔE00 under lamp A, whose own color is given to the renderer as red, green and blue
    bool clipped = false;  ///< the fit wanted a component outside 0–1
};

/// Loss of a renderer that shows `shown` at 45/0 in place of `reflectance`. Under A it multiplies red, green and blue
/// by those of the lamp, which is all that three channels can do; both colors are judged against the lamp's white.
Loss loss_of(const Rgb& shown, const spectral::Spectrum& reflectance, const FitLights& lights);

/// Base color of a material that makes it read a given color at 45/0; not kept within 0–1.
using BaseSolver = std::function<Rgb(const Rgb& target)>;

/// Base colors of a board's pixels, as sRGB codes.
struct BaseTexture {
    light::Image image;
    double clipped_share = 0;  ///< of the pixels: wanted a component outside 0–1
};

/// The base colors under which a material reads as `board` does at 45/0 under D65.
BaseTexture base_texture(const LinearImage& board, const BaseSolver& solve);

/// π f_r of a GGX lobe without its Fresnel factor, light at 45°, eye along the normal, averaged over the azimuth of the
/// light. Smith's shadowing, height-correlated. Roughness `along` and `across` in 0–1; 0 if either is 0.
double lobe_45_0(double along, double across);

}  // namespace foretone::format
