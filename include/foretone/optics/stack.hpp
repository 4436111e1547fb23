#pragma once
/// A stack of layers in air over a base, in transport coefficients. Both solvers answer this one type.
///
/// Symbols: n refractive index · µa absorption and µs scattering coefficient, 1/mm, natural log · g mean cosine of
/// scattering · d thickness, mm. All arrays have one entry a wavelength; the solvers neither know nor care which.

#include <cstddef>
#include <vector>

namespace foretone::optics {

/// One homogeneous layer. Clear if `scattering_per_mm` is empty or all zero.
struct Layer {
    double n = 1.5;                         ///< 1–3, the same at all wavelengths
    double thickness_mm = 0;                ///< > 0; infinity for a half-space (last layer only)
    std::vector<double> absorption_per_mm;  ///< µa ≥ 0
    std::vector<double> scattering_per_mm;  ///< µs ≥ 0; empty means none
    double anisotropy = 0;                  ///< g, −1 < g < 1; Henyey–Greenstein
};

/// What lies under the last layer, optically in contact with it (same index).
struct Base {
    enum class Kind {
        lambertian,  ///< reflects the given share diffusely
        black,       ///< reflects nothing and has no interface
        open         ///< air below: an interface from the last layer's n to 1
    };
    Kind kind = Kind::lambertian;
    std::vector<double> reflectance;  ///< 0–1, for `lambertian`
};

/// Layers from the top down. No layers over a Lambertian base is allowed: the base in air.
struct Stack {
    std::size_t wavelengths = 0;
    std::vector<Layer> layers;
    Base base;
};

/// Throws std::invalid_argument naming layer (1 = top), coefficient, wavelength index and value for: a negative or
/// non-finite coefficient, n < 1 or > 3, thickness ≤ 0, |g| ≥ 1, a half-space above another layer, an array whose
/// length is not `wavelengths`, a base reflectance outside 0–1, an infinite last layer of zero absorption and zero
/// scattering.
void check(const Stack& stack);

/// How light falls on the stack for hemispherical output.
struct Light {
    bool diffuse = false;  ///< uniform (Lambertian) incidence; else collimated
    double angle_deg = 0;  ///< 0–<90, from the normal, for collimated
};

/// Hemispherical fluxes leaving the stack, as shares of the incident flux; one entry a wavelength.
struct Fluxes {
    std::vector<double> reflectance;    ///< total upward, specular included
    std::vector<double> surface;        ///< the part that never met a scatterer or the base (specular)
    std::vector<double> transmittance;  ///< downward through an `open` base into air; absorbed share for
                                        ///< `black`/reaching the base is not counted: 0
};

/// The three measuring geometries of a reading (CIE 15:2018). 45/0: light at 45°, eye at 0°. d/8: diffuse light, eye at
/// 8°.
enum class Geometry { g45_0, d8_included, d8_excluded };

/// Radiance factors of a smooth stack: `body` is light that entered and was scattered; `specular` is the regular
/// reflectance of the smooth top (all clear interfaces together) at the angle of the light (45°) or the eye (8°): what
/// share of it reaches the eye is the surface's to say (gloss.hpp), not the solver's.
struct Radiance {
    std::vector<double> body;
    std::vector<double> specular;
};

}  // namespace foretone::optics
