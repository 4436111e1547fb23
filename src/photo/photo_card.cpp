// The card: what it says about exposure and cast, and whether it can be believed.
//
// Symbols: B mean luminance of the card's cells; a plane c0 + c1 u + c2 v is fitted to them by least squares over the
// cells' grid, u and v from −1 to 1, where the three terms are orthogonal. Its rise, 2 (|c1| + |c2|) from corner to
// corner, is uneven light, which is told; what is left beside it is not one plain surface, which is refused.

#include <algorithm>
#include <cmath>
#include <glm/matrix.hpp>

#include <fmt/core.h>

#include "foretone/base/number.hpp"
#include "foretone/color/adaptation.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/photo/photo.hpp"

namespace foretone::photo {
namespace {

constexpr int smallest_side = 12;
constexpr double clip_level = 0.985, clip_share = 0.005;  // code 253 of 255
constexpr double darkest = 0.01, dim = 0.1 / 0.9, steepest = 0.35, roughest = 0.04, gradient_noted = 0.05;
constexpr double strongest_cast = 6;

std::string percent(double share, int digits = 1) { return base::fixed(100 * share, digits); }

std::string text(const light::Box& b) { return fmt::format("{},{},{},{}", b.x, b.y, b.width, b.height); }

void check_box(const Pixels& p, const light::Box& b) {
    const bool inside =
        b.x >= 0 && b.y >= 0 && b.width > 0 && b.height > 0 && b.width <= p.width - b.x && b.height <= p.height - b.y;
    if (!inside) {
        throw PhotoFault("card-outside",
                         "the card " + text(b) + " is not inside the picture, which is " + std::to_string(p.width) +
                             " × " + std::to_string(p.height) +
                             " pixels as seen. X,Y,W,H are the left, the top, the width and the height in pixels");
    }
    if (b.width < smallest_side || b.height < smallest_side) {
        throw PhotoFault("card-small",
                         "the card " + text(b) + " is smaller than " + std::to_string(smallest_side) + " × " +
                             std::to_string(smallest_side) +
                             " pixels: too few to measure. Mark more of it, or photograph with the card larger");
    }
}

glm::dmat3 matrix(const ToXyz& m) {
    glm::dmat3 out;
    for (int c = 0; c < 3; ++c)
        for (int r = 0; r < 3; ++r) out[c][r] = m[static_cast<std::size_t>(r)][static_cast<std::size_t>(c)];
    return out;
}

ToXyz rows(const glm::dmat3& m) {
    ToXyz out{};
    for (int c = 0; c < 3; ++c)
        for (int r = 0; r < 3; ++r) out[static_cast<std::size_t>(r)][static_cast<std::size_t>(c)] = m[c][r];
    return out;
}

// Channel means of the card in a grid of cells.
struct Cells {
    int across = 0, down = 0;
    std::vector<std::array<double, 3>> mean;
    std::array<double, 3> clipped{};  // share of pixels
};

Cells cells(const Pixels& p, const light::Box& b) {
    Cells out;
    out.across = std::clamp(b.width / 4, 3, 12);
    out.down = std::clamp(b.height / 4, 3, 12);
    for (int j = 0; j < out.down; ++j) {
        for (int i = 0; i < out.across; ++i) {
            const int x0 = b.x + b.width * i / out.across, x1 = b.x + b.width * (i + 1) / out.across;
            const int y0 = b.y + b.height * j / out.down, y1 = b.y + b.height * (j + 1) / out.down;
            std::array<double, 3> sum{};
            for (int y = y0; y < y1; ++y) {
                const auto* v = &p.rgb[3 * (std::size_t(y) * std::size_t(p.width) + std::size_t(x0))];
                for (int x = x0; x < x1; ++x, v += 3) {
                    for (std::size_t c = 0; c < 3; ++c) {
                        sum[c] += v[c];
                        out.clipped[c] += v[c] >= clip_level * 65535 ? 1 : 0;
                    }
                }
            }
            for (double& s : sum) s /= 65535.0 * (x1 - x0) * (y1 - y0);
            out.mean.push_back(sum);
        }
    }
    for (double& c : out.clipped) c /= double(b.width) * b.height;
    return out;
}

struct Plane {
    double rise = 0, rest = 0;  // relative to the mean
};

Plane plane(const Cells& cells, const std::vector<double>& value) {
    double mean = 0, c1 = 0, c2 = 0, uu = 0, vv = 0;
    const auto at = [](int i, int n) { return 2.0 * i / (n - 1) - 1; };
    for (int j = 0; j < cells.down; ++j) {
        for (int i = 0; i < cells.across; ++i) {
            const double u = at(i, cells.across), v = at(j, cells.down), b = value[std::size_t(j * cells.across + i)];
            mean += b;
            c1 += u * b;
            c2 += v * b;
            uu += u * u;
            vv += v * v;
        }
    }
    mean /= double(value.size());
    c1 /= uu;
    c2 /= vv;
    double rest = 0;
    for (int j = 0; j < cells.down; ++j) {
        for (int i = 0; i < cells.across; ++i) {
            const double off =
                value[std::size_t(j * cells.across + i)] - mean - c1 * at(i, cells.across) - c2 * at(j, cells.down);
            rest += off * off;
        }
    }
    const double half = std::abs(c1) + std::abs(c2);
    return {mean > half ? (mean + half) / (mean - half) - 1 : 1e3, std::sqrt(rest / double(value.size())) / mean};
}

constexpr const char* channel_names[] = {"red", "green", "blue"};

void check_light(const Cells& cells, const CardReading& card, const light::Box& b) {
    for (std::size_t c = 0; c < 3; ++c) {
        if (cells.clipped[c] <= clip_share) continue;
        throw PhotoFault("card-clipped",
                         "on " + percent(cells.clipped[c]) + " % of the card " + text(b) + " " + channel_names[c] +
                             " is as bright as the picture can say: how bright it was is lost. Photograph "
                             "again with less exposure");
    }
    if (card.brightness < darkest) {
        throw PhotoFault(
            "card-dark",
            "the card " + text(b) + " is at " + percent(std::floor(1e4 * card.brightness) / 1e4, 2) +
                " % of white: too dark to measure (1 % is wanted). Is the rectangle on the card? Photograph "
                "with more light");
    }
}

}  // namespace

Correction by_card(const Pixels& pixels, const Card& card) {
    if (!(card.reflectance >= 0.02 && card.reflectance <= 1))
        throw std::invalid_argument("photo::by_card: reflectance must be 0.02 to 1, got " +
                                    base::shortest(card.reflectance));
    check_box(pixels, card.box);
    const Cells measured = cells(pixels, card.box);

    Correction out;
    out.promise = true;
    auto& reading = out.card;
    std::vector<double> brightness;
    for (const auto& m : measured.mean) {
        double y = 0;
        for (std::size_t c = 0; c < 3; ++c) {
            reading.rgb[c] += m[c] / double(measured.mean.size());
            y += pixels.to_xyz[1][c] * m[c];
        }
        brightness.push_back(y);
        reading.brightness += y / double(measured.mean.size());
    }
    check_light(measured, reading, card.box);
    const Plane fit = plane(measured, brightness);
    reading.gradient = fit.rise;
    reading.unevenness = fit.rest;
    double uneven = fit.rest;  // in any channel: a part of the board beside the card may be as bright as the card
    for (std::size_t c = 0; c < 3; ++c) {
        std::vector<double> channel;
        for (const auto& m : measured.mean) channel.push_back(m[c] / std::max(reading.rgb[c], 1e-9));
        if (reading.rgb[c] > 0.005) uneven = std::max(uneven, plane(measured, channel).rest);
    }
    if (uneven > roughest || fit.rise > steepest) {
        throw PhotoFault("card-uneven",
                         "the rectangle " + text(card.box) + " is not one plain surface: its brightness changes by " +
                             percent(fit.rise, 0) + " % across and by " + percent(uneven, 1) +
                             " % from spot to spot (35 and 4 are allowed). Keep it inside the card, off edges, "
                             "print, shadows and glare");
    }

    const glm::dvec3 rgb(reading.rgb[0], reading.rgb[1], reading.rgb[2]);
    const glm::dvec3 seen = matrix(pixels.to_xyz) * rgb;
    reading.as_seen = color::to_lab({100 * seen.x, 100 * seen.y, 100 * seen.z}, color::srgb_white);
    const double least = std::min({seen.x, seen.y, seen.z}), most = std::max({seen.x, seen.y, seen.z});
    if (!(least > 0 && most / least < strongest_cast)) {
        throw PhotoFault(
            "card-colored",
            fmt::format("the card {} reads red {}, green {}, blue {} % of full light: no neutral card under a lamp for "
                        "seeing by looks like that. Is the rectangle on the card? Photograph in daylight or under "
                        "white lamps",
                        text(card.box), percent(reading.rgb[0]), percent(reading.rgb[1]), percent(reading.rgb[2])));
    }
    if (reading.brightness < dim * card.reflectance) {
        out.notes.push_back(
            {"card-dim", "the card is at " + percent(reading.brightness) + " % of white: too dark for good colors (" +
                             percent(dim * card.reflectance) + " % is wanted of it). Photograph with more light"});
    }
    if (fit.rise > gradient_noted) {
        out.notes.push_back(
            {"card-gradient", "the light is uneven: across the card brightness changes by " + percent(fit.rise, 0) +
                                  " %, and over the board by more. Colors are right near the card; turn the board "
                                  "to face the light evenly"});
    }
    const color::Xyz white{seen.x / seen.y, 1, seen.z / seen.y};
    const color::Xyz d65{color::srgb_white.x / 100, 1, color::srgb_white.z / 100};
    const double gain = card.reflectance / seen.y;
    out.stops = std::log2(gain);
    out.to_xyz = rows(gain * color::adaptation_matrix(color::Cat::cat16, white, d65) * matrix(pixels.to_xyz));
    return out;
}

Correction by_wood(const Pixels& pixels, const color::Xyz& bare) {
    // The median of each channel over the middle half of the picture's width and height.
    std::array<double, 3> middle{};
    const int step = std::max(1, std::min(pixels.width, pixels.height) / 256);
    for (std::size_t c = 0; c < 3; ++c) {
        std::vector<std::uint16_t> values;
        for (int y = pixels.height / 4; y < pixels.height - pixels.height / 4; y += step)
            for (int x = pixels.width / 4; x < pixels.width - pixels.width / 4; x += step)
                values.push_back(pixels.rgb[3 * (std::size_t(y) * std::size_t(pixels.width) + std::size_t(x)) + c]);
        const auto half = values.begin() + std::ptrdiff_t(values.size() / 2);
        std::nth_element(values.begin(), half, values.end());
        middle[c] = *half / 65535.0;
    }
    const glm::dvec3 seen = matrix(pixels.to_xyz) * glm::dvec3(middle[0], middle[1], middle[2]);
    if (!(std::min({seen.x, seen.y, seen.z}) > 1e-3)) {
        throw PhotoFault(
            "photo-dark",
            "the middle of the picture is at " + percent(seen.y, 2) +
                " % of white: too dark to show anything. Photograph with more light, the board in the middle");
    }
    Correction out;
    // Adaptation takes the middle to the bare wood, hue and all: both are treated as whites of their lights.
    const color::Xyz from{seen.x / seen.y, 1, seen.z / seen.y}, to{bare.x / bare.y, 1, bare.z / bare.y};
    const double gain = bare.y / 100 / seen.y;
    out.stops = std::log2(gain);
    out.to_xyz = rows(gain * color::adaptation_matrix(color::Cat::cat16, from, to) * matrix(pixels.to_xyz));
    return out;
}

}  // namespace foretone::photo
