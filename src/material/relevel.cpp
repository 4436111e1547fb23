// A spectrum of a wanted color in the shape of a known one.
//
// Symbols: r the known reading · K/S = (1 − r)²/2r · t = (λ − 560 nm)/180 nm, −1 to 1 over the visible · c0, c1, c2.
//
//   ln(K/S)' = ln(K/S) + c0 + c1 t + c2 t²,   r' = 1/(1 + K/S + √(K/S (K/S + 2)))
//
// Added to ln(K/S) a constant scales the absorption whatever its level, and no choice of constants leaves 0–1. Three
// constants for three coordinates: Newton's method with a damped step, the slopes by differences of 1e-5.

#include "foretone/material/relevel.hpp"

#include <algorithm>
#include <cmath>
#include <glm/mat3x3.hpp>
#include <glm/matrix.hpp>
#include <glm/vec3.hpp>

namespace foretone::material {
namespace {
using spectral::Spectrum;

Spectrum curve(const Spectrum& shape, const glm::dvec3& c) {
    Spectrum out;
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double r = shape[i];
        const double t = (spectral::grid_nm(i) - 560) / 180;
        const double ks = (1 - r) * (1 - r) / (2 * r) * std::exp(c.x + c.y * t + c.z * t * t);
        out[i] = 1 / (1 + ks + std::sqrt(ks * (ks + 2)));  // Kubelka–Munk R∞, in the form without cancellation
    }
    return out;
}

glm::dvec3 error(const Spectrum& s, const color::Lab& target, const color::Weights& w) {
    const auto lab = color::to_lab(color::xyz(s, w), w.white);
    return {lab.l - target.l, lab.a - target.a, lab.b - target.b};
}

}  // namespace

bool relevel(Wood& wood, const color::Lab& target, const color::Weights& weights) {
    const Spectrum shape = wood.reflectance.values;
    glm::dvec3 c(0.0);
    glm::dvec3 off = error(shape, target, weights);
    for (int round = 0; round < 60 && glm::dot(off, off) > 1e-12; ++round) {
        glm::dmat3 slope;
        for (int k = 0; k < 3; ++k) {
            glm::dvec3 step = c;
            step[k] += 1e-5;
            slope[k] = (error(curve(shape, step), target, weights) - off) / 1e-5;
        }
        const glm::dvec3 move = -(glm::inverse(slope) * off);
        // A damped step: never worse than before.
        double share = 1;
        glm::dvec3 next = off;
        while (share > 1e-3) {
            next = error(curve(shape, c + share * move), target, weights);
            if (glm::dot(next, next) < glm::dot(off, off)) break;
            share /= 2;
        }
        if (share <= 1e-3 || !std::isfinite(glm::dot(next, next))) return false;
        c += share * move;
        off = next;
    }
    const Spectrum found = curve(shape, c);
    const auto [low, high] = std::minmax_element(found.begin(), found.end());
    if (glm::dot(off, off) > 1e-12 || *low < 0.005 || *high > 0.98) return false;
    wood.reflectance.values = found;
    return true;
}

}  // namespace foretone::material
