// P(|N(d, σ²I₃)| > t), d the distance of the mean.
//
// With r = t/σ, m = d/σ, Φ and φ of the standard normal: the shell integral over the sphere's caps gives
//   P(≤ t) = Φ(r − m) − Φ(−r − m) − (φ(r − m) − φ(r + m))/m,
// and for m → 0, where the quotient cancels, φ(r − m) − φ(r + m) → 2 m r φ(r).

#include "foretone/search/chance.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

namespace foretone::search {
namespace {

double cumulated(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }
double density(double z) { return std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi); }

}  // namespace

double chance_beyond(double threshold, double de00, double spread) {
    for (const double v : {threshold, de00, spread})
        if (!(v >= 0) || !std::isfinite(v)) throw std::invalid_argument("chance_beyond: " + std::to_string(v) + " is not a finite distance");
    if (spread < 1e-9) return de00 > threshold ? 1 : 0;
    const double sigma = spread / std::numbers::sqrt3, r = threshold / sigma, m = de00 / sigma;
    const double caps = m < 1e-4 ? 2 * r * density(r) : (density(r - m) - density(r + m)) / m;
    return std::clamp(1 - (cumulated(r - m) - cumulated(-r - m) - caps), 0.0, 1.0);
}

}  // namespace foretone::search
