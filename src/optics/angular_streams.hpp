#pragma once
/// Directions that refraction maps onto each other in every medium of a stack, and the share of flux each carries.

#include <vector>

namespace foretone::optics::angular_detail {

/// One direction, known by its Snell invariant β = n sinθ. To keep small cosines exact it is stored as its cosine in
/// the medium `index` in which its interval of β ends grazing: β² = index²(1 − cosine²).
struct Stream {
    double index;
    double cosine;
    double flux;   ///< ∫ β dβ, the same in all media: half the share of flux under uniform radiance, times n²
    double whole;  ///< the same before views took their part
};

/// Streams of one interval of β, places first … last − 1 of the list, cosines in medium `index` from `low` to `high`.
struct Interval {
    double index;
    double low, high;
    int first, last;
};

/// Directions common to all media: the views, then the intervals with β rising. The ones a medium carries come first.
struct Streams {
    std::vector<Stream> all;
    std::vector<Interval> intervals;
    int views = 0;  ///< how many leading streams are measuring directions, of vanishing flux

    int size() const { return static_cast<int>(all.size()); }
    int in_medium(double n) const;              ///< how many leading streams exist (β < n) in a medium of index n
    double beta_squared(int stream) const;      ///< β²
    double cosine(int stream, double n) const;  ///< cosine in a medium of index n; 0 where the stream does not exist
};

/// `count` directions (2 or more) for media of the given indices (any order, repeats allowed) under air, with a view
/// for each cosine in `air_cosines`, 0 < cosine ≤ 1.
Streams make_streams(const std::vector<double>& indices, int count, const std::vector<double>& air_cosines);

}  // namespace foretone::optics::angular_detail
