#include "foretone/search/finished.hpp"

#include "foretone/appearance/ageing.hpp"

namespace foretone::search {

appearance::Board finished_board(const Setting& setting, const schedule::Finish& finish) {
    const auto& wood = std::get<material::Wood>(setting.materials.at(setting.wood).data);
    appearance::Board board;
    for (const auto& step : finish.steps)
        board = appearance::after_coats(board, schedule::deposit(step, setting.materials), step.coats, wood);
    return board;
}

spectral::Spectrum finished(const Setting& setting, const schedule::Finish& finish) {
    if (!setting.after.empty()) {
        const auto old = appearance::aged(setting.materials, setting.wood, finish, setting.after);
        return finished({old.materials, old.wood, setting.geometry, setting.solver}, old.finish);
    }
    const auto& wood = std::get<material::Wood>(setting.materials.at(setting.wood).data);
    return appearance::render(finished_board(setting, finish), wood, setting.geometry, setting.solver).total();
}

}  // namespace foretone::search
