#pragma once
// A board's maps, held or drawn anew in pieces, whichever its size allows.

#include <functional>
#include <optional>

#include "foretone/appearance/spots.hpp"
#include "foretone/grain/face.hpp"
#include "foretone/job/board.hpp"

namespace foretone::job {

class BoardMaps : public appearance::Spots {
public:
    /// Of maps that stay where they are.
    BoardMaps(const grain::Maps& maps);
    /// Drawn by the request: held up to `held` pixels.
    BoardMaps(const material::Wood& wood, const BoardRequest& request, double held);
    BoardMaps(const BoardMaps&) = delete;
    BoardMaps& operator=(const BoardMaps&) = delete;

    int width() const { return width_; }
    int height() const { return height_; }
    double mm_per_px() const { return mm_per_px_; }
    const appearance::SpotRange& range() const { return range_; }
    const appearance::ShadeShares& shades() const { return *shades_; }

    /// The board's rows [from, end), in maps that begin with its row `first` and hold the rows beside them too.
    struct Piece {
        const grain::Maps& maps;
        int first, from, end;

        std::span<const float> of(const std::vector<float>& map) const;  ///< one of these maps, those rows alone
    };
    /// From the top, all rows once.
    void each_piece(const std::function<void(const Piece&)>& take) const;
    /// Rows [first, end) as maps of their own.
    void rows(grain::Maps& maps, int first, int end) const;

    void each(const Take& take) const override;

private:
    void know_shades();

    int width_ = 0, height_ = 0;
    double mm_per_px_ = 0;
    std::optional<grain::Face> face_;
    grain::Maps own_;
    const grain::Maps* held_ = nullptr;
    appearance::SpotRange range_;
    std::optional<appearance::ShadeShares> shades_;
};

}  // namespace foretone::job
