#pragma once
/// How likely a client sees a difference.

namespace foretone::search {

/// ΔE00 above which most people see a difference side by side (common practice).
inline constexpr double client_sees_de00 = 2;

/// Probability that the finished piece is more than `threshold` from the target, for a color whose mean is `de00` from it and whose spread (root
/// mean square ΔE00 from the mean) is `spread`. The error is taken as normal and alike in the three directions of color space, each of standard
/// deviation spread/√3; then the distance is a noncentral chi with three degrees of freedom, whose distribution is closed (see chance.cpp).
/// Throws std::invalid_argument for a negative or non-finite argument.
double chance_beyond(double threshold, double de00, double spread);

}  // namespace foretone::search
