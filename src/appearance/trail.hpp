#pragma once
// Boards of finishes that begin alike, in one world: what was laid once is not laid again.

#include <memory>
#include <optional>
#include <vector>

#include "foretone/appearance/board.hpp"
#include "foretone/appearance/uncertain.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/schedule/step.hpp"

namespace foretone::appearance {

/// A tree of boards: the root is bare, each other one a board that is there with one more coat.
class Trail {
public:
    /// Every coat of `finishes` may be laid, by the materials of `figures` as they are set.
    Trail(const std::vector<schedule::Finish>& finishes, const UncertainFigures& figures);

    /// Forgets all boards, as another world was set; goes by `law`.
    void start(const std::optional<schedule::UptakeLaw>& law);

    static constexpr std::size_t bare = 0;

    /// The board `from` with one more coat of that step, the step's first one or a further one, its wet film `wet` of
    /// what the schedule says. Throws schedule::Fault.
    std::size_t after(std::size_t from, std::size_t finish, std::size_t step, bool further, double wet);

    const Board& board(std::size_t number) const { return places_[number].board; }
    /// The board `from` while the last coat of the board `to` is wet. Valid until the next call.
    const Board& damp(std::size_t from, std::size_t to);

    /// Colors of a board, and of it while its last coat was wet, once someone has looked.
    std::vector<color::Lab>& colors(std::size_t number) { return places_[number].dry; }
    std::vector<color::Lab>& damp_colors(std::size_t number) { return places_[number].damp; }

private:
    struct OneMore {
        std::size_t from = 0, step = 0;
        bool further = false;
        double wet = 1;
        bool operator==(const OneMore&) const = default;
    };
    struct Place {
        OneMore coat;
        std::shared_ptr<schedule::Deposit> laid;
        Board board;
        std::vector<color::Lab> dry, damp;
    };
    struct Deposits {
        schedule::Deposit first, further;
    };
    const Deposits& deposits(std::size_t step);

    const UncertainFigures& figures_;
    std::vector<schedule::Step> steps_;            // all that differ by more than their coats
    std::vector<std::vector<std::size_t>> which_;  // [finish][step]
    std::vector<std::optional<Deposits>> deposits_;
    std::size_t materials_ = 0;  // the account's materials that deposits are of
    Place& place();

    std::vector<Place> places_;  // the first `used_`; the others' storage is used again
    std::size_t used_ = 0;
    Board damp_;
};

}  // namespace foretone::appearance
