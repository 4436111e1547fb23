#pragma once
/// A board's face drawn piece by piece, for boards too large to be held: the maps of `grain`, bit by bit.

#include <memory>

#include "foretone/appearance/spots.hpp"
#include "foretone/grain/grain.hpp"

namespace foretone::grain {

class BoardFace;

class Face {
public:
    /// Draws the whole board once, to know its mean and its extremes; throws as `grain`. With `keep` the maps are left
    /// there.
    Face(const material::Wood& wood, Cut cut, int width, int height, double mm_per_px, std::uint64_t seed,
         int threads = 0, Maps* keep = nullptr);
    ~Face();
    Face(Face&&) noexcept;
    Face& operator=(Face&&) noexcept;

    int width() const { return width_; }
    int height() const { return height_; }
    double mm_per_px() const { return mm_per_px_; }
    const appearance::SpotRange& range() const { return range_; }

    /// Rows [first, end) as maps of their own; memory that `maps` holds is used again.
    void draw(Maps& maps, int first, int end, int threads = 0) const;

private:
    void finish(Maps& maps, int first, int end) const;

    std::unique_ptr<BoardFace> face_;
    int width_, height_;
    double mm_per_px_;
    float add_ = 0, per_ = 1;  // to every shade; times every uptake
    appearance::SpotRange range_;
};

}  // namespace foretone::grain
