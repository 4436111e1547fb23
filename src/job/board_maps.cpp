#include "board_maps.hpp"

#include <algorithm>

namespace foretone::job {
namespace {

constexpr int high_band = 64;            // rows that a PNG packs together
constexpr double piece_pixels = 1.25e6;  // of one piece, if it is not a band alone

int piece_rows(int width) {
    return high_band * std::max(1, static_cast<int>(piece_pixels / (1.0 * high_band * width)));
}

}  // namespace

BoardMaps::BoardMaps(const grain::Maps& maps)
    : width_(maps.width), height_(maps.height), mm_per_px_(maps.mm_per_px), held_(&maps) {
    range_.count = maps.shade.size();
    range_.shade_low = range_.shade_high = maps.shade.empty() ? 0.0F : maps.shade.front();
    for (const float s : maps.shade) {
        range_.shade_low = std::min(range_.shade_low, s);
        range_.shade_high = std::max(range_.shade_high, s);
    }
    for (const float u : maps.uptake) range_.uptake_high = std::max(range_.uptake_high, u);
    know_shades();
}

BoardMaps::BoardMaps(const material::Wood& wood, const BoardRequest& request, double held)
    : width_(request.width()), height_(request.height()), mm_per_px_(request.mm_per_px) {
    const bool hold = 1.0 * width_ * height_ <= held;
    face_.emplace(wood, request.cut, width_, height_, mm_per_px_, request.seed, 0, hold ? &own_ : nullptr);
    if (hold) held_ = &own_;
    range_ = face_->range();
    know_shades();
}

void BoardMaps::know_shades() {
    shades_.emplace(range_.shade_low, range_.shade_high);
    each([&](auto shade, auto, auto) { shades_->add(shade); });
}

std::span<const float> BoardMaps::Piece::of(const std::vector<float>& map) const {
    if (map.empty()) return {};
    return std::span(map).subspan(maps.at(0, from - first), maps.at(0, end - from));
}

void BoardMaps::each_piece(const std::function<void(const Piece&)>& take) const {
    if (held_) return take({*held_, 0, 0, height_});
    grain::Maps maps;
    for (int from = 0; from < height_; from += piece_rows(width_)) {
        const int end = std::min(height_, from + piece_rows(width_)), first = std::max(0, from - 1);
        face_->draw(maps, first, std::min(height_, end + 1));
        take({maps, first, from, end});
    }
}

void BoardMaps::rows(grain::Maps& maps, int first, int end) const {
    if (!held_) return face_->draw(maps, first, end);
    const auto cut = [&](const std::vector<float>& map) {
        const auto rows = Piece{*held_, 0, first, end}.of(map);
        return std::vector<float>(rows.begin(), rows.end());
    };
    maps = {width_,           end - first,      mm_per_px_,      cut(held_->shade), cut(held_->uptake),
            cut(held_->rise), cut(held_->turn), cut(held_->pore)};
}

void BoardMaps::each(const Take& take) const {
    each_piece([&](const Piece& p) { take(p.of(p.maps.shade), p.of(p.maps.uptake), p.of(p.maps.pore)); });
}

}  // namespace foretone::job
