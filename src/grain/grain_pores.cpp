// Vessels of diameter d, N to the mm² of cross-section, dip in and out of a face that runs along them. A vessel that
// leaves a groove of length L is met N·d/L times on a mm² of face; the face is then covered by N·π d²/4, the pores'
// share of the cross-section.
//
// The plane is divided into cells that each hold one candidate at a place of its own; a candidate becomes a groove by
// the chance at its place. Cells are visited in the same order whatever the band, so that bands fit.

#include "grain_pores.hpp"

#include "loops.hpp"

namespace foretone::grain {
namespace {

// A groove is drawn with the width d·√(1 − 0.9 h²), h how deep the face has cut in, uniform in [0, 1), and narrows to
// its ends as 1 − t⁴. The means of the two are 0.8164 and 0.8; this much longer it covers d·L·π/4 all the same.
constexpr double longer = 0.785398 / (0.8164 * 0.8);

// The whole number below, without a call.
int below(double x) {
    const int i = static_cast<int>(x);
    return i - (static_cast<double>(i) > x ? 1 : 0);
}

}  // namespace

int groove_margin(const Grooves& g, double slope, double step) {
    return 2 + static_cast<int>(std::ceil((longer * g.length_mm * slope + 0.6 * g.width_mm) / step));
}

double groove_share(const Grooves& g) { return g.per_mm2 * g.length_mm * g.width_mm * 0.785398; }

void draw_groove(const Band& band, const Groove& g, float* cover) {
    const double per_mm = 1 / band.step, x = g.x * per_mm, row = (g.y + band.centre_mm) * per_mm;
    const double half = g.half_length * per_mm, wide = g.half_width * per_mm, reach = std::abs(g.slope) * half + wide;
    const int r0 = std::max(band.first, below(row - reach)), r1 = std::min(band.end - 1, below(row + reach));
    const int c0 = std::max(0, below(x - half)), c1 = std::min(band.width - 1, below(x + half));
    const base::Isa isa = base::widest_isa();
    for (int r = r0; r <= r1; ++r) {
        int low = c0, high = c1;
        if (reach > 2 + wide) {  // a long groove aslant is in this row but for a stretch
            const double to_upper = (r - wide - 1 - row) / g.slope, to_lower = (r + wide + 2 - row) / g.slope;
            low = std::max(c0, below(x + std::min(to_upper, to_lower)));
            high = std::min(c1, below(x + std::max(to_upper, to_lower)));
        }
        if (high < low) continue;
        const auto from = static_cast<float>(low - x), edge = from + static_cast<float>(band.width - low);
        add_groove(isa,
                   cover + static_cast<std::size_t>(r - band.first) * static_cast<std::size_t>(band.width) +
                       static_cast<std::size_t>(low),
                   high - low + 1, from, static_cast<float>(half), std::min(static_cast<float>(half), edge),
                   static_cast<float>(wide), static_cast<float>(row - r), static_cast<float>(g.slope));
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
