// The light over the board: patches of wood and cards into a field of light, which is taken out of the blocks.
//
// Wood is looked for five times, each time in a picture more even than before and among colors nearer to each other:
// light that falls off makes wood seem darker wood of another color. What the fit says is held against what a
// photograph can bear: light that changes more than fivefold leaves no wood to see at its dark end; light that changes
// faster than the field bends, the edge of a shadow, would leave an edge in the finish.

#include <algorithm>
#include <cmath>

#include <fmt/core.h>
#include <glm/matrix.hpp>

#include "foretone/base/parallel.hpp"
#include "foretone/color/cones.hpp"
#include "foretone/photo/photo.hpp"
#include "median.hpp"
#include "photo_area.hpp"

namespace foretone::photo {
namespace {

constexpr int patches_a_side = 40;
constexpr std::size_t most_boards = 100;
constexpr std::size_t least_patches = 30;
constexpr double still_wood = 0.8;
constexpr double patch_filled = 0.5;  // share of a patch that must be wood
// Rounds: ΔE*ab about the color that most blocks have, and how far out from the middle of the picture they may lie.
constexpr struct { double window, out; } looks[] = {{14, 0.5}, {14, 0.7}, {12, 0.9}, {10, 1}, {8, 1}};
constexpr double least_fall = 0.1, least_color = 0.1;  // below these the light is called even
constexpr double most_range = 5, sharpest = 0.12;
// Standard deviations from the palest to the darkest of a board that wood is let have, and the most of it as a fall.
constexpr double usual_span = 5, most_own = 0.35;
// Lamps whose colors differ by less are one; and how far beyond the two a mixture may lie: daylight in a window's shade
// is as much bluer than D65 as that is than a third of a filament lamp.
constexpr float lamps_apart = 0.05F, most_beyond = 0.3F;

std::array<std::array<float, 3>, 3> rows_of(const glm::dmat3& m) {
    std::array<std::array<float, 3>, 3> out{};
    for (int c = 0; c < 3; ++c)
        for (int r = 0; r < 3; ++r)
            out[static_cast<std::size_t>(r)][static_cast<std::size_t>(c)] = static_cast<float>(m[c][r]);
    return out;
}

std::array<float, 3> product(const std::array<std::array<float, 3>, 3>& m, const std::array<float, 3>& v) {
    std::array<float, 3> out{};
    for (std::size_t k = 0; k < 3; ++k) out[k] = m[k][0] * v[0] + m[k][1] * v[1] + m[k][2] * v[2];
    return out;
}

// Share of a block that lies in the polygon, by 4 × 4 points; even-odd.
float inside(const Polygon& p, double x, double y, double size) {
    int count = 0;
    for (int j = 0; j < 4; ++j) {
        for (int i = 0; i < 4; ++i) {
            const double px = x + (i + 0.5) * size / 4, py = y + (j + 0.5) * size / 4;
            bool in = false;
            for (std::size_t a = 0, b = p.size() - 1; a < p.size(); b = a++) {
                if ((p[a][1] > py) == (p[b][1] > py)) continue;
                if (px < (p[b][0] - p[a][0]) * (py - p[a][1]) / (p[b][1] - p[a][1]) + p[a][0]) in = !in;
            }
            count += in;
        }
    }
    return static_cast<float>(count) / 16;
}

}  // namespace

std::array<double, 3> wood_by_lamp(const appearance::ToneTable& one, const appearance::ToneTable& other) {
    const auto to_cones = rows_of(color::cone_matrix(color::Cat::cat16));
    const auto ln_cones = [&](const color::Xyz& c) {
        const auto v = product(to_cones, {float(c.x), float(c.y), float(c.z)});
        return std::array<double, 3>{std::log(double(v[0])), std::log(double(v[1])), std::log(double(v[2]))};
    };
    const auto white = ln_cones(one.white()), other_white = ln_cones(other.white());
    const auto wood = ln_cones(one.reading(0, 1)), other_wood = ln_cones(other.reading(0, 1));
    std::array<double, 3> light{}, out{};
    for (std::size_t c = 0; c < 3; ++c) light[c] = other_white[c] - white[c];
    const double bluer = light[2] - light[0];
    if (!(std::abs(bluer) > 0.05)) return out;
    for (std::size_t c = 0; c < 3; ++c) out[c] = (other_wood[c] - wood[c] - light[c]) / bluer;
    return out;
}

void PhotoBoard::choose_cones() {
    const glm::dmat3 cones = color::cone_matrix(color::Cat::cat16);
    to_cones_ = rows_of(cones);
    from_cones_ = rows_of(glm::inverse(cones));
}

std::array<float, 3> PhotoBoard::without_light(const std::array<float, 3>& xyz,
                                               const std::array<float, 3>& gain) const {
    auto cones = product(to_cones_, xyz);
    for (std::size_t k = 0; k < 3; ++k) cones[k] /= gain[k];
    return product(from_cones_, cones);
}

std::array<float, 3> PhotoBoard::with_light(const std::array<float, 3>& xyz, const std::array<float, 3>& gain) const {
    auto cones = product(to_cones_, xyz);
    for (std::size_t k = 0; k < 3; ++k) cones[k] *= gain[k];
    return product(from_cones_, cones);
}

// Two lamps. Symbols, each of three cones and over the first lamp's white: B the bare wood under the second lamp over
// that under the first · t the second lamp's weight, 0 all the first · β brightness · g the field, what the light makes
// of bare wood of the usual shade, g = β (1 + t (B − 1)). β is the same in all cones where the light is a mixture of
// the two, so that the long and the short cones tell t:
//   q = g_S/g_L   t = (1 − q) / ((1 − B_S) − q (1 − B_L))
// What the field has of other colors stays in β. Weights beyond 0 and 1 are lamps further out than the two.
std::vector<std::array<float, 4>> PhotoBoard::lamps_row(float v) const {
    const auto gains = field_.row(v);
    std::vector<std::array<float, 4>> out;
    const auto& b = second_usual_;
    const bool two = std::abs(b[2] - b[0]) > lamps_apart;
    // Light is left in every cone, however warm the second lamp.
    const float lowest = std::min({b[0], b[1], b[2], 0.5F}), most = std::min(1 + most_beyond, 0.9F / (1 - lowest));
    for (const auto& g : gains) {
        const float q = g[2] / g[0];
        const float t = two ? std::clamp((1 - q) / ((1 - b[2]) - q * (1 - b[0])), -most_beyond, most) : 0.0F;
        out.push_back({g[0] / (1 + t * (b[0] - 1)), g[1] / (1 + t * (b[1] - 1)), g[2] / (1 + t * (b[2] - 1)), t});
    }
    return out;
}

void PhotoBoard::read_cards(const Placing& placing) {
    for (const auto& card : placing.cards) {
        const auto read = by_card(placing.whole ? *placing.whole : pixels_, card);
        card_readings_.push_back(read.card);
        if (card_readings_.size() == 1) continue;  // its notes are the correction's
        for (const auto& note : read.notes)
            card_notes_.push_back({note.id, fmt::format("card {}: {}", card_readings_.size(), note.text)});
    }
}

void PhotoBoard::cover_boards(const Placing& placing) {
    // Blocks within a polygon's bounds, with their share of it.
    const auto each_block = [&](const Polygon& p, const auto& take) {
        const auto [left, right] =
            std::minmax_element(p.begin(), p.end(), [](auto& a, auto& b) { return a[0] < b[0]; });
        const auto [top, bottom] =
            std::minmax_element(p.begin(), p.end(), [](auto& a, auto& b) { return a[1] < b[1]; });
        const auto from = [&](double at, int end) {
            return int(std::clamp(std::floor(at / block_), 0.0, double(end)));
        };
        const auto to = [&](double at, int end) { return int(std::clamp(std::ceil(at / block_), 0.0, double(end))); };
        const int x0 = from((*left)[0], columns_), x1 = to((*right)[0], columns_);
        for (int y = from((*top)[1], rows_); y < to((*bottom)[1], rows_); ++y)
            for (int x = x0; x < x1; ++x)
                take(std::size_t(y * columns_ + x), inside(p, double(x) * block_, double(y) * block_, block_));
    };
    allowed_.assign(means_.size(), placing.boards.empty() ? 1.0F : 0.0F);
    board_of_.assign(means_.size(), 1);
    on_card_.assign(means_.size(), 0);
    area_ = std::make_shared<const Area>(placing.boards);
    if (placing.boards.size() > most_boards)
        throw PhotoFault("board-many", fmt::format("{} boards are marked in the picture; at most {} are told apart",
                                                   placing.boards.size(), most_boards));
    std::uint8_t number = 0;
    for (const auto& p : placing.boards) {
        ++number;
        if (p.size() < 3) throw PhotoFault("board-outside", "a board has at least three corners");
        for (const auto& corner : p) {
            const bool in =
                corner[0] >= 0 && corner[1] >= 0 && corner[0] <= pixels_.width && corner[1] <= pixels_.height;
            if (!in)
                throw PhotoFault("board-outside",
                                 fmt::format("the corner {},{} of a board is not inside the picture, which is {} × {} "
                                             "pixels as seen, counted from its upper left",
                                             corner[0], corner[1], pixels_.width, pixels_.height));
        }
        each_block(p, [&](std::size_t k, float share) {
            if (share <= allowed_[k]) return;
            allowed_[k] = share;
            board_of_[k] = number;
        });
    }
    for (const auto& card : placing.cards) {
        const double left = card.box.x, top = card.box.y, right = left + card.box.width, bottom = top + card.box.height;
        Polygon seen;
        for (const Point2 corner : {Point2{left, top}, {right, top}, {right, bottom}, {left, bottom}}) {
            const auto at = placing.whole ? placing.from_whole.at(corner[0], corner[1]) : std::optional(corner);
            if (at) seen.push_back(*at);
        }
        if (seen.size() < 4) continue;
        each_block(seen, [&](std::size_t k, float share) {
            if (share > 0) allowed_[k] = 0, on_card_[k] = 1;
        });
    }
}

std::vector<LightSample> PhotoBoard::wood_patches(const Likely& likely) const {
    const int size = std::max(1, (std::max(columns_, rows_) + patches_a_side - 1) / patches_a_side);
    const int across = (columns_ + size - 1) / size, down = (rows_ + size - 1) / size;
    struct Patch {
        std::vector<std::array<float, 3>> cones;
        double u = 0, v = 0;
    };
    std::vector<Patch> patches(std::size_t(across * down));
    for (const auto k : likely.blocks) {
        const auto cones = product(to_cones_, means_[k]);
        if (!(cones[0] > 0 && cones[1] > 0 && cones[2] > 0)) continue;
        const int i = static_cast<int>(k) % columns_, j = static_cast<int>(k) / columns_;
        auto& p = patches[std::size_t(j / size * across + i / size)];
        p.cones.push_back(cones);
        p.u += (i + 0.5) * block_ / pixels_.width;
        p.v += (j + 0.5) * block_ / pixels_.height;
    }
    std::vector<LightSample> out;
    const double looked_at = double(looked_at_step()) * looked_at_step();
    for (auto& p : patches) {
        if (double(p.cones.size()) * looked_at < patch_filled * size * size) continue;
        const double n = double(p.cones.size());
        LightSample s{p.u / n, p.v / n, {}};
        // The brightest tenth may be glints, the darkest pores: what lies between makes the mean.
        std::sort(p.cones.begin(), p.cones.end(), [](const auto& a, const auto& b) { return a[1] < b[1]; });
        const std::size_t skip = p.cones.size() / 10;
        for (std::size_t k = skip; k < p.cones.size() - skip; ++k)
            for (std::size_t c = 0; c < 3; ++c) s.ln[c] += std::log(double(p.cones[k][c]));
        for (double& v : s.ln) v /= double(p.cones.size() - 2 * skip);
        out.push_back(s);
    }
    return out;
}

std::vector<LightSample> PhotoBoard::card_patches(const Placing& placing) const {
    std::vector<LightSample> out;
    for (const auto& card : placing.cards) {
        const Point2 middle{card.box.x + 0.5 * card.box.width, card.box.y + 0.5 * card.box.height};
        const auto at = placing.whole ? placing.from_whole.at(middle[0], middle[1]) : std::optional(middle);
        // A card beside what was squared up tells of the light at the nearest edge.
        LightSample s{at ? std::clamp((*at)[0] / pixels_.width, 0.0, 1.0) : 0.5,
                      at ? std::clamp((*at)[1] / pixels_.height, 0.0, 1.0) : 0.5,
                      {}};
        if (placing.cards.size() > 1) {
            const auto& rgb = card_readings_[out.size()].rgb;
            std::array<float, 3> xyz{};
            for (std::size_t k = 0; k < 3; ++k)
                for (std::size_t c = 0; c < 3; ++c) xyz[k] += m_[k][c] * float(65535 * rgb[c] / card.reflectance);
            const auto cones = product(to_cones_, xyz);
            for (std::size_t c = 0; c < 3; ++c)
                s.ln[c] = std::log(double(cones[c])) - (out.empty() ? 0 : out.front().ln[c]);
        }
        out.push_back(s);
    }
    if (!out.empty()) out.front().ln = {};
    return out;
}

// Out of the blocks that are looked at, every `step`th, or out of all.
void PhotoBoard::take_out_light(int step) {
    base::parallel_rows(rows_, static_cast<unsigned>(threads_), [&](int first, int end) {
        for (int j = first; j < end; ++j) {
            if (j % step != step / 2) continue;
            for (int i = step / 2; i < columns_; i += step) {
                const auto k = std::size_t(j * columns_ + i);
                even_[k] = without_light(means_[k], light_at(i * block_ + block_ / 2, j * block_ + block_ / 2));
            }
        }
    });
}

void PhotoBoard::find_light(const material::Wood& wood, const Placing& placing) {
    const auto cards = card_patches(placing);
    WoodVariation varies;
    varies.by_lamp = by_lamp_;
    double broad = varies.slow;  // how much of its own the wood may change over a board, one standard deviation
    if (wood.grain) {
        broad = std::hypot(wood.grain->streak_shade.value, wood.grain->drift_shade.value);
        const auto& g = *wood.grain;
        varies.patch = std::max(0.05, std::hypot(g.late_shade.value / 2, g.streak_shade.value, g.fibre_shade.value));
        varies.slow = std::max(0.03, std::hypot(g.drift_shade.value, g.streak_shade.value / 2));
    }
    LightFit fit;
    const auto none = [&] {
        field_ = {};
        even_ = means_;
    };
    if (cards.size() > 1) {  // wood far from the first card is looked for in about the light that the others tell
        field_ = LightField::by_cards(cards);
        take_out_light(looked_at_step());
    }
    const std::size_t at_first = likely_blocks(looks[0].window, 1).blocks.size();
    for (const auto& look : looks) {
        const Likely likely = likely_blocks(look.window, placing.boards.empty() ? look.out : 1);
        const auto patches = wood_patches(likely);
        if (patches.size() < least_patches) return none();
        // The wood's own direction, where most of it lies.
        std::vector<double> shades;
        for (const auto k : likely.blocks) shades.push_back(spot(double(even_[k][1])).shade);
        const auto at = std::clamp<std::size_t>(
            std::size_t(std::max(0.0, (median(shades) - first_shade_) / shade_step_)), 1, tones_.size() - 2);
        const auto cones_of = [&](std::size_t i) {
            return product(to_cones_, {float(tones_[i][0]), float(tones_[i][1]), float(tones_[i][2])});
        };
        const std::size_t far = std::min({std::size_t(0.3 / shade_step_) + 1, at, tones_.size() - 1 - at});
        const auto before = cones_of(at - far), here = cones_of(at), after = cones_of(at + far);
        const double apart = double(far) * shade_step_;
        for (std::size_t c = 0; c < 3; ++c) {
            varies.along[c] = std::log(double(after[c] / before[c])) / (2 * apart);
            varies.bend[c] =
                std::log(double(after[c]) * double(before[c]) / std::pow(double(here[c]), 2)) / (apart * apart);
        }
        fit = fit_light(patches, cards, varies, &look != std::end(looks) - 1);
        field_ = fit.field;
        take_out_light(looked_at_step());
    }
    if (std::none_of(fit.trust.begin(), fit.trust.end(), [](double t) { return t > 0; })) return none();
    // Light that leaves less of the wood to be seen as wood than before is none, unless cards say so: a grey bench
    // under a warm lamp was wood before.
    if (cards.size() < 2 && double(likely_blocks(looks[0].window, 1).blocks.size()) < still_wood * double(at_first))
        return none();
    const double wood_slope = std::abs(varies.along[0] + varies.along[1] + varies.along[2]) / 3;
    light_.judged = true;
    light_.fall = 1 - std::exp(fit.darkest - fit.brightest);
    light_.color_change = fit.color_range;
    light_.cards = cards.size();
    light_.sharp = fit.sharp;
    if (fit.brightest - fit.darkest > std::log(most_range)) {
        throw PhotoFault(
            "light-range",
            fmt::format(
                "the light over the board changes by a factor of {}: at its dark end there is too little to see "
                "the wood by. Photograph again, the board turned so that the light reaches all of it alike, or "
                "from further off",
                std::lround(std::exp(fit.brightest - fit.darkest))));
    }
    if (fit.sharp > sharpest) {
        throw PhotoFault(
            "light-edge",
            fmt::format("the edge of a shadow or of a patch of light seems to cross the board: in one patch of twenty "
                        "brightness is {} % off what slowly changing light would give, and the wood's own color does "
                        "not tell it. Photograph again without anything between lamp or window and board; if the light "
                        "was even and the wood is like that, say so",
                        std::lround(100 * fit.sharp)));
    }
    // What the wood may do by itself is left to it, unless several cards tell.
    const double own = cards.size() > 1 ? 0 : std::min(most_own, 1 - std::exp(-usual_span * broad * wood_slope));
    light_.taken_out = light_.fall > std::max(least_fall, own) || light_.color_change > least_color;
    light_.left_to_wood = !light_.taken_out && light_.fall > least_fall;
    if (light_.taken_out)
        take_out_light(1);
    else
        none();
}

}  // namespace foretone::photo
