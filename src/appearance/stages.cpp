// Every stage of a finish as it is read: the board after each coat (moments.hpp), rendered.

#include "foretone/appearance/stages.hpp"

#include <algorithm>
#include <array>

#include "moments.hpp"

namespace foretone::appearance {
namespace {

std::string action_of(const schedule::Step& step, const material::Materials& materials) {
    std::string text;
    for (const auto& part : step.mix) {
        const auto& m = materials.at(part.use);
        if (facts(m.kind).bare_liquid && step.mix.size() > 1) continue;  // the carrier goes without saying
        if (!text.empty()) text += " + ";
        text += m.name;
    }
    return text.empty() ? materials.at(step.mix.front().use).name : text;
}

void note(std::vector<std::string>& notes, const std::string& text) {
    if (std::find(notes.begin(), notes.end(), text) == notes.end()) notes.push_back(text);
}

}  // namespace

std::string_view word(StageKind kind) {
    constexpr std::array<std::string_view, 5> words = {"bare", "damp", "dry", "coated", "finished"};
    return words[static_cast<std::size_t>(kind)];
}

Stages stages(const material::Materials& materials, const std::string& wood_id, const schedule::Finish& finish,
              optics::Geometry geometry, const Solver& solver, int* step_of_fault) {
    const auto& wood = std::get<material::Wood>(materials.at(wood_id).data);
    Stages out;
    visit_moments(materials, wood, finish, {}, step_of_fault, [&](const Moment& m) {
        if (m.step < 0) {
            out.stages.push_back(
                {StageKind::bare, 0, 0, "bare wood", 0, render(m.board(), wood, geometry, solver), {}});
            return;
        }
        for (const auto& text : m.deposit->notes) note(out.notes, "step " + std::to_string(m.step + 1) + ": " + text);
        const auto& step = finish.steps[static_cast<std::size_t>(m.step)];
        const Board& board = m.board();
        out.stages.push_back({m.kind, m.step + 1, m.coat + 1, action_of(step, materials), m.film_um,
                              render(board, wood, geometry, solver), board.account});
    });
    return out;
}

std::vector<std::vector<schedule::Account>> accounts(const material::Materials& materials, const std::string& wood_id,
                                                     const schedule::Finish& finish) {
    std::vector<std::vector<schedule::Account>> out(finish.steps.size());
    visit_moments(materials, std::get<material::Wood>(materials.at(wood_id).data), finish, {}, nullptr,
                  [&](const Moment& m) {
                      if (m.step >= 0 && m.kind != StageKind::damp)
                          out[static_cast<std::size_t>(m.step)].push_back(m.board().account);
                  });
    return out;
}

}  // namespace foretone::appearance
