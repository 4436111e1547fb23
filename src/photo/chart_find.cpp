// Finding the chart: dark rings, each around a dark disc about the same middle; three discs small and one large.
//
// Symbols: Y luminance of the picture made small · m its mean over a window about each pixel · dark where Y < 0.55 m.
// Dark pixels that touch are one blot (a first look numbers them, a second joins the numbers). A ring covers 0.38 of
// its box, a small disc 0.19 and a large one 0.42 of its ring's area; slanted, they keep these shares. Where there are
// more than four candidates, the four are taken whose fields, looked up through their homography, are as light and dark
// as the chart's.

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/core.h>

#include "foretone/photo/chart.hpp"

namespace foretone::photo {
namespace {

constexpr int looked_at = 1400;            // pixels of the longer side of what is looked at
constexpr double windows[] = {8, 16, 32};  // of the longer side
constexpr double dark_below = 0.55, least_ring = 8, large_disc = 0.29, alike_enough = 0.85;
constexpr std::size_t most_rings = 14, most_blots = 200000;

struct Small {
    int width = 0, height = 0;
    double scale = 1;  // pixels of the picture to one of these
    std::vector<float> light;
};

Small made_small(const Pixels& p) {
    Small out;
    const int step = std::max(1, (std::max(p.width, p.height) + looked_at - 1) / looked_at);
    out.scale = step;
    out.width = p.width / step;
    out.height = p.height / step;
    out.light.resize(std::size_t(out.width) * std::size_t(out.height));
    for (int y = 0; y < out.height; ++y) {
        for (int x = 0; x < out.width; ++x) {
            double sum = 0;
            for (int j = y * step; j < (y + 1) * step; ++j) {
                const auto* v = &p.rgb[3 * (std::size_t(j) * std::size_t(p.width) + std::size_t(x * step))];
                for (int i = 0; i < step; ++i, v += 3)
                    sum += p.to_xyz[1][0] * v[0] + p.to_xyz[1][1] * v[1] + p.to_xyz[1][2] * v[2];
            }
            out.light[std::size_t(y) * std::size_t(out.width) + std::size_t(x)] =
                static_cast<float>(sum / (65535.0 * step * step));
        }
    }
    return out;
}

std::vector<std::uint8_t> dark_pixels(const Small& s, int window) {
    const auto w = std::size_t(s.width) + 1;
    std::vector<double> sum(w * (std::size_t(s.height) + 1));
    for (std::size_t y = 0; y < std::size_t(s.height); ++y) {
        double row = 0;
        for (std::size_t x = 0; x < std::size_t(s.width); ++x) {
            row += double(s.light[y * std::size_t(s.width) + x]);
            sum[(y + 1) * w + x + 1] = sum[y * w + x + 1] + row;
        }
    }
    std::vector<std::uint8_t> out(s.light.size());
    for (int y = 0; y < s.height; ++y) {
        const auto y0 = std::size_t(std::max(0, y - window)), y1 = std::size_t(std::min(s.height, y + window + 1));
        for (int x = 0; x < s.width; ++x) {
            const auto x0 = std::size_t(std::max(0, x - window)), x1 = std::size_t(std::min(s.width, x + window + 1));
            const double mean = (sum[y1 * w + x1] - sum[y0 * w + x1] - sum[y1 * w + x0] + sum[y0 * w + x0]) /
                                (double(x1 - x0) * double(y1 - y0));
            const auto k = std::size_t(y) * std::size_t(s.width) + std::size_t(x);
            out[k] = double(s.light[k]) < dark_below * mean;
        }
    }
    return out;
}

struct Blot {
    int left = 1 << 30, right = -1, top = 1 << 30, bottom = -1;
    double n = 0, x = 0, y = 0;

