#pragma once
/// What a row of coats says: where it comes nearest the target, and where more coats no longer show.

#include <optional>
#include <vector>

namespace foretone::search {

/// ΔE00 below which a person sees no change between two numbers of coats (common practice).
inline constexpr double coat_seen_de00 = 1;

/// One number of coats; ΔE00 are the worst over the lights.
struct CoatsStep {
    std::vector<double> apart;  ///< to each number of coats below it, from none upward; empty for none
    std::optional<double> to_target;
    double spread = 0;
};

struct CoatsVerdict {
    std::optional<int> nearest;  ///< coats at which the target is nearest (the fewest of equals)
    std::optional<int> settled;  ///< fewest coats that no larger number asked for is told from; none if only the last
    std::optional<int> within;   ///< fewest coats at which the target lies within one spread
};

/// `steps[i]` is the board with i coats. Throws std::invalid_argument if there is none.
CoatsVerdict coats_verdict(const std::vector<CoatsStep>& steps);

}  // namespace foretone::search
