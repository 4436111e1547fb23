#pragma once
/// A board's picture row by row, for boards too large to be held: the pixels of `light_board`, bit by bit.

#include <memory>
#include <span>

#include "foretone/light/board.hpp"

namespace foretone::light {

class LitRows;

class BoardPicture {
public:
    /// Of a board of that many pixels; `finished` must outlive it. Throws as `light_board`.
    BoardPicture(int width, int height, double mm_per_px, const Finished& finished, const Lighting& lighting,
                 int threads = 0);
    ~BoardPicture();
    BoardPicture(BoardPicture&&) noexcept;

    /// Draws the board's rows [from, end) into `rgb`, three bytes a pixel. `maps` are of its rows from `first` on, and
    /// hold the rows beside those that are drawn, where the board has any. Sums are kept in the order of the calls.
    void draw(const grain::Maps& maps, int first, int from, int end, std::span<std::uint8_t> rgb);

    /// Of the pixels drawn so far: as `Lit` has them.
    color::Xyz mean() const;
    const Tally& tally() const { return tally_; }
    double reduced_share() const { return static_cast<double>(tally_.reduced) / static_cast<double>(pixels_); }
    double white_share() const { return static_cast<double>(tally_.white) / static_cast<double>(pixels_); }

private:
    std::unique_ptr<LitRows> rows_;
    int width_, threads_;
    std::array<double, 3> total_{};
    Tally tally_;
    std::uint64_t pixels_ = 0;
};

}  // namespace foretone::light
