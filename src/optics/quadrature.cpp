// Gauss–Legendre nodes by Newton's iteration.
//
// The nodes are the roots of the Legendre polynomial P_N, found from the first-order asymptotic guess
// cos(π(i + 3/4)/(N + 1/2)). Weights are 2/((1 − x²) P_N'(x)²). P_N and P_N' come from the three-term recurrence, which
// is stable on [−1, 1]; since P_N' is large at the roots, the roots are found to the last place or two. Only the
// positive half is computed and mirrored, so the rule is exactly symmetric.

#include "foretone/optics/quadrature.hpp"

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"

namespace foretone::optics {
namespace {

struct Legendre {
    double value, slope;
};

Legendre legendre(int n, double x) {
    double p = 1, before = 0;
    for (int j = 1; j <= n; ++j) {
        const double next = ((2 * j - 1) * x * p - (j - 1) * before) / j;
        before = p;
        p = next;
    }
    return {p, n * (x * p - before) / (x * x - 1)};
}

double root(int n, int index) {
    double x = std::cos(std::numbers::pi * (index + 0.75) / (n + 0.5));
    for (int step = 0; step < 20; ++step) {
        const Legendre l = legendre(n, x);
        const double shift = l.value / l.slope;
        x -= shift;
        if (std::abs(shift) < 1e-16) break;
    }
    return x;
}

}  // namespace

Nodes gauss_legendre(int count, double a, double b) {
    if (count < 1 || count > 1000) {
        throw std::invalid_argument("gauss_legendre: count " + std::to_string(count) + " is not 1 to 1000");
    }
    if (!std::isfinite(a) || !std::isfinite(b) || a > b) {
        throw std::invalid_argument("gauss_legendre: interval " + base::shortest(a) + " to " + base::shortest(b));
    }
    const double middle = 0.5 * (a + b), half = 0.5 * (b - a);
    Nodes nodes{std::vector<double>(static_cast<std::size_t>(count)),
                std::vector<double>(static_cast<std::size_t>(count))};
    for (int i = 0; i < (count + 1) / 2; ++i) {
        const double x = 2 * i + 1 == count ? 0.0 : root(count, i);
        const double slope = legendre(count, x).slope;
        const double w = half * 2 / ((1 - x * x) * slope * slope);
        const auto high = static_cast<std::size_t>(count - 1 - i), low = static_cast<std::size_t>(i);
        nodes.x[high] = middle + half * x;
        nodes.x[low] = middle - half * x;
        nodes.w[high] = nodes.w[low] = w;
    }
    return nodes;
}

}  // namespace foretone::optics
