#include "foretone/appearance/stages.hpp"

#include <algorithm>
#include <array>

namespace foretone::appearance {
namespace {

std::string action_of(const schedule::Step& step, const material::Shelf& shelf) {
    std::string text;
    for (const auto& part : step.mix) {
        const auto& m = shelf.at(part.use);
        if (m.kind == "liquid" && step.mix.size() > 1) continue;  // the carrier goes without saying
        if (!text.empty()) text += " + ";
        text += m.name;
    }
    return text.empty() ? shelf.at(step.mix.front().use).name : text;
}

void note(std::vector<std::string>& notes, const std::string& text) {
    if (std::find(notes.begin(), notes.end(), text) == notes.end()) notes.push_back(text);
}

void scale_wet(schedule::Step& step, schedule::Deposit& d, const material::Shelf& shelf, double factor) {
    step.coverage_m2_per_l.reset();
    step.wet_g_per_m2.reset();
    step.wet_um = std::clamp(d.wet_um * factor, 1.0, 500.0);
    d = schedule::deposit(step, shelf);
}

}  // namespace

std::string_view word(StageKind kind) {
    constexpr std::array<std::string_view, 5> words = {"bare", "damp", "dry", "coated", "finished"};
    return words[static_cast<std::size_t>(kind)];
}

static Stages run(const material::Shelf& shelf, const std::string& wood_id, const schedule::Finish& finish, optics::Geometry geometry,
                  const Solver& solver, int scaled_step, double factor, int* step_of_fault) {
    const auto& wood = std::get<material::Wood>(shelf.at(wood_id).data);
    Stages out;
    Board board;
    out.stages.push_back({StageKind::bare, 0, 0, "bare wood", 0, render(board, wood, geometry, solver)});
    for (std::size_t s = 0; s < finish.steps.size(); ++s) {
        if (step_of_fault) *step_of_fault = static_cast<int>(s);
        schedule::Step step = finish.steps[s];
        schedule::Deposit d = schedule::deposit(step, shelf);
        for (const auto& text : d.notes) note(out.notes, "step " + std::to_string(s + 1) + ": " + text);
        if (static_cast<int>(s) == scaled_step) scale_wet(step, d, shelf, factor);
        const std::string action = action_of(step, shelf);
        for (int coat = 1; coat <= step.coats; ++coat) {
            const int after = static_cast<int>(s) + 1;
            if (d.soaks()) {
                const Board wet = while_wet(board, d, wood);
                out.stages.push_back({StageKind::damp, after, coat, action, board.film_um, render(wet, wood, geometry, solver)});
            }
            board = after_drying(board, d, wood);
            out.stages.push_back({d.soaks() ? StageKind::dry : StageKind::coated, after, coat, action, board.film_um,
                                  render(board, wood, geometry, solver)});
        }
    }
    if (out.stages.size() > 1) out.stages.back().kind = StageKind::finished;
    if (step_of_fault) *step_of_fault = -1;
    return out;
}

Stages stages(const material::Shelf& shelf, const std::string& wood, const schedule::Finish& finish, optics::Geometry geometry,
              const Solver& solver, int* step_of_fault) {
    return run(shelf, wood, finish, geometry, solver, -1, 1, step_of_fault);
}

Stages stages_with_wet(const material::Shelf& shelf, const std::string& wood, const schedule::Finish& finish, optics::Geometry geometry,
                       const Solver& solver, int step, double factor) {
    return run(shelf, wood, finish, geometry, solver, step, factor, nullptr);
}

}  // namespace foretone::appearance
