// Perspective taken out.
//
// Symbols: (u, v) a place 0–1 across and down the rectangle · H its homography to the picture, closed for the unit
// square (Heckbert 1989): with Σ = p0 − p1 + p2 − p3 and d1 = p1 − p2, d2 = p3 − p2, g = Σ × d2/(d1 × d2), h = d1 × Σ/
// (d1 × d2), columns p1 − p0 + g p1, p3 − p0 + h p3, p0. Pixels are straight between four, in linear light.
//
// Sides that nobody said follow from H where it shows perspective both ways (Zhang & He 2007): H's first two columns a,
// b, taken from the picture's middle, are the rectangle's sides in units of its own, seen by a camera of focal length
// f: a and b at right angles gives f² = −(a1 b1 + a2 b2)/(a3 b3), and the sides are as |a| to |b|, each with its first
// two parts over f. Where f comes out of no lens (under a third or over ten of the picture's width) the sides are as
// they look.

#include "foretone/photo/perspective.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "foretone/base/parallel.hpp"

namespace foretone::photo {
namespace {

constexpr double least_side = 16, shortest_lens = 1.0 / 3, longest_lens = 10, most_larger = 1.5;

double cross(const Point2& a, const Point2& b) { return a[0] * b[1] - a[1] * b[0]; }
Point2 minus(const Point2& a, const Point2& b) { return {a[0] - b[0], a[1] - b[1]}; }
double length(const Point2& a) { return std::hypot(a[0], a[1]); }

void check(const Pixels& whole, const Corners& c) {
    for (const auto& p : c)
        if (!(p[0] >= 0 && p[1] >= 0 && p[0] <= whole.width && p[1] <= whole.height))
            throw PhotoFault("corners-outside",
                             fmt::format("the corner {},{} is not inside the picture, which is {} × {} pixels as seen",
                                         p[0], p[1], whole.width, whole.height));
    for (std::size_t k = 0; k < 4; ++k)
        if (length(minus(c[(k + 1) % 4], c[k])) < least_side)
            throw PhotoFault("corners-small",
                             fmt::format("the corners {},{} and {},{} are less than {} pixels apart", c[k][0], c[k][1],
                                         c[(k + 1) % 4][0], c[(k + 1) % 4][1], least_side));
    for (std::size_t k = 0; k < 4; ++k) {
        const Point2 a = minus(c[(k + 1) % 4], c[k]), b = minus(c[(k + 2) % 4], c[(k + 1) % 4]);
        if (!(cross(a, b) > 0.01 * length(a) * length(b)))
            throw PhotoFault("corners-order",
                             fmt::format("the four corners do not go around one rectangle: at {},{} the way turns back "
                                         "or runs straight on. In order: upper left, upper right, lower right, lower "
                                         "left",
                                         c[(k + 1) % 4][0], c[(k + 1) % 4][1]));
    }
}

// Width over height of the rectangle itself, by its perspective.
double sides_of(const Pixels& whole, const Corners& c) {
    const double x0 = whole.width / 2.0, y0 = whole.height / 2.0;
    Corners centred = c;
    for (auto& p : centred) p = {p[0] - x0, p[1] - y0};
    const auto h = from_rectangle(1, 1, centred).m;
    const double longer = std::max(whole.width, whole.height);
    const double ff = -(h[0][0] * h[0][1] + h[1][0] * h[1][1]) / (h[2][0] * h[2][1]);
    if (std::isfinite(ff) && ff > std::pow(shortest_lens * longer, 2) && ff < std::pow(longest_lens * longer, 2)) {
        const auto length_of = [&](std::size_t k) {
            return std::sqrt((h[0][k] * h[0][k] + h[1][k] * h[1][k]) / ff + h[2][k] * h[2][k]);
        };
        return length_of(0) / length_of(1);
    }
    return (length(minus(c[1], c[0])) + length(minus(c[2], c[3]))) /
           (length(minus(c[3], c[0])) + length(minus(c[2], c[1])));
}

}  // namespace

std::optional<Point2> Homography::at(double x, double y) const {
    const double w = m[2][0] * x + m[2][1] * y + m[2][2];
    if (!(w > 1e-12)) return std::nullopt;
    return Point2{(m[0][0] * x + m[0][1] * y + m[0][2]) / w, (m[1][0] * x + m[1][1] * y + m[1][2]) / w};
}

Homography Homography::inverse() const {
    Homography out;
    const auto minor = [&](std::size_t r, std::size_t c) {
        const std::size_t r1 = (r + 1) % 3, r2 = (r + 2) % 3, c1 = (c + 1) % 3, c2 = (c + 2) % 3;
        return m[r1][c1] * m[r2][c2] - m[r1][c2] * m[r2][c1];
    };
    const double determinant = m[0][0] * minor(0, 0) + m[0][1] * minor(0, 1) + m[0][2] * minor(0, 2);
    for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t c = 0; c < 3; ++c) out.m[c][r] = minor(r, c) / determinant;
    return out;
}

Homography Homography::after(const Homography& before) const {
    Homography out;
    for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t c = 0; c < 3; ++c)
            out.m[r][c] = m[r][0] * before.m[0][c] + m[r][1] * before.m[1][c] + m[r][2] * before.m[2][c];
    return out;
}

