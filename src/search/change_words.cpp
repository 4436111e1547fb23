#include <array>
#include <cmath>

#include "change_kinds.hpp"
#include "foretone/base/number.hpp"
#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/printed.hpp"
#include "foretone/search/correct.hpp"
#include "foretone/search/words.hpp"

namespace foretone::search {
namespace {

std::string coats_text(int n) { return std::to_string(n) + (n == 1 ? " coat" : " coats"); }

std::string film_text(double um, schedule::UnitSystem units) {
    return units == schedule::UnitSystem::us ? schedule::printed(um, schedule::Dimension::film, units)
                                             : base::shortest(um) + " µm";
}

// A touch by the drop, 20 a millilitre, for a pot of 100 mL.
std::string drops_text(const Change& change, const material::Materials& materials) {
    if (materials.at(change.material).kind == material::Kind::dye)
        return base::shortest(rounded(change.amount, 2)) + " g/L";
    const double drops = change.amount * 100 * 20;
    return drops < 0.95
               ? "under a drop in 100 mL"
               : "about " + base::shortest(rounded(drops, 2)) + (drops < 1.5 ? " drop" : " drops") + " in 100 mL";
}

}  // namespace

std::string_view word(Change::Kind kind) {
    constexpr std::array<std::string_view, 6> words = {"strength", "coats", "cut", "film", "touch", "sheen"};
    return words[static_cast<std::size_t>(kind)];
}

std::string sentence(const Change& change, const schedule::Finish& before, const material::Materials& materials,
                     schedule::UnitSystem units) {
    const auto& was = before.steps.at(change.step);
    const std::string at = "step " + std::to_string(change.step + 1) + ": ";
    const bool gone = change.finish.steps.size() < before.steps.size();
    const std::string line = gone ? "" : mixing_line({"", {change.finish.steps[change.step]}}, units);
    switch (change.kind) {
        case Change::Kind::strength:
            return at + (change.amount < 1 ? "dilute the dye to " : "strengthen the dye to ") +
                   base::shortest(std::round(change.amount * 100)) + " % of its strength: " + line;
        case Change::Kind::coats:
            if (gone) return "leave out step " + std::to_string(change.step + 1) + " (" + change.material + ")";
            return at + coats_text(change.finish.steps[change.step].coats) + " of " + change.material + " instead of " +
                   std::to_string(was.coats);
        case Change::Kind::cut:
            return at + change.material + " at a " + base::shortest(change.amount) + "-lb cut" +
                   (was.cut_lb ? " instead of " + base::shortest(*was.cut_lb) : "");
        case Change::Kind::film: {
            const double now = *change.finish.steps[change.step].wet_um,
                         before_um = std::round(schedule::deposit(was, materials).wet_um);
            return at + "lay " + change.material + (change.amount < 1 ? " thinner: " : " heavier: ") +
                   film_text(now, units) + " wet instead of " +
                   (units == schedule::UnitSystem::us ? film_text(before_um, units) : base::shortest(before_um));
        }
        case Change::Kind::touch:
            return at + "a touch of " + change.material + ", " + drops_text(change, materials) + ": " + line;
        case Change::Kind::sheen:
            return at + base::shortest(change.amount) + " gloss units instead of " +
                   base::shortest(std::round(schedule::deposit(was, materials).sheen_gu60));
    }
    return at;
}

}  // namespace foretone::search
