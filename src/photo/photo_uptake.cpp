// Symbols: p share of latewood · d its shade against earlywood · a its absorbency over earlywood's. With the mean of
// both kept, early wood lies at −p d and late at (1 − p) d, and early wood drinks 1/((1 − p) + p a) times the mean,
// late wood a times that.

#include "photo_uptake.hpp"

#include <algorithm>
#include <cmath>

namespace foretone::photo {
namespace {

constexpr double least_shade = 0.02;  // early and late wood nearer than this are not told apart by shade
constexpr double first_pore = 0.25;   // share of a pore's shade at which a dark spot begins to count as a pore
constexpr double least_pore = 0.1;
constexpr double beside = 0.35;  // shade: lamps, sanding and noise make this much of wood's own variation

}  // namespace

UptakeOfShade::UptakeOfShade(const material::Wood& wood) {
    if (!wood.grain) return;
    const auto& g = *wood.grain;
    const double p = std::clamp(g.late_share.value, 0.0, 1.0), d = g.late_shade.value,
                 a = std::max(g.late_uptake.value, 1e-3);
    const double early = std::log(1 / ((1 - p) + p * a)), late = early + std::log(a);
    const bool darker = d > 0;
    pale_ = darker ? -p * d : (1 - p) * d;
    dark_ = darker ? (1 - p) * d : -p * d;
    ln_pale_ = darker ? early : late;
    ln_dark_ = darker ? late : early;
    if (dark_ - pale_ < least_shade) ln_pale_ = ln_dark_ = 0;
    if (g.pore_shade.value > least_pore) {
        pore_begin_ = dark_ + first_pore * g.pore_shade.value;
        pore_ = dark_ + g.pore_shade.value;
        ln_pore_ = std::log(std::max(g.pore_uptake.value, 1e-3));
    }
    palest_ = pale_ - 2 * std::hypot(g.streak_shade.value, g.drift_shade.value, g.fibre_shade.value) - beside;
}

double UptakeOfShade::at(double shade) const {
    const double along = dark_ > pale_ ? std::clamp((shade - pale_) / (dark_ - pale_), 0.0, 1.0) : 0.5;
    double ln = ln_pale_ + along * (ln_dark_ - ln_pale_);
    if (pore_ > pore_begin_)
        ln += std::clamp((shade - pore_begin_) / (pore_ - pore_begin_), 0.0, 1.0) * (ln_pore_ - ln);
    return std::clamp(std::exp(ln), 0.05, 8.0);
}

}  // namespace foretone::photo
