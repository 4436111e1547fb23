#include "support/pictures/renderer.hpp"

#include <algorithm>
#include <cmath>

#include "support/standards.hpp"

namespace foretone::test {
namespace {

constexpr double pi = 3.14159265358979323846;
const double cos_light = std::cos(pi / 4), cos_half = std::cos(pi / 8);

double square(double v) { return v * v; }

// Exact Fresnel reflectance of a dielectric, unpolarised, from the cosine outside.
double fresnel(double cosine, double n) {
    const double inside = std::sqrt(1 - (1 - cosine * cosine) / (n * n));
    return 0.5 * (square((cosine - n * inside) / (cosine + n * inside)) +
                  square((n * cosine - inside) / (n * cosine + inside)));
}

double mix(double a, double b, double t) { return a * (1 - t) + b * t; }

double averaged(double along, double across) {
    double sum = 0;
    for (int i = 0; i < 720; ++i) sum += anisotropic_lobe(along, across, 2 * pi * i / 720);
    return sum / 720;
}

}  // namespace

double isotropic_lobe(double alpha, double f) {
    const double a2 = alpha * alpha;
    const double d = a2 / (pi * square(cos_half * cos_half * (a2 - 1) + 1));
    const auto lambda = [&](double c) { return (std::sqrt(1 + a2 * (1 - c * c) / (c * c)) - 1) / 2; };
    const double g = 1 / (1 + lambda(cos_light) + lambda(1));
    return pi * d * g * f / (4 * cos_light);
}

double anisotropic_lobe(double along, double across, double phi) {
    const double x = std::sin(pi / 8) * std::cos(phi) / along, y = std::sin(pi / 8) * std::sin(phi) / across;
    const double d = 1 / (pi * along * across * square(x * x + y * y + cos_half * cos_half));
    const double slope = square(along * std::cos(phi)) + square(across * std::sin(phi));  // tan 45° = 1
    const double g = 1 / (1 + (std::sqrt(1 + slope) - 1) / 2);
    return pi * d * g / (4 * cos_light);
}

format::Rgb open_pbr_reading(const Parameters& p) {
    const auto at = [&](const char* name, double usual, std::size_t c = 0) {
        return p.count(name) ? p.at(name)[c] : usual;
    };
    const double w = at("coat_weight", 0), n = at("coat_ior", 1.6);
    const double r0 = square((n - 1) / (n + 1)), k = 1 - (1 - r0) / (n * n);
    const double alpha = square(at("coat_roughness", 0));
    const double coat = w > 0 && alpha > 0 ? w * isotropic_lobe(alpha, fresnel(cos_half, n)) : 0;
    const double ratio = at("specular_ior", 1.5) / n;
    const double eta = mix(at("specular_ior", 1.5), ratio > 1 ? ratio : 1 / ratio, w);
    const double base0 = at("specular_weight", 1) * square((eta - 1) / (eta + 1));
    const double inverse = 1 - at("specular_roughness_anisotropy", 0);
    const double wide = square(at("specular_roughness", 0.3)) * std::sqrt(2 / (1 + inverse * inverse));
    const double glint = base0 > 0 ? base0 * averaged(wide * inverse, wide) : 0;
    format::Rgb out;
    for (std::size_t c = 0; c < 3; ++c) {
        const double color = at("base_color", 0.8, c);
        const double base = glint * at("specular_color", 1, c) + (1 - base0) * color;
        const double dark = mix(1, (1 - k) / (1 - color * k), w * at("coat_darkening", 1));
        out[c] = coat + (1 - w * r0) * mix(1, at("coat_color", 1, c), w) * dark * base;
    }
    return out;
}

format::Rgb gltf_reading(const Parameters& p) {
    const auto at = [&](const char* name, double usual, std::size_t c = 0) {
        return p.count(name) ? p.at(name)[c] : usual;
    };
    const double w = at("clearcoatFactor", 0), alpha = square(at("clearcoatRoughnessFactor", 0));
    const double coat = w > 0 && alpha > 0 ? w * isotropic_lobe(alpha, 0.04) : 0;
    const double n = at("ior", 1.5), grazing = at("specularFactor", 1);
    format::Rgb f, out;
    for (std::size_t c = 0; c < 3; ++c) {
        const double normal = std::min(1.0, square((n - 1) / (n + 1)) * at("specularColorFactor", 1, c)) * grazing;
        f[c] = normal + (grazing - normal) * std::pow(1 - cos_half, 5);
    }
    const double most = std::max({f[0], f[1], f[2]}), narrow = square(at("roughnessFactor", 1));
    const double lobe = most > 0 ? averaged(narrow, mix(narrow, 1, square(at("anisotropyStrength", 0)))) : 0;
    for (std::size_t c = 0; c < 3; ++c)
        out[c] = coat + (1 - 0.04 * w) * ((1 - most) * at("baseColorFactor", 1, c) + f[c] * lobe);
    return out;
}

format::FitLights fit_lights() {
    const auto eye = observer("2deg");
    return {color::make_weights(light("D65"), eye), color::make_weights(light("A"), eye)};
}

}  // namespace foretone::test
