// Each term of F is bounded and smooth for α > 0; a difference of corners loses digits only where the share itself is
// below 1e-12.

#include "foretone/optics/facets.hpp"

#include <cmath>
#include <numbers>
#include <stdexcept>

#include "foretone/base/number.hpp"

namespace foretone::optics {
namespace {

double corner(double alpha, double x, double y) {
    const double a = std::hypot(alpha, x), b = std::hypot(alpha, y);
    return (x / a * std::atan(y / a) + y / b * std::atan(x / b)) / (2 * std::numbers::pi);
}

}  // namespace

double facet_share(double alpha, const Slopes& range) {
    if (!(alpha > 0 && std::isfinite(alpha)))
        throw std::invalid_argument("facets: a roughness is above 0, not " + base::shortest(alpha));
    if (!(range.x_low <= range.x_high && range.y_low <= range.y_high))
        throw std::invalid_argument("facets: slopes turned inside out");
    return corner(alpha, range.x_high, range.y_high) - corner(alpha, range.x_low, range.y_high) -
           corner(alpha, range.x_high, range.y_low) + corner(alpha, range.x_low, range.y_low);
}

}  // namespace foretone::optics
