#pragma once
/// A flat thing photographed at a slant: from its four corners to the picture and back, and the picture squared up.

#include <array>
#include <optional>
#include <vector>

#include "foretone/photo/pixels.hpp"

namespace foretone::photo {

using Point2 = std::array<double, 2>;
/// Upper left, upper right, lower right, lower left, in pixels from the upper left of the picture as seen.
using Corners = std::array<Point2, 4>;

/// A plane onto another, straight lines onto straight ones: (x, y, 1) times rows of `m`, over the third.
struct Homography {
    std::array<std::array<double, 3>, 3> m{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};

    /// Nothing for a point at or behind the horizon.
    std::optional<Point2> at(double x, double y) const;
    Homography inverse() const;
    /// First `before`, then this.
    Homography after(const Homography& before) const;
};

/// From a rectangle `width` × `height` at the origin to the four corners.
Homography from_rectangle(double width, double height, const Corners& corners);

/// A picture squared up.
struct Squared {
    Pixels pixels;               ///< the rectangle alone
    Homography from_whole;       ///< pixels of the whole picture to these
    double sides = 1;            ///< width over height
    bool sides_assumed = false;  ///< nobody said them
};

/// The rectangle within `corners` as if seen from straight above, as many pixels along each side as the longer of the
/// two sides in the picture has. `sides` width over height of the thing itself; 0: worked out from the perspective, the
/// camera's axis taken to be in the picture's middle. Throws PhotoFault `corners-outside`, `corners-order` (they do not
/// go around a convex figure clockwise), `corners-small` (a side under 16 pixels).
Squared squared(const Pixels& whole, const Corners& corners, double sides, int threads);

/// A polygon of the whole picture in the squared one, cut where that ends. Throws PhotoFault `board-outside` if nothing
/// of it is left.
std::vector<Point2> carried(const std::vector<Point2>& polygon, const Squared& squared);

/// A direction (degrees from lying, as a clock's hand turns back) at a polygon's middle, seen through `map`.
double carried_direction(double degrees, const std::vector<Point2>& polygon, const Homography& map);

}  // namespace foretone::photo
