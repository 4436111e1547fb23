#include "foretone/report/recipe.hpp"

#include <algorithm>
#include <array>

#include "foretone/base/number.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/measure.hpp"
#include "foretone/schedule/pot.hpp"

namespace foretone::report {
namespace {
using schedule::Amount;

/// All parts said by one family of units: "4 : 1 : 45 by volume" reads better than a unit at each part.
bool all(const schedule::Step& step, Amount amount) {
    return std::all_of(step.mix.begin(), step.mix.end(), [&](const auto& p) { return p.amount == amount; });
}

std::string amount_text(const schedule::Part& part) {
    const std::string value = base::shortest(part.value);
    switch (part.amount) {
        case Amount::parts:
            return " " + value + " by volume";
        case Amount::parts_weight:
            return " " + value + " by weight";
        case Amount::percent_volume:
            return " " + value + " % by volume";
        case Amount::percent_weight:
            return " " + value + " % by weight";
        case Amount::rest:
            return "";
        case Amount::ml:
            return " " + value + " mL";
        case Amount::g:
            return " " + value + " g";
        case Amount::drops:
            return " " + value + (part.value == 1 ? " drop" : " drops");
        case Amount::g_per_l:
            return " " + value + " g/L";
        case Amount::oz_per_qt:
            return " " + value + " oz/qt";
    }
    return "";
}

std::string mix_text(const schedule::Step& step, const material::Materials& materials) {
    if (step.mix.size() == 1) return materials.at(step.mix.front().use).name;
    const bool volume = all(step, Amount::parts), weight = all(step, Amount::parts_weight), ratio = volume || weight;
    std::string text;
    for (const auto& part : step.mix)
        text += (text.empty() ? ""
                 : ratio      ? " : "
                              : " + ") +
                materials.at(part.use).name + (ratio ? " " + base::shortest(part.value) : amount_text(part));
    return text + (volume ? " by volume" : weight ? " by weight" : "");
}

}  // namespace

std::string step_text(const schedule::Step& step, const material::Materials& materials, Figures figures) {
    constexpr std::array<const char*, 4> done = {"wiped", "brushed", "sprayed", "rolled"};
    std::string text = mix_text(step, materials);
    if (step.cut_lb) text += ", " + base::at_most(*step.cut_lb, 2) + "-lb cut";
    if (step.ready_cut_lb) text += " from a ready " + base::at_most(*step.ready_cut_lb, 2) + "-lb cut";
    text += ", " + std::to_string(step.coats) + (step.coats == 1 ? " coat " : " coats ") +
            done[static_cast<std::size_t>(schedule::method_of(step, materials))];
    if (figures == Figures::all) text += " " + base::at_most(schedule::deposit(step, materials).wet_um, 0) + " µm wet";
    if (step.sheen_gu60)
        text += ", " +
                (figures == Figures::all ? base::at_most(*step.sheen_gu60, 0) + " GU" : sheen_text(*step.sheen_gu60));
    if (step.sand) text += ", sanded with " + base::at_most(*step.sand, 0) + " grit first";
    if (step.water_pop) text += ", the wood wetted and dried first";
    if (step.scuff) text += ", scuffed first";
    if (step.after_days)
        text += ", " + base::at_most(*step.after_days, 2) + (*step.after_days == 1 ? " day" : " days") + " after";
    return text;
}

std::string recipe_text(const schedule::Finish& finish, const material::Materials& materials, Figures figures) {
    std::string text;
    for (std::size_t i = 0; i < finish.steps.size(); ++i)
        text += (i == 0 ? "" : "; ") + std::to_string(i + 1) + " " + step_text(finish.steps[i], materials, figures);
    return text.empty() ? "nothing: bare wood" : text;
}

std::string sheen_text(double gu60) {
    constexpr std::array<std::pair<double, const char*>, 6> below = {
        {{5, "dead flat"}, {10, "matte"}, {20, "eggshell"}, {35, "satin"}, {70, "semi-gloss"}, {85, "gloss"}}};
    for (const auto& [limit, word] : below)
        if (gu60 < limit) return word;
    return "high gloss";
}

}  // namespace foretone::report
