#include "walk.hpp"

#include <string>

#include "foretone/base/number.hpp"

namespace foretone::appearance {
namespace {

void scale(spectral::Spectrum& s, double factor) {
    for (double& v : s) v *= factor;
}

// The same liquid put on thinner or thicker: everything per area goes with the wet film, nothing else does.
schedule::Deposit with_wet(const schedule::Deposit& d, double factor) {
    schedule::Deposit out = d;
    out.wet_um *= factor;
    if (!(out.wet_um >= 1 && out.wet_um <= 500))
        throw schedule::Fault(
            "wet-range", -1,
            "one coat would be " + base::shortest(out.wet_um) + " um wet; a coat is between 1 and 500 um");
    out.binder_um *= factor;
    scale(out.dye_absorbance, factor);
    scale(out.pigment_absorbance, factor);
    scale(out.pigment_scattering, factor);
    return out;
}

}  // namespace

void walk(const material::Shelf& shelf, const material::Wood& wood, const schedule::Finish& finish,
          const Departure& departure, int* step_of_fault, const std::function<void(const Moment&)>& visit) {
    std::size_t last_step = 0;  // a step of no coats leaves nothing
    for (std::size_t s = 0; s < finish.steps.size(); ++s)
        if (finish.steps[s].coats > 0) last_step = s;
    Board board;
    visit({StageKind::bare, -1, 0, nullptr, 0, [&]() -> const Board& { return board; }});
    for (std::size_t s = 0; s < finish.steps.size(); ++s) {
        if (step_of_fault) *step_of_fault = static_cast<int>(s);
        const schedule::Step& step = finish.steps[s];
        const schedule::Deposit usual = schedule::deposit(step, shelf);
        for (int coat = 0; coat < step.coats; ++coat) {
            const schedule::Deposit d =
                departure.wet.empty() ? usual : with_wet(usual, departure.wet[s][static_cast<std::size_t>(coat)]);
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
