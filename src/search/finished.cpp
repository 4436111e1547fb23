#include "foretone/search/finished.hpp"

namespace foretone::search {

appearance::Board finished_board(const Bench& bench, const schedule::Finish& finish) {
    const auto& wood = std::get<material::Wood>(bench.shelf.at(bench.wood).data);
    appearance::Board board;
    for (const auto& step : finish.steps)
        board = appearance::after_coats(board, schedule::deposit(step, bench.shelf), step.coats, wood);
    return board;
}

spectral::Spectrum finished(const Bench& bench, const schedule::Finish& finish) {
    const auto& wood = std::get<material::Wood>(bench.shelf.at(bench.wood).data);
    return appearance::render(finished_board(bench, finish), wood, bench.geometry, bench.solver).total();
}

}  // namespace foretone::search
