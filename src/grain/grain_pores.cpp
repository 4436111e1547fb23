// Vessels of diameter d, N to the mm² of cross-section, dip in and out of a face that runs along them. A vessel that
// leaves a groove of length L is met N·d/L times on a mm² of face; the face is then covered by N·π d²/4, the pores'
// share of the cross-section.
//
// The plane is divided into cells that each hold one candidate at a place of its own; a candidate becomes a groove by
// the chance at its place. Cells are visited in the same order whatever the band, so that bands fit.

#include "grain_pores.hpp"

namespace foretone::grain {
namespace {

// A groove is drawn with the width d·√(1 − 0.9 h²), h how deep the face has cut in, uniform in [0, 1), and narrows to
// its ends as 1 − t⁴. The means of the two are 0.8164 and 0.8; this much longer it covers d·L·π/4 all the same.
constexpr double longer = 0.785398 / (0.8164 * 0.8);

// Share of the unit interval at `row` that [low, high] covers.
float overlap(double low, double high, int row) {
    return static_cast<float>(std::max(0.0, std::min(high, row + 1.0) - std::max(low, static_cast<double>(row))));
}

}  // namespace

int groove_margin(const Grooves& g, double slope, double step) {
    return 2 + static_cast<int>(std::ceil((longer * g.length_mm * slope + 0.6 * g.width_mm) / step));
}

double groove_share(const Grooves& g) { return g.per_mm2 * g.length_mm * g.width_mm * 0.785398; }

void draw_groove(const Band& band, const Groove& g, float* cover) {
    const double per_mm = 1 / band.step;
    const double x0 = (g.x - g.half_length) * per_mm, x1 = (g.x + g.half_length) * per_mm;
    const int c0 = std::max(0, static_cast<int>(std::floor(x0))),
              c1 = std::min(band.width - 1, static_cast<int>(std::floor(x1)));
    for (int c = c0; c <= c1; ++c) {
        const double left = std::max(x0, static_cast<double>(c)), right = std::min(x1, c + 1.0);
        const double mid = 0.5 * (left + right) * band.step - g.x, t = mid / g.half_length, t2 = t * t;
        const double half = g.half_width * (1 - t2 * t2) * per_mm;
        const double row = (g.y + g.slope * mid + band.centre_mm) * per_mm;
        const int r0 = std::max(band.first, static_cast<int>(std::floor(row - half)));
        const int r1 = std::min(band.end - 1, static_cast<int>(std::floor(row + half)));
        for (int r = r0; r <= r1; ++r)
            cover[static_cast<std::size_t>(r - band.first) * static_cast<std::size_t>(band.width) +
                  static_cast<std::size_t>(c)] += static_cast<float>(right - left) * overlap(row - half, row + half, r);
    }
}

GrooveCells::GrooveCells(const Band& band, const Grooves& grooves, const Log& log)
    : band_(band), grooves_(grooves), log_(log) {
    cell_x_ = std::min(grooves.length_mm, 3 / std::sqrt(grooves.per_mm2));
    cell_y_ = 1 / (grooves.per_mm2 * cell_x_);
    const double reach = longer * grooves.length_mm;
    k_ = static_cast<std::int64_t>(std::floor(-reach / cell_x_)) - 1;
    k_end_ = static_cast<std::int64_t>(std::ceil((band.width * band.step + reach) / cell_x_));
    j_ = 0, j_end_ = -1;
}

// The rows of cells in this column that can reach the band.
void GrooveCells::column() {
    middle_ = (static_cast<double>(k_) + 0.5) * cell_x_, slope_ = log_.turn(middle_), drift_ = log_.drift(middle_);
    const double reach = std::abs(slope_) * (cell_x_ + longer * grooves_.length_mm) + grooves_.width_mm;
    j_ = static_cast<std::int64_t>(std::floor((band_.y(band_.first) - drift_ - reach) / cell_y_));
    j_end_ = static_cast<std::int64_t>(std::floor((band_.y(band_.end) - drift_ + reach) / cell_y_));
}

bool GrooveCells::next(Groove& g, double& lot) {
    for (;; ++j_) {
        while (j_ > j_end_) {
            if (++k_ > k_end_) return false;
            column();
        }
        const std::uint32_t h = hash(grooves_.seed, k_, j_), h2 = grain::next(h);
        g.x = (static_cast<double>(k_) + unit(h)) * cell_x_;
        g.slope = slope_;
        g.y = (static_cast<double>(j_) + unit(h2)) * cell_y_ + drift_ + slope_ * (g.x - middle_);
        const std::uint32_t h3 = grain::next(h2);
        g.half_length = 0.5 * longer * grooves_.length_mm * (0.4 + 1.2 * unit(h3));
        if (g.x + g.half_length < 0 || g.x - g.half_length > band_.width * band_.step) continue;
        const double spread = std::abs(slope_) * g.half_length + 0.5 * grooves_.width_mm;
        if (g.y + spread < band_.y(band_.first) || g.y - spread > band_.y(band_.end)) continue;
        const std::uint32_t h4 = grain::next(h3), h5 = grain::next(h4);
        const double deep = unit(h4);
        g.half_width = 0.5 * grooves_.width_mm * std::sqrt(1 - 0.9 * deep * deep);
        lot = unit(h5);
        ++j_;
        return true;
    }
}

}  // namespace foretone::grain
