// Coat by coat: what a coat leaves is added to what those before it left. A coat that soaks in is seen twice, damp and
// dry; the last coat of the last step that has any is the finished state.

#include "moments.hpp"

#include <string>

namespace foretone::appearance {
void visit_moments(const material::Materials& materials, const material::Wood& wood, const schedule::Finish& finish,
                   const Departure& departure, int* step_of_fault, const std::function<void(const Moment&)>& visit) {
    std::size_t last_step = 0;  // a step of no coats leaves nothing
    for (std::size_t s = 0; s < finish.steps.size(); ++s)
        if (finish.steps[s].coats > 0) last_step = s;
    Board board;
    if (departure.law) board.law = *departure.law;
    visit({StageKind::bare, -1, 0, nullptr, 0, [&]() -> const Board& { return board; }});
    for (std::size_t s = 0; s < finish.steps.size(); ++s) {
        if (step_of_fault) *step_of_fault = static_cast<int>(s);
        const schedule::Step& step = finish.steps[s];
        const schedule::Deposit first = schedule::deposit(step, materials);
        const schedule::Deposit further = schedule::further_coat(first);
        for (int coat = 0; coat < step.coats; ++coat) {
            const auto& said = coat == 0 ? first : further;
            const schedule::Deposit d = departure.wet.empty()
                                            ? said
                                            : schedule::thicker(said, departure.wet[s][static_cast<std::size_t>(coat)]);
            const int number = static_cast<int>(s);
            const bool soaks = departure.soaks.empty() ? d.soaks() : departure.soaks[s];
            if (soaks) {
                Board liquid;
                visit({StageKind::damp, number, coat, &d, board.film_um,
                       [&]() -> const Board& { return liquid = while_wet(board, d, wood); }});
            }
            board = after_drying(board, d, wood);
            const bool last = s == last_step && coat + 1 == step.coats;
            visit({last    ? StageKind::finished
                   : soaks ? StageKind::dry
                           : StageKind::coated,
                   number, coat, &d, board.film_um, [&]() -> const Board& { return board; }});
        }
    }
    if (step_of_fault) *step_of_fault = -1;
}

}  // namespace foretone::appearance
