// ψ = arcsin(s·u), s the ray inside: refraction keeps the part along the surface up to the factor 1/n and the rest
// follows from the unit length, so nothing cancels. ψ_d/2 stays within ±90° and reaches it only for both rays along the
// fibre, which the surface forbids for n > 1; for n = 1 the cone is degenerate there and the value is held finite by
// the cosine's floor.

#include "foretone/optics/fibre_lobe.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "foretone/base/number.hpp"
#include "foretone/optics/fresnel.hpp"

namespace foretone::optics {
namespace {

[[noreturn]] void refuse(const char* what, double value) {
    throw std::invalid_argument(std::string("fibre lobe: ") + what + ", not " + base::shortest(value));
}

double inclination(const Unit& ray, const Unit& fibre) {
    return std::asin(std::clamp(ray.x * fibre.x + ray.y * fibre.y + ray.z * fibre.z, -1.0, 1.0));
}

}  // namespace

Unit fibre_direction(double rise, double turn) {
    return {std::cos(rise) * std::cos(turn), std::cos(rise) * std::sin(turn), std::sin(rise)};
}

Unit refracted(const Unit& outside, double n) {
    if (!(n >= 1 && n <= 3)) refuse("an index is between 1 and 3", n);
    if (!(outside.z > 0)) refuse("a ray's z points away from the surface and is above 0", outside.z);
    const double x = outside.x / n, y = outside.y / n;
    return {x, y, std::sqrt(std::max(0.0, 1 - x * x - y * y))};
}

FibreLobe fibre_lobe(double n, double beta, const Unit& fibre, const Unit& to_light, const Unit& to_eye) {
    if (!(beta > 0)) refuse("the lobe's width is above 0", beta);
    constexpr double least = 1e-12;  // of cos², where the cone closes
    FibreLobe out;
    out.psi_in = inclination(refracted(to_light, n), fibre);
    out.psi_out = inclination(refracted(to_eye, n), fibre);
    out.half = out.psi_out + out.psi_in;
    out.difference = out.psi_out - out.psi_in;
    const double off = out.half / beta, across = std::cos(out.difference / 2);
    out.gauss = std::exp(-0.5 * off * off) / (std::sqrt(2 * std::numbers::pi) * beta);
    out.over_k = out.gauss / std::max(across * across, least);
    out.t_in = 1 - fresnel(std::min(1.0, to_light.z), 1, n).unpolarised();
    out.t_out = 1 - fresnel(std::min(1.0, to_eye.z), 1, n).unpolarised();
    return out;
}

}  // namespace foretone::optics
