// Two steps lay the same coat where all but the number of their coats is the same; two coats make the same board of one
// board where they are laid equally thick. In one world all else is the same: materials, wood, how coats go in.

#include "trail.hpp"

#include <algorithm>

#include "board_again.hpp"
#include "foretone/schedule/deposit.hpp"

namespace foretone::appearance {

Trail::Trail(const std::vector<schedule::Finish>& finishes, const UncertainFigures& figures) : figures_(figures) {
    for (const auto& finish : finishes) {
        which_.emplace_back();
        for (schedule::Step step : finish.steps) {
            step.coats = 1;
            const auto it = std::find(steps_.begin(), steps_.end(), step);
            which_.back().push_back(static_cast<std::size_t>(it - steps_.begin()));
            if (it == steps_.end()) steps_.push_back(std::move(step));
        }
    }
}

void Trail::start(const std::optional<schedule::UptakeLaw>& law) {
    if (materials_ != figures_.materials_set()) deposits_.clear();
    materials_ = figures_.materials_set();
    deposits_.resize(steps_.size());
    for (auto& place : places_) place.board.past.clear();  // so that no coat is kept but by its place
    damp_.past.clear();
    used_ = 0;
    Place& root = place();
    root.board = {};
    if (law) root.board.law = *law;
}

Trail::Place& Trail::place() {
    if (used_ == places_.size()) places_.emplace_back();
    Place& next = places_[used_++];
    next.dry.clear();
    next.damp.clear();
    return next;
}

const Trail::Deposits& Trail::deposits(std::size_t step) {
    auto& known = deposits_[step];
    if (!known) {
        auto first = schedule::deposit(steps_[step], figures_.materials());
        first.notes.clear();  // said elsewhere
        auto further = schedule::further_coat(first);
        known = Deposits{std::move(first), std::move(further)};
    }
    return *known;
}

std::size_t Trail::after(std::size_t from, std::size_t finish, std::size_t step, bool further, double wet) {
    const OneMore coat{from, which_[finish][step], further, wet};
    for (std::size_t i = 1; i < used_; ++i)
        if (places_[i].coat == coat) return i;
    const auto& said = deposits(coat.step);
    schedule::Deposit laid = schedule::thicker(further ? said.further : said.first, wet);
    Place& next = place();
    next.coat = coat;
    if (next.laid && next.laid.use_count() == 1)
        *next.laid = std::move(laid);
    else
        next.laid = std::make_shared<schedule::Deposit>(std::move(laid));
    dry_into(next.board, places_[from].board, next.laid, figures_.wood());
    return used_ - 1;
}

const Board& Trail::damp(std::size_t from, std::size_t to) {
    damp_into(damp_, places_[from].board, places_[to].laid, figures_.wood());
    return damp_;
}

}  // namespace foretone::appearance
