#include "foretone/search/finished.hpp"

namespace foretone::search {

spectral::Spectrum finished(const Bench& bench, const schedule::Finish& finish) {
    const auto& wood = std::get<material::Wood>(bench.shelf.at(bench.wood).data);
    auto board = appearance::bare_board(finish);
    for (const auto& step : finish.steps)
        board = appearance::after_coats(board, schedule::deposit(step, bench.shelf), step.coats, wood);
    return appearance::render(board, wood, bench.geometry, bench.solver).total();
}

}  // namespace foretone::search