    double width() const { return right - left + 1; }
    double height() const { return bottom - top + 1; }
    Point2 middle() const { return {x / n, y / n}; }
};

std::vector<Blot> blots(const std::vector<std::uint8_t>& dark, int width, int height) {
    std::vector<std::uint32_t> number(dark.size(), 0), joined = {0};
    const auto root = [&](std::uint32_t k) {
        while (joined[k] != k) k = joined[k] = joined[joined[k]];
        return k;
    };
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            const auto k = std::size_t(y) * std::size_t(width) + std::size_t(x);
            if (!dark[k]) continue;
            const std::uint32_t left = x > 0 ? number[k - 1] : 0, above = y > 0 ? number[k - std::size_t(width)] : 0;
            if (left == 0 && above == 0) {
                joined.push_back(static_cast<std::uint32_t>(joined.size()));
                number[k] = joined.back();
            } else if (left != 0 && above != 0) {
                const auto a = root(left), b = root(above);
                joined[std::max(a, b)] = number[k] = std::min(a, b);
            } else {
                number[k] = left + above;
            }
        }
    }
    std::vector<Blot> all(joined.size());
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            const auto n = number[std::size_t(y) * std::size_t(width) + std::size_t(x)];
            if (n == 0) continue;
            Blot& b = all[root(n)];
            b.left = std::min(b.left, x), b.right = std::max(b.right, x);
            b.top = std::min(b.top, y), b.bottom = std::max(b.bottom, y);
            ++b.n, b.x += x + 0.5, b.y += y + 0.5;
        }
    }
    std::erase_if(all, [](const Blot& b) { return b.n < 4; });
    return all;
}

struct Ring {
    Point2 middle;
    double size = 0;
    bool large = false;  // its disc
};

std::vector<Ring> rings_among(const std::vector<Blot>& all) {
    std::vector<Ring> out;
    if (all.size() > most_blots) return out;
    for (const auto& ring : all) {
        const double shape = ring.width() / ring.height(), filled = ring.n / (ring.width() * ring.height());
        if (std::min(ring.width(), ring.height()) < least_ring || shape < 0.35 || shape > 2.9) continue;
        if (filled < 0.2 || filled > 0.62) continue;
        const Blot* disc = nullptr;
        for (const auto& d : all) {
            if (&d == &ring || d.left <= ring.left || d.right >= ring.right || d.top <= ring.top ||
                d.bottom >= ring.bottom)
                continue;
            if (!disc || d.n > disc->n) disc = &d;
        }
        if (!disc || disc->n / (disc->width() * disc->height()) < 0.55) continue;
        const Point2 a = ring.middle(), b = disc->middle();
        if (std::abs(a[0] - b[0]) > 0.12 * ring.width() + 0.5 || std::abs(a[1] - b[1]) > 0.12 * ring.height() + 0.5)
            continue;
        const double share = disc->n / ring.n;
        if (share < 0.07 || share > 0.8) continue;
        out.push_back(
            {{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}, std::sqrt(ring.width() * ring.height()), share > large_disc});
    }
    return out;
}

// The four as corners of the chart: around, so that the large disc is the lower right. None if they go around nothing.
std::optional<Corners> in_order(const std::array<Ring, 4>& four) {
    if (std::count_if(four.begin(), four.end(), [](const Ring& r) { return r.large; }) != 1) return std::nullopt;
    double least = 1e30, most = 0;
    Point2 middle{};
    for (const auto& r : four) {
        least = std::min(least, r.size), most = std::max(most, r.size);
        middle = {middle[0] + r.middle[0] / 4, middle[1] + r.middle[1] / 4};
    }
    if (most > 3 * least) return std::nullopt;
    auto around = four;
    std::sort(around.begin(), around.end(), [&](const Ring& a, const Ring& b) {
        return std::atan2(a.middle[1] - middle[1], a.middle[0] - middle[0]) <
               std::atan2(b.middle[1] - middle[1], b.middle[0] - middle[0]);
    });
    const auto large =
        std::size_t(std::find_if(around.begin(), around.end(), [](const Ring& r) { return r.large; }) - around.begin());
    Corners out;
    for (std::size_t k = 0; k < 4; ++k) out[(k + 2) % 4] = around[(large + k) % 4].middle;
    for (std::size_t k = 0; k < 4; ++k) {
        const auto &a = out[k], &b = out[(k + 1) % 4], &c = out[(k + 2) % 4];
        if (!((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) > 0)) return std::nullopt;
    }
    return out;
}

Homography chart_at(const Corners& marks, double scale) {
    const auto& m = chart_marks();
    Corners at = marks;
    for (auto& p : at) p = {p[0] * scale, p[1] * scale};
    Homography moved;
    moved.m[0][2] = -m[0].x_mm;
    moved.m[1][2] = -m[0].y_mm;
    return from_rectangle(m[2].x_mm - m[0].x_mm, m[2].y_mm - m[0].y_mm, at).after(moved);
}

