// CIELAB and its two color differences.
//
// Symbols: X/Xn, Y/Yn, Z/Zn ratios to the white · L* a* b* · C* chroma · h hue, degrees · primes: after CIEDE2000's a*
// correction.
//   f(t) = t^(1/3) for t > (6/29)³, else t/(3(6/29)²) + 4/29
//   L* = 116 f(Y/Yn) − 16, a* = 500 (f(X/Xn) − f(Y/Yn)), b* = 200 (f(Y/Yn) − f(Z/Zn))
// The constants are the exact fractions of ISO/CIE 11664-4, so f and its slope are continuous and the round trip is
// exact near black. CIEDE2000 takes ΔH' = 2 √(C1'C2') sin(Δh/2) from the hue angle and not as √(ΔE² − ΔL² − ΔC²), which
// cancels for near hues.

#include "foretone/color/lab.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "foretone/base/number.hpp"

namespace foretone::color {
namespace {

constexpr double delta = 6.0 / 29.0;
constexpr double degree = std::numbers::pi / 180.0;

double f(double t) { return t > delta * delta * delta ? std::cbrt(t) : t / (3 * delta * delta) + 4.0 / 29.0; }

double f_inverse(double u) { return u > delta ? u * u * u : 3 * delta * delta * (u - 4.0 / 29.0); }

void check_white(const Xyz& w) {
    const auto bad = [](double v) { return !(v > 0) || !std::isfinite(v); };
    if (bad(w.x) || bad(w.y) || bad(w.z)) {
        using base::shortest;
        throw std::invalid_argument("white: XYZ is " + shortest(w.x) + ", " + shortest(w.y) + ", " + shortest(w.z) +
                                    "; each must be above 0 and finite");
    }
}

double pow7(double v) {
    const double v3 = v * v * v;
    return v3 * v3 * v;
}

// √(C⁷/(C⁷ + 25⁷)), 0–1: how far a color is from grey for the two chroma switches of CIEDE2000.
double chroma_switch(double c) { return std::sqrt(pow7(c) / (pow7(c) + pow7(25.0))); }

struct Polar {
    double c = 0, h = 0;  // chroma; hue, degrees 0–360, 0 for grey
};

Polar polar(double a, double b) {
    if (a == 0 && b == 0) return {};
    const double h = std::atan2(b, a) / degree;
    return {std::hypot(a, b), h < 0 ? h + 360 : h};
}

// Hue step from p to q by the shorter way, degrees; 0 if one is grey.
double hue_step(const Polar& p, const Polar& q) {
    if (p.c * q.c == 0) return 0;
    const double d = q.h - p.h;
    if (std::abs(d) <= 180) return d;
    return d > 180 ? d - 360 : d + 360;
}

// Middle of the shorter arc between two hues, degrees; the hue of the other if one is grey.
double hue_mean(const Polar& p, const Polar& q) {
    const double sum = p.h + q.h;
    if (p.c * q.c == 0) return sum;
    if (std::abs(p.h - q.h) <= 180) return sum / 2;
    return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
}

}  // namespace

Lab to_lab(const Xyz& c, const Xyz& white) {
    check_white(white);
    const double fx = f(c.x / white.x), fy = f(c.y / white.y), fz = f(c.z / white.z);
    return {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
}

Xyz from_lab(const Lab& c, const Xyz& white) {
    check_white(white);
    const double fy = (c.l + 16) / 116;
    return {white.x * f_inverse(fy + c.a / 500), white.y * f_inverse(fy), white.z * f_inverse(fy - c.b / 200)};
}

double delta_e_ab(const Lab& p, const Lab& q) { return std::hypot(p.l - q.l, p.a - q.a, p.b - q.b); }

// Sharma, Wu & Dalal 2005, equations 2 to 22, in their order.
double delta_e_00(const Lab& p, const Lab& q) {
    const double g = 0.5 * (1 - chroma_switch((std::hypot(p.a, p.b) + std::hypot(q.a, q.b)) / 2));
    const Polar p1 = polar((1 + g) * p.a, p.b), q1 = polar((1 + g) * q.a, q.b);

    const double dl = q.l - p.l;
    const double dc = q1.c - p1.c;
    const double dh = 2 * std::sqrt(p1.c * q1.c) * std::sin(hue_step(p1, q1) * degree / 2);

    const double l = (p.l + q.l) / 2, c = (p1.c + q1.c) / 2, h = hue_mean(p1, q1);
    const double t = 1 - 0.17 * std::cos((h - 30) * degree) + 0.24 * std::cos(2 * h * degree) +
                     0.32 * std::cos((3 * h + 6) * degree) - 0.20 * std::cos((4 * h - 63) * degree);
    const double l50 = (l - 50) * (l - 50);
    const double sl = 1 + 0.015 * l50 / std::sqrt(20 + l50);
    const double sc = 1 + 0.045 * c;
    const double sh = 1 + 0.015 * c * t;
    const double blue = (h - 275) / 25;
    const double rt = -2 * chroma_switch(c) * std::sin(2 * 30 * std::exp(-blue * blue) * degree);

    const double vl = dl / sl, vc = dc / sc, vh = dh / sh;
    return std::sqrt(std::max(0.0, vl * vl + vc * vc + vh * vh + rt * vc * vh));
}

}  // namespace foretone::color
