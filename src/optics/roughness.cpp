// From a finish's 60° gloss to the roughness of its surface.
//
// gloss_units is a four-fold integral; its inverse is wanted for every coat of every candidate. With s = gloss/(smooth
// gloss of that index) the quantity y = ln(1/s − 1) is nearly linear in x = ln α (slope 2 where the lobe just begins to
// miss the receptor, 4 where it overfills it) and nearly free of n. x(y, n) is therefore a short double Chebyshev
// series, fitted to gloss_units on its own Chebyshev nodes for 1.3 ≤ n ≤ 1.8 and 0.002 ≤ α ≤ 1. Largest error within
// that range: 0.02 % of α. Below y's range 1 − s ∝ α² continues the series; indices outside 1.3–1.8 take the nearest
// end's shape (the smooth gloss is still their own).

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"
#include "foretone/optics/gloss.hpp"

namespace foretone::optics {
namespace {

constexpr double y_low = -5.3971687179668582, y_high = 6.6899229818065979;
constexpr double n_low = 1.3, n_high = 1.8;

/// Rows: Chebyshev order in n; columns: order in y.
constexpr std::array<std::array<double, 25>, 3> series{{
    {{-3.06779705e+00, 3.26428018e+00,  -8.38861710e-02, -1.32448240e-01, -1.09467027e-02,
      3.70893581e-02,  4.32759988e-03,  -1.34104183e-02, -1.42866648e-03, 5.69327600e-03,
      7.18213337e-04,  -2.55225679e-03, -4.62715573e-04, 1.15133290e-03,  2.94673557e-04,
      -5.19398246e-04, -1.77667005e-04, 2.35544670e-04,  1.04056035e-04,  -1.07204961e-04,
      -6.13973209e-05, 4.77305107e-05,  3.86073410e-05,  -1.82135503e-05, -2.87726726e-05}},
    {{-3.79600181e-04, 7.80308512e-04,  -3.11530522e-04, 4.95713085e-05,  9.49399301e-06,
      4.16360159e-07,  1.92232872e-06,  -6.68971944e-06, -1.34452139e-06, 4.94105277e-06,
      8.39513891e-07,  -2.85868856e-06, -5.70112247e-07, 1.54694434e-06,  3.91769610e-07,
      -8.25320898e-07, -2.66844624e-07, 4.38848248e-07,  1.80799417e-07,  -2.30374387e-07,
      -1.23871535e-07, 1.15358710e-07,  8.94208471e-08,  -4.77288783e-08, -7.32424873e-08}},
    {{9.45294263e-05,  -1.54055471e-04, 6.52419788e-05,  -1.33533787e-05, -1.26136218e-06,
      1.28643120e-06,  -8.43514065e-07, 6.18705144e-07,  4.90056217e-07,  -5.82652330e-07,
      -2.59494271e-07, 3.41711263e-07,  1.47196950e-07,  -1.79489666e-07, -8.73205889e-08,
      9.20311270e-08,  5.30554622e-08,  -4.70211434e-08, -3.28206094e-08, 2.37598898e-08,
      2.08546878e-08,  -1.14897555e-08, -1.41473152e-08, 4.62987224e-09,  1.11348260e-08}},
}};

/// Σ c_k T_k(u) by Clenshaw's recurrence.
template <std::size_t N>
double chebyshev(const std::array<double, N>& c, double u) {
    double b1 = 0, b2 = 0;
    for (std::size_t k = N; k-- > 1;) {
        const double b = c[k] + 2 * u * b1 - b2;
        b2 = b1;
        b1 = b;
    }
    return c[0] + u * b1 - b2;
}

/// ln α from y and n.
double log_alpha(double y, double n) {
    const double u = (2 * y - y_low - y_high) / (y_high - y_low), v = (2 * n - n_low - n_high) / (n_high - n_low);
    const std::array<double, 3> c{chebyshev(series[0], u), chebyshev(series[1], u), chebyshev(series[2], u)};
    return chebyshev(c, v);
}

}  // namespace

double roughness_from_gu60(double gu60, double n) {
    if (!(gu60 >= 0) || !std::isfinite(gu60)) {
        throw std::invalid_argument("gloss: 60 degree gloss (0 or more) is " + base::shortest(gu60));
    }
    const double smooth = gloss_units(0, n, 60);
    if (gu60 >= smooth) return 0;
    if (gu60 <= 0) return 1;
    const double y = std::log(smooth / gu60 - 1);
    const double inside = std::clamp(y, y_low, y_high);
    const double x = log_alpha(inside, std::clamp(n, n_low, n_high)) + 0.5 * std::min(0.0, y - y_low);
    return std::min(1.0, std::exp(x));
}

}  // namespace foretone::optics