// Correlation of the fields' cube-root luminance with the chart's: 1 the same but for exposure.
double likeness_to_chart(const Pixels& pixels, const Homography& chart) {
    const auto seen = see_fields(pixels, chart);
    double n = 0, x = 0, y = 0, xx = 0, yy = 0, xy = 0;
    for (std::size_t k = 0; k < seen.size(); ++k) {
        const auto& c = seen[k].rgb;
        const double a = chart_fields()[k].lab.l;
        const double b =
            std::cbrt(pixels.to_xyz[1][0] * c[0] + pixels.to_xyz[1][1] * c[1] + pixels.to_xyz[1][2] * c[2]);
        ++n, x += a, y += b, xx += a * a, yy += b * b, xy += a * b;
    }
    const double both = (xx - x * x / n) * (yy - y * y / n);
    return both > 0 ? (xy - x * y / n) / std::sqrt(both) : 0;
}

}  // namespace

Homography find_chart(const Pixels& pixels) {
    const Small small = made_small(pixels);
    const int longer = std::max(small.width, small.height);
    std::size_t most = 0;
    for (const double window : windows) {
        auto rings =
            rings_among(blots(dark_pixels(small, std::max(4, int(longer / window))), small.width, small.height));
        most = std::max(most, rings.size());
        std::sort(rings.begin(), rings.end(), [](const Ring& a, const Ring& b) { return a.size > b.size; });
        if (rings.size() > most_rings) rings.resize(most_rings);
        double best = alike_enough;
        std::optional<Homography> found;
        for (std::size_t a = 0; a < rings.size(); ++a)
            for (std::size_t b = a + 1; b < rings.size(); ++b)
                for (std::size_t c = b + 1; c < rings.size(); ++c)
                    for (std::size_t d = c + 1; d < rings.size(); ++d) {
                        const auto corners = in_order({rings[a], rings[b], rings[c], rings[d]});
                        if (!corners) continue;
                        const auto chart = chart_at(*corners, small.scale);
                        const double r = likeness_to_chart(pixels, chart);
                        if (r > best) best = r, found = chart;
                    }
        if (found) return *found;
    }
    throw PhotoFault("chart-missing",
                     fmt::format("the printed chart was not found in the picture: of its four ringed corner marks {} "
                                 "could be seen. Photograph it flat, whole, sharp and in even light, at least a "
                                 "quarter of the picture wide, as foretone chart prints it",
                                 most < 4 ? std::to_string(most) : "four or more, with other fields between them,"));
}

std::vector<FieldSeen> see_fields(const Pixels& pixels, const Homography& chart) {
    constexpr int across = 15;
    constexpr double half_mm = 0.3 * field_mm, bright = 0.97, most_uneven = 0.2;
    std::vector<FieldSeen> out;
    for (const auto& field : chart_fields()) {
        FieldSeen seen;
        double n = 0, squares = 0, clipped = 0, green = 0;
        for (int j = 0; j < across; ++j) {
            for (int i = 0; i < across; ++i) {
                const double mm = 2 * half_mm / (across - 1);
                const auto at = chart.at(field.x_mm - half_mm + mm * i, field.y_mm - half_mm + mm * j);
                if (!at || !((*at)[0] >= 0 && (*at)[1] >= 0 && (*at)[0] < pixels.width && (*at)[1] < pixels.height))
                    continue;
                const auto* v =
                    &pixels.rgb[3 * (std::size_t((*at)[1]) * std::size_t(pixels.width) + std::size_t((*at)[0]))];
                for (std::size_t k = 0; k < 3; ++k) seen.rgb[k] += v[k] / 65535.0;
                const double g = v[1] / 65535.0;
                green += g, squares += g * g, ++n;
                clipped += std::max({v[0], v[1], v[2]}) > bright * 65535;
            }
        }
        if (n > 0)
            for (double& v : seen.rgb) v /= n;
        const double mean = n > 0 ? green / n : 0, sd = n > 0 ? std::sqrt(std::max(0.0, squares / n - mean * mean)) : 0;
        seen.plain = n >= across * across * 0.9 && clipped < 0.02 * n && sd < most_uneven * mean + 0.01 &&
                     std::min({seen.rgb[0], seen.rgb[1], seen.rgb[2]}) > 1e-4;
        out.push_back(seen);
    }
    return out;
}

}  // namespace foretone::photo
