#pragma once
// Where a board lies in its log.
//
// Coordinates, mm: x along the board, y down its face from the centre line. The pith runs along x, wandering; a point
// of the face is at (u, v) from it, u in the face, v along the face's outward normal. Fibres run beside the pith, so
// the coordinate across the grain is q = y − drift(x).

#include <algorithm>
#include <vector>

#include "foretone/material/grain.hpp"
#include "foretone/grain/grain.hpp"
#include "foretone/grain/noise.hpp"

namespace foretone::grain {

class Log {
public:
    Log(const material::Grain& grain, Cut cut, double width_mm, double height_mm, std::uint64_t seed);

    /// Of the fibres in the face, mm. From a table, a straight line between its points: within 1e-4 mm.
    double drift(double x) const {
        const double u = std::clamp((x - table_low) / table_step, 0.0, static_cast<double>(table_.size() - 2));
        const auto i = static_cast<std::size_t>(u);
        return table_[i] + (u - static_cast<double>(i)) * (table_[i + 1] - table_[i]);
    }
    double turn(double x) const { return (drift(x + 1) - drift(x - 1)) / 2; }
    double u(double q) const { return u0_ + q; }
    double v(double x) const {
        return v0_ + bow_mm * std::sin(taper_ * x / bow_mm) + depth_mm_ * depth_(x) + bump_mm_ * bump_(x);
    }
    double rise(double x) const { return -(v(x + 1) - v(x - 1)) / 2; }  ///< radians, small
    double reference_mm() const { return reference_; }                  ///< radius at the board's centre

    /// Adds how far the rings stray from circles to a row of radii: the slow part, in cells of `slow_waver_mm`, or the
    /// quick one.
    void add_waver(float* out, int count, double phase, double step, double y, bool slow) const;
    static constexpr double slow_waver_mm = 9.7, quick_waver_mm = 3.1, ray_waver_mm = 3.3;

    /// Adds the fringe of every ring's edge to a row of radii: quick across the grain, slow along it. Where the face
    /// cuts rings almost level the edge of an arch is ragged by it, as in wood.
    void add_fringe(float* out, int count, double phase, double step, double y) const;

    /// Adds the rays' wandering to a row of tangential coordinates.
    void add_ray_waver(float* out, int count, double phase, double step, double y) const;

    /// Adds how ragged the sides of rays `width` mm wide are, where fibres and vessels bend around them: quick across
    /// the grain, slow along it.
    void add_ray_edges(float* out, int count, double phase, double step, double y, double width) const;

private:
    static constexpr double bow_mm = 28;  // how far a long log comes nearer to the face before it turns away again
    static constexpr double table_low = -600,
                            table_step = 1;  // mm; noise columns lie up to three cells outside the board

    double u0_ = 0, v0_ = 0, taper_ = 0, reference_ = 0;
    double drift_mm_, depth_mm_, bump_mm_, waver_mm_;
    LineNoise drift_, depth_, bump_;
    Noise waver_[3], fringe_, ray_waver_[3], ray_edges_[2];
    std::vector<double> table_;
};

}  // namespace foretone::grain
