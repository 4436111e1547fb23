#include "foretone/search/finished.hpp"

#include <set>

#include "foretone/appearance/ageing.hpp"
#include "foretone/material/references.hpp"

namespace foretone::search {
namespace {

// What a finish is made of: to age a whole library for each recipe would cost more than the solve.
material::Materials used_by(const Setting& setting, const schedule::Finish& finish) {
    std::set<std::string> ids = {setting.wood};
    for (const auto& step : finish.steps)
        for (const auto& part : step.mix) material::add_with_parts(setting.materials, part.use, ids);
    material::Materials out;
    for (const auto& id : ids)
        if (const auto it = setting.materials.find(id); it != setting.materials.end()) out.insert(*it);
    return out;
}

}  // namespace

appearance::Board finished_board(const Setting& setting, const schedule::Finish& finish) {
    const auto& wood = std::get<material::Wood>(setting.materials.at(setting.wood).data);
    appearance::Board board;
    for (const auto& step : finish.steps)
        board = appearance::after_coats(board, schedule::deposit(step, setting.materials), step.coats, wood);
    return board;
}

spectral::Spectrum finished(const Setting& setting, const schedule::Finish& finish) {
    if (!setting.after.empty()) {
        const auto old = appearance::aged(used_by(setting, finish), setting.wood, finish, setting.after);
        return finished({old.materials, old.wood, setting.geometry, setting.solver}, old.finish);
    }
    const auto& wood = std::get<material::Wood>(setting.materials.at(setting.wood).data);
    return appearance::render(finished_board(setting, finish), wood, setting.geometry, setting.solver).total();
}

}  // namespace foretone::search
