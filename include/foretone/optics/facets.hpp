#pragma once
/// Facets of a rough surface by their slopes: how much of it mirrors a window into the eye.

namespace foretone::optics {

/// A rectangle of slopes, tan of the facet's tilt along x and along y.
struct Slopes {
    double x_low = 0, x_high = 0, y_low = 0, y_high = 0;
};

/// Share of the surface, as seen from straight above, whose facets have slopes within `range`, for GGX facets of
/// roughness `alpha`
/// (> 0): P(x, y) = α²/(π (α² + x² + y²)²). Its integral over a rectangle is closed:
///
///     P = [F(x, y)] over the four corners,   F = 1/(2π) (x/A atan(y/A) + y/B atan(x/B)),   A² = α² + x², B² = α² + y²
///
/// All facets together are 1. Throws std::invalid_argument for α ≤ 0 or a rectangle turned inside out.
double facet_share(double alpha, const Slopes& range);

}  // namespace foretone::optics
