#pragma once
// Quantiles of what was seen in drawn worlds, corrected by what their straight part gives in the same worlds.

#include <Eigen/Core>
#include <vector>

namespace foretone::appearance {

/// A quantile and one standard error of it, in the values' units.
struct Told {
    double value = 0, error = 0;
};

/// The straight part of a move, offset + J z, in the worlds drawn and in all of them.
class Control {
public:
    /// `slopes` J: what each coordinate does to the move, 3 × coordinates, in units in which lengths are told.
    /// `worlds`: coordinates × draws, set by set; `sets`: their sizes.
    Control(const Eigen::MatrixXd& slopes, const Eigen::Vector3d& offset, const Eigen::MatrixXd& worlds,
            const std::vector<std::size_t>& sets);

    const std::vector<std::size_t>& sets() const { return sets_; }
    const std::vector<double>& lengths() const { return lengths_; }  ///< in the worlds drawn
    double quantile(double share) const;                             ///< of the lengths in all worlds

private:
    std::vector<std::size_t> sets_;
    std::vector<double> lengths_, everywhere_;
};

/// The 90 % quantile of `seen`, in logarithms: what is far from the middle.
Told outer_quantile(const std::vector<double>& seen, const Control& control);

/// The quantile `share` of `seen`, of differences; `share` 0.05–0.95.
Told quantile_of(double share, const std::vector<double>& seen, const Control& control);

}  // namespace foretone::appearance
