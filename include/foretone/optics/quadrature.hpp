#pragma once
/// Gauss–Legendre quadrature.

#include <vector>

namespace foretone::optics {

/// Abscissae in rising order and their weights.
struct Nodes {
    std::vector<double> x;
    std::vector<double> w;
};

/// The `count`-point Gauss–Legendre rule on [a, b]: exact for polynomials of degree 2·count − 1, nodes and weights to
/// within a few units of the last place. Throws std::invalid_argument unless 1 ≤ count ≤ 1000 and a ≤ b, both finite.
Nodes gauss_legendre(int count, double a, double b);

}  // namespace foretone::optics