Homography from_rectangle(double width, double height, const Corners& p) {
    const Point2 d1 = minus(p[1], p[2]), d2 = minus(p[3], p[2]);
    const Point2 sum = {p[0][0] - p[1][0] + p[2][0] - p[3][0], p[0][1] - p[1][1] + p[2][1] - p[3][1]};
    const double g = cross(sum, d2) / cross(d1, d2), h = cross(d1, sum) / cross(d1, d2);
    Homography out;
    for (std::size_t k = 0; k < 2; ++k)
        out.m[k] = {(p[1][k] - p[0][k] + g * p[1][k]) / width, (p[3][k] - p[0][k] + h * p[3][k]) / height, p[0][k]};
    out.m[2] = {g / width, h / height, 1};
    return out;
}

Squared squared(const Pixels& whole, const Corners& c, double sides, int threads) {
    check(whole, c);
    Squared out;
    out.sides_assumed = !(sides > 0);
    out.sides = out.sides_assumed ? sides_of(whole, c) : sides;
    double width = std::max(length(minus(c[1], c[0])), length(minus(c[2], c[3])));
    double height = std::max(length(minus(c[3], c[0])), length(minus(c[2], c[1])));
    if (width < height * out.sides)
        width = height * out.sides;
    else
        height = width / out.sides;
    const double larger = width * height / (double(whole.width) * whole.height);
    if (larger > most_larger) width /= std::sqrt(larger / most_larger), height /= std::sqrt(larger / most_larger);
    out.pixels.width = std::max(1, static_cast<int>(std::lround(width)));
    out.pixels.height = std::max(1, static_cast<int>(std::lround(height)));
    out.pixels.to_xyz = whole.to_xyz;
    out.pixels.rgb.resize(3 * std::size_t(out.pixels.width) * std::size_t(out.pixels.height));
    const Homography back = from_rectangle(out.pixels.width, out.pixels.height, c);
    out.from_whole = back.inverse();
    base::parallel_rows(out.pixels.height, static_cast<unsigned>(threads), [&](int first, int end) {
        for (int y = first; y < end; ++y) {
            auto* to = &out.pixels.rgb[3 * std::size_t(y) * std::size_t(out.pixels.width)];
            for (int x = 0; x < out.pixels.width; ++x, to += 3) {
                const auto from = back.at(x + 0.5, y + 0.5);
                if (!from) continue;
                const double u = std::clamp((*from)[0] - 0.5, 0.0, double(whole.width - 1)),
                             v = std::clamp((*from)[1] - 0.5, 0.0, double(whole.height - 1));
                const auto i = static_cast<std::size_t>(u), j = static_cast<std::size_t>(v);
                const double f = u - double(i), g = v - double(j);
                const std::size_t right = i + 1 < std::size_t(whole.width) ? 3 : 0,
                                  below = j + 1 < std::size_t(whole.height) ? 3 * std::size_t(whole.width) : 0;
                const auto* at = &whole.rgb[3 * (j * std::size_t(whole.width) + i)];
                for (std::size_t k = 0; k < 3; ++k) {
                    const double upper = at[k] + f * (at[right + k] - at[k]),
                                 lower = at[below + k] + f * (at[below + right + k] - at[below + k]);
                    to[k] = static_cast<std::uint16_t>(std::lround(upper + g * (lower - upper)));
                }
            }
        }
    });
    return out;
}

// Cut by the four edges in turn (Sutherland & Hodgman 1974).
std::vector<Point2> carried(const std::vector<Point2>& polygon, const Squared& squared) {
    std::vector<Point2> out;
    for (const auto& p : polygon) {
        const auto at = squared.from_whole.at(p[0], p[1]);
        if (!at)
            throw PhotoFault(
                "board-outside",
                fmt::format("the corner {},{} of a board lies beyond the horizon of the four corners", p[0], p[1]));
        out.push_back(*at);
    }
    const double ends[] = {double(squared.pixels.width), double(squared.pixels.height)};
    for (std::size_t axis = 0; axis < 2; ++axis) {
        for (const bool upper : {false, true}) {
            const double edge = upper ? ends[axis] : 0;
            const auto in = [&](const Point2& p) { return upper ? p[axis] <= edge : p[axis] >= edge; };
            const auto from = std::move(out);
            out.clear();
            for (std::size_t k = 0; k < from.size(); ++k) {
                const Point2 &a = from[k], &b = from[(k + 1) % from.size()];
                if (in(a)) out.push_back(a);
                if (in(a) == in(b)) continue;
                const double t = (edge - a[axis]) / (b[axis] - a[axis]);
                Point2 cut{a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])};
                cut[axis] = edge;
                out.push_back(cut);
            }
        }
    }
    if (out.size() < 3)
        throw PhotoFault("board-outside", "nothing of a board lies within the four corners that are squared up");
    return out;
}

double carried_direction(double degrees, const std::vector<Point2>& polygon, const Homography& map) {
    const double radians = std::acos(-1.0) / 180;
    Point2 middle{};
    const auto n = double(polygon.size());
    for (const auto& p : polygon) middle = {middle[0] + p[0] / n, middle[1] + p[1] / n};
    const auto here = map.at(middle[0], middle[1]),
               there = map.at(middle[0] + std::cos(degrees * radians), middle[1] - std::sin(degrees * radians));
    if (!here || !there) return degrees;
    return std::atan2((*here)[1] - (*there)[1], (*there)[0] - (*here)[0]) / radians;
}

}  // namespace foretone::photo
