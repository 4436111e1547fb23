// The absorbance of a liquid of a Gardner color number: two parameters fitted to each row of the standard, between rows
// on a straight line.
//
// Symbols: A decadic absorbance per cm · A450 at 450 nm · w the width over which it falls by e, nm.
//
//   A(λ) = A450 exp(−(λ − 450 nm)/w)
//
// Oils and resins absorb so from the violet on, so that two numbers are what a chromaticity can tell. Between numbers
// ln A450 and w go straight: A450 spans two decades, and a straight A450 would bow the darker half of every step.

#include "foretone/material/gardner.hpp"

#include <array>
#include <cmath>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"

namespace foretone::material {
namespace {

// Fitted to ASTM D1544-04 Table 1 (illuminant C, 2° observer, 10.65 mm path); computed.
constexpr std::array<GardnerFit, 18> fits = {{
    {0.037, 22.5},
    {0.071, 45.0},
    {0.124, 57.5},
    {0.196, 47.5},
    {0.271, 40.0},
    {0.410, 42.5},
    {0.650, 42.5},
    {0.818, 42.5},
    {1.030, 40.0},
    {1.357, 37.5},
    {2.054, 40.0},
    {2.054, 52.5},
    {2.708, 57.5},
    {3.409, 60.0},
    {4.099, 65.0},
    {4.494, 72.5},
    {5.658, 75.0},
    {6.802, 77.5},
}};

}  // namespace

GardnerFit gardner_fit(double number) {
    if (!(number >= 1 && number <= 18))
        throw std::invalid_argument("a Gardner number runs from 1 to 18, not " + base::shortest(number));
    const auto i = std::min<std::size_t>(static_cast<std::size_t>(number) - 1, fits.size() - 2);
    const double t = number - static_cast<double>(i + 1);
    const auto& p = fits[i];
    const auto& q = fits[i + 1];
    return {p.a450_per_cm * std::pow(q.a450_per_cm / p.a450_per_cm, t), p.width_nm + t * (q.width_nm - p.width_nm)};
}

spectral::Spectrum gardner_absorbance_per_cm(double number) {
    const auto f = gardner_fit(number);
    spectral::Spectrum a;
    for (std::size_t i = 0; i < a.size(); ++i)
        a[i] = f.a450_per_cm * std::exp(-(spectral::grid_nm(i) - 450.0) / f.width_nm);
    return a;
}

}  // namespace foretone::material
