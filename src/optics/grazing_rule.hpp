#pragma once
// Nodes for light that grazes an absorbing film.
//
// ∫₀¹ 2µ f(µ) dµ ≈ Σ w f(µ) where f(µ) = exp(−a/µ) times something smooth, for any a ≥ 0. As a → 0 the integral has an
// a² ln a in it, which no Gauss–Legendre rule catches quickly. These rules were found by least squares over a = 0 and
// 1e-6–50 and the factors 1, µ, µ², µ³; weights are scaled to sum to 1, so that nothing is lost where nothing is
// absorbed. Largest error for that family: 3e-7 with ten nodes, 2.5e-6 with seven.

#include <array>

namespace foretone::optics {

struct GrazingNode {
    double mu, weight;
};

inline constexpr std::array<GrazingNode, 10> grazing_ten{{
    {2.5412442625210104e-03, 2.3207635818938139e-05},
    {1.0714584930210890e-02, 2.7467841380211713e-04},
    {3.0794645857849089e-02, 1.7857033776522522e-03},
    {7.2942475834798626e-02, 8.4538597148130865e-03},
    {1.5292285312361772e-01, 3.2224140635131245e-02},
    {2.8904368300956185e-01, 9.7030883174727800e-02},
    {4.8301079485536202e-01, 2.0526115582884091e-01},
    {6.9195279968927381e-01, 2.6946839908261511e-01},
    {8.6216980223320705e-01, 2.4892154245404535e-01},
    {9.7251217495383069e-01, 1.3655642968255313e-01},
}};

inline constexpr std::array<GrazingNode, 7> grazing_seven{{
    {7.3817839000786169e-03, 1.9704451904615648e-04},
    {3.1089711251129751e-02, 2.3007606697885313e-03},
    {8.9131502204754298e-02, 1.4957916448372221e-02},
    {2.0973936417239303e-01, 6.8180564181788653e-02},
    {4.1944849839327591e-01, 2.1350088826974675e-01},
    {6.9742887766794859e-01, 3.9324369491994904e-01},
    {9.3345477687522316e-01, 3.0761913099130866e-01},
}};

}  // namespace foretone::optics
