#pragma once
/// Where the colors of many draws lie: their middle, their covariance and the region that holds 90 % of them.

#include <array>
#include <vector>

#include "foretone/color/lab.hpp"

namespace foretone::appearance {

/// Share of the draws that the region is meant to hold.
inline constexpr double region_share = 0.90;

/// √ of the 90 % quantile of χ² with three degrees of freedom: half axis of the 90 % ellipsoid over one standard
/// deviation.
inline constexpr double region_factor = 2.5002777108;

/// Half axes below this ΔE*ab are given as none: nobody sees them, and their directions would be rounding.
inline constexpr double shortest_axis = 1e-3;

/// One half axis of the 90 % ellipsoid in CIELAB.
struct HalfAxis {
    double length = 0;                  ///< ΔE*ab; 0 or at least `shortest_axis`
    std::array<double, 3> direction{};  ///< unit vector in L*, a*, b*; its largest component is positive
};

/// All of colors under one light. Zero throughout if all colors are the same.
struct Region {
    color::Lab mean;
    std::array<std::array<double, 3>, 3> covariance{};  ///< of L*, a*, b*
    double rms_de00 = 0;        ///< root mean square ΔE00 from the mean: one standard deviation
    double de00_90 = 0;         ///< 90 % of the draws are within this ΔE00 of the mean
    double de00_90_error = 0;   ///< one standard error of that, as a share of it: the draws are finitely many
    double materials_de00 = 0;  ///< of `rms_de00`: what the materials are; and
    double boards_de00 = 0;     ///< what boards and coats do. Their squares add up to its square
    std::array<HalfAxis, 3>
        axes;  ///< longest first; the ellipsoid holds 90 % of a normal distribution of this covariance
};

/// The region of `colors`, equally likely; `off`, if asked for, is set to each one's ΔE00 from the mean. Throws
/// std::invalid_argument for fewer than two.
Region region(const std::vector<color::Lab>& colors, std::vector<double>* off = nullptr);

/// Share `share` (0–1) of `values` lies below this (linear between ranks). Throws std::invalid_argument for none.
double quantile(std::vector<double> values, double share);

/// `count` (≥ 1) of `colors`, all within `of.de00_90` of the mean, from pale to dark and evenly spaced in rank of L*:
/// what boards may turn out as. Fewer if there are not that many; throws std::invalid_argument for a count of 0.
std::vector<color::Lab> plausible(const std::vector<color::Lab>& colors, const Region& of, std::size_t count);

}  // namespace foretone::appearance
