#pragma once
/// Renderers' closed forms written out again from MaterialX 1.39.4 and glTF 2.0, to check the fits by.

#include <array>
#include <map>
#include <string>

#include "foretone/format/surface.hpp"

namespace foretone::test {

/// Radiance factor of an isotropic GGX lobe at 45/0 for Fresnel reflectance `fresnel` at the half vector.
double isotropic_lobe(double alpha, double fresnel);

/// Radiance factor of an anisotropic lobe of unit Fresnel reflectance, light at 45° and azimuth `phi` from the narrow
/// side.
double anisotropic_lobe(double along, double across, double phi);

/// Parameters by name, each one or three numbers; missing ones have the standard's defaults.
using Parameters = std::map<std::string, std::array<double, 3>>;

/// MaterialX 1.39.4's open_pbr_surface at 45/0, averaged over the azimuth of the light.
format::Rgb open_pbr_reading(const Parameters& p);

/// glTF 2.0 with clearcoat, ior, specular and anisotropy at 45/0, averaged over azimuth: by their JSON names.
format::Rgb gltf_reading(const Parameters& p);

/// D65 and A with the 2° observer.
format::FitLights fit_lights();

}  // namespace foretone::test
