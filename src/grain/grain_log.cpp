// Flat: the pith lies 40–75 mm under the face, so that rings are cut almost level in the middle. The log tapers against
// the face: each ring comes to the surface in an arch. Quarter: the face runs along a radius, 1.6–4.2° off it, so
// that a ray leaves it after some millimetres to centimetres. Rift: the
// rings stand at 45°.

#include "grain_log.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/base/angle.hpp"

namespace foretone::grain {
namespace {
using base::degree;
}

Log::Log(const material::Grain& grain, Cut cut, double width_mm, double height_mm, std::uint64_t seed)
    : drift_(seed + 101, 140),
      depth_(seed + 102, 120),
      bump_(seed + 103, 45),
      waver_{{seed + 111, 210, 44}, {seed + 112, 83, slow_waver_mm}, {seed + 113, 43, quick_waver_mm}},
      fringe_(seed + 115, 11, 0.62),
      ray_waver_{{seed + 121, 29, 33}, {seed + 122, 7.7, 9.1}, {seed + 123, 2.1, ray_waver_mm}},
      ray_edges_{{seed + 124, 3.1, 0.23}, {seed + 125, 9.1, 1.4}} {
    const auto draw = [&](int n) { return unit(hash(seed, 1, n)); };
    const double slope = std::tan(grain.slope_deg.value * degree);
    drift_mm_ = 0.8 * slope / drift_.slope();
    depth_mm_ = 0.5 * slope / depth_.slope();
    bump_mm_ = 0.2 * slope / bump_.slope();
    waver_mm_ = grain.ring_waver_mm.value;
    for (double x = table_low; x <= width_mm - table_low; x += table_step) table_.push_back(drift_mm_ * drift_(x));
    if (cut == Cut::flat) {
        v0_ = 40 + 35 * draw(1);
        u0_ = height_mm * 0.22 * (2 * draw(2) - 1);
        taper_ = (0.018 + 0.02 * draw(3)) * (draw(4) < 0.5 ? -1 : 1);
        reference_ = v0_;
        return;
    }
    reference_ = std::max(140 + 60 * draw(1), (cut == Cut::quarter ? 1.1 : 1.6) * height_mm);
    const double angle = cut == Cut::quarter ? (1.6 + 2.6 * draw(2)) * degree : (42 + 6 * draw(2)) * degree;
    u0_ = reference_ * std::cos(angle) * (draw(4) < 0.5 ? -1 : 1);
    v0_ = reference_ * std::sin(angle);
    taper_ = (cut == Cut::quarter ? 0.018 + 0.02 * draw(3) : 0.004 + 0.006 * draw(3)) * (draw(5) < 0.5 ? -1 : 1);
}

void Log::add_waver(float* out, int count, double phase, double step, double y, bool slow) const {
    const auto q = [&](double x) { return y - drift(x); };
    constexpr double share[] = {0.85, 0.44, 0.21};
    for (int n = slow ? 0 : 2; n < (slow ? 2 : 3); ++n)
        waver_[n].add_row(out, count, phase, step, waver_mm_ * share[n], 0, q);
}

// By eye: cells begin a year's wood some 0.05 mm apart, about a fibre's width or two.
void Log::add_fringe(float* out, int count, double phase, double step, double y) const {
    const auto q = [&](double x) { return y - drift(x); };
    fringe_.add_row(out, count, phase, step, 0.05, 0, q);
}

void Log::add_ray_waver(float* out, int count, double phase, double step, double y) const {
    const auto q = [&](double x) { return y - drift(x); };
    ray_waver_[0].add_row(out, count, phase, step, 0.30, 0, q);
    ray_waver_[1].add_row(out, count, phase, step, 0.075, 0, q);
    ray_waver_[2].add_row(out, count, phase, step, 0.022, 0, q);
}

void Log::add_ray_edges(float* out, int count, double phase, double step, double y, double width) const {
    const auto q = [&](double x) { return y - drift(x); };
    ray_edges_[0].add_row(out, count, phase, step, 0.14 * width, step, q);
    ray_edges_[1].add_row(out, count, phase, step, 0.24 * width, step, q);
}

}  // namespace foretone::grain
