// What the board's figure says of its uptake, and the board's shares: over the blocks, and over a sample of pixels.

#include <algorithm>
#include <cmath>

#include "foretone/base/parallel.hpp"
#include "foretone/photo/photo.hpp"
#include "photo_area.hpp"
#include "photo_curve.hpp"
#include "photo_figure.hpp"

namespace foretone::photo {
namespace {

constexpr double most_sampled = 250000;                // pixels
constexpr double least_scale = 0.4, most_scale = 2.5;  // a board's figure over the usual one's
constexpr double usual_mm = 400;                       // along the longer side of a picture, where nobody says
constexpr double least_blotch = 0.1;                   // ln of uptake, one standard deviation, at which it is told
constexpr int grown = 4;  // blocks beyond the board that carry its figure on: its soft edge

// Cells without wood beside ones with take their mean, `grown` times.
void carry_on(std::vector<float>& values, std::vector<std::uint8_t> known, int columns, int rows) {
    for (int round = 0; round < grown; ++round) {
        const auto before = known;
        for (int y = 0; y < rows; ++y) {
            for (int x = 0; x < columns; ++x) {
                const auto k = std::size_t(y) * std::size_t(columns) + std::size_t(x);
                if (before[k]) continue;
                float sum = 0, n = 0;
                for (int v = std::max(0, y - 1); v <= std::min(rows - 1, y + 1); ++v)
                    for (int u = std::max(0, x - 1); u <= std::min(columns - 1, x + 1); ++u) {
                        const auto i = std::size_t(v) * std::size_t(columns) + std::size_t(u);
                        if (!before[i]) continue;
                        sum += values[i];
                        ++n;
                    }
                if (n == 0) continue;
                values[k] = sum / n;
                known[k] = 1;
            }
        }
    }
}

}  // namespace

bool worth_telling(const PhotoNote& of_card, const FoundLight& light) {
    return of_card.id != "card-gradient" || !light.taken_out;
}

std::string second_lamp_unused(const FoundLight& light, bool same_light) {
    return !same_light        ? "the board is shown in another light than the photograph's"
           : !light.taken_out ? "the photograph's light was not taken out"
                              : "";
}

// Pixels from one that is looked at to the next.
int PhotoBoard::sampled_step() const {
    return std::max(1, static_cast<int>(std::sqrt(double(pixels_.width) * pixels_.height / most_sampled)));
}

void PhotoBoard::read_figure(const material::Wood& wood, const Placing& placing) {
    ShadeGrid grid{columns_, rows_, std::vector<float>(even_.size()), std::vector<std::uint8_t>(even_.size())};
    base::parallel_rows(rows_, static_cast<unsigned>(threads_), [&](int first, int end) {
        for (auto k = std::size_t(first * columns_); k < std::size_t(end * columns_); ++k) {
            if (sure_[k] <= 0.5F || allowed_[k] <= 0) continue;
            grid.wood[k] = board_of_[k];
            grid.shade[k] = entry_at(own_, even_[k][1]).shade - static_cast<float>(shade_);
        }
    });
    mm_per_px_ = placing.mm_per_px > 0 ? placing.mm_per_px : usual_mm / std::max(pixels_.width, pixels_.height);
    scale_assumed_ = !(placing.mm_per_px > 0);
    blotch_sd_ = wood.grain ? wood.grain->blotch.value : 0;
    const auto light = [&](double shade) {
        const double p = std::clamp((shade - first_shade_) / shade_step_, 0.0, double(tones_.size() - 1) - 1e-6);
        const auto i = static_cast<std::size_t>(p);
        return tones_[i][1] + (p - double(i)) * (tones_[i + 1][1] - tones_[i][1]);
    };
    figure_ = std::make_shared<const FigureUptake>(
        wood, mm_per_px_, block_, light, [&](double luminance) { return spot(luminance, first_shade_).shade; });

    // Each board has its own grain's direction, and its blotches lie along it: across the picture or up.
    ring_.assign(even_.size(), 0.0F);
    const auto blotched = [&](bool upright) {
        return blotches(wood, upright ? rows_ : columns_, upright ? columns_ : rows_, mm_per_px_ * block_);
    };
    std::array<std::vector<float>, 2> drawn;
    blotch_.assign(even_.size(), 0.0F);
    for (int board = std::max(1, int(placing.boards.size())); board > 0; --board) {
        const auto mark = static_cast<std::uint8_t>(board);
        const auto number = std::size_t(board) - 1;
        auto along = grain_direction(grid, mark);
        if (number < placing.grains.size() && placing.grains[number]) {
            const double angle = *placing.grains[number] * std::acos(-1.0) / 180;
            along = {std::cos(angle), -std::sin(angle)};
        }
        const bool upright = std::abs(along[1]) > std::abs(along[0]);
        if (drawn[upright].empty()) drawn[upright] = blotched(upright);
        for (int y = 0; y < rows_; ++y)
            for (int x = 0; x < columns_; ++x)
                if (const auto k = std::size_t(y * columns_ + x); board_of_[k] == mark)
                    blotch_[k] = drawn[upright][upright ? std::size_t(x) * std::size_t(rows_) + std::size_t(y) : k];
        const auto rings = along_grain(grid, along, figure_->reach(), mark, threads_);
        for (std::size_t k = 0; k < ring_.size(); ++k)
            if (grid.wood[k] == mark) ring_[k] = rings[k];
    }
    std::vector<float> rings, details;
    for (std::size_t k = 0; k < ring_.size(); k += 3)
        if (grid.wood[k]) rings.push_back(ring_[k]);
    carry_on(ring_, grid.wood, columns_, rows_);
    const int step = sampled_step();
    for (int y = step / 2; y < pixels_.height; y += step) {
        for (int x = step / 2; x < pixels_.width; x += step) {
            const auto k = std::size_t(y / block_) * std::size_t(columns_) + std::size_t(x / block_);
            if (!grid.wood[k]) continue;
            auto c = color_of(&pixels_.rgb[3 * (std::size_t(y) * std::size_t(pixels_.width) + std::size_t(x))]);
            if (!field_.even()) c = without_light(c, light_at(x, y));
            details.push_back(entry_at(own_, c[1]).shade - static_cast<float>(shade_) - ring_[k]);
        }
    }
    const auto scale = [](double due, const std::vector<float>& seen) {
        return static_cast<float>(std::clamp(due / spread_of(seen), least_scale, most_scale));
    };
    ring_scale_ = scale(figure_->ring_spread(), rings);
    detail_scale_ = scale(figure_->detail_spread(), details);
}

// Shares and the mean uptake, over a regular sample of pixels.
void PhotoBoard::measure() {
    const int step = sampled_step();
    double n = 0, sum = 0, above = 0, limited = 0, uptake = 0;
    MaskRow row;
    std::vector<float> area;
    for (int y = step / 2; y < pixels_.height; y += step) {
        mask_row(y, row);
        area_->row(y, pixels_.width, area);
        for (int x = step / 2; x < pixels_.width; x += step) {
            ++n;
            auto c = color_of(&pixels_.rgb[3 * (std::size_t(y) * std::size_t(pixels_.width) + std::size_t(x))]);
            const double w = double(area[std::size_t(x)] * share_of_wood(row, x, y, c).wood);
            if (w <= 0) continue;
            if (!field_.even()) c = without_light(c, light_at(x, y));
            const Entry e = entry_at(own_, c[1]);
            sum += w;
            above += w * double(e.above > 0.5F);
            const float rx = c[0] / e.px, rz = c[2] / e.pz;
            limited += w * double(rx < 1 / x_limit || rx > x_limit || rz < 1 / z_limit || rz > z_limit);
            const auto k = std::size_t(y / block_) * std::size_t(columns_) + std::size_t(x / block_);
            const float ln =
                figure_->ln_uptake_scaled(e.shade - static_cast<float>(shade_), ring_[k], ring_scale_, detail_scale_) +
                blotch_[k];
            uptake += w * std::exp(double(ln));
        }
    }
    if (!(sum > 0.005 * n)) {
        throw PhotoFault("photo-no-wood",
                         "only " + std::to_string(std::lround(1000 * sum / n)) +
                             " of 1000 pixels could be this wood. Is it the wood that the scene names, is the card "
                             "marked right, and does the board fill the picture?");
    }
    wood_ = sum / n;
    highlight_ = above / sum;
    limited_ = limited / sum;
    ln_mean_ = static_cast<float>(std::log(uptake / sum));
}

std::vector<PhotoNote> PhotoBoard::notes(bool soaks_in) const {
    std::vector<PhotoNote> out;
    const auto percent = [](double share) { return std::to_string(std::lround(100 * share)) + " %"; };
    if (light_.taken_out) {
        out.push_back({"light-uneven", "the light on the board is uneven: its darkest part has " +
                                           percent(light_.fall) + " less than its brightest" +
                                           (light_.color_change > two_lamps ? ", and its color changes" : "") +
                                           ". It was judged from the wood itself and " +
                                           (light_.cards > 1    ? std::to_string(light_.cards) + " cards"
                                            : light_.cards == 1 ? "the card"
                                                                : "the middle of the picture") +
                                           ", taken out before the finish and put back after"});
    }
    if (light_.left_to_wood) {
        out.push_back(
            {"light-or-wood",
             "brightness changes by " + percent(light_.fall) +
                 " over the board: this wood may do so by itself, and one picture cannot tell. It was left to "
                 "the wood"});
    }
    if (!light_.judged && !said_even_) {
        out.push_back({"light-not-judged",
                       "how even the light is could not be judged: too little of the picture shows the wood plainly. "
                       "It was taken to be even"});
    }
    for (const auto& note : card_notes_)
        if (worth_telling(note, light_)) out.push_back(note);
    if (soaks_in && scale_assumed_) {
        out.push_back({"photo-scale", "the picture was taken for one of " + std::to_string(std::lround(usual_mm)) +
                                          " mm along its longer side: by that its rings and pores are known"});
    }
    if (soaks_in && blotch_sd_ >= least_blotch) {
        out.push_back({"photo-blotches",
                       "this wood takes color in blotches that a bare board does not show: those in the picture are "
                       "drawn as such wood has them, not where this board's will lie"});
    }
    return out;
}

}  // namespace foretone::photo
