#include "foretone/search/words.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/schedule/printed.hpp"
#include "foretone/schedule/units.hpp"

namespace foretone::search {
namespace {
using schedule::Amount;

std::string part_text(const schedule::Part& part) {
    switch (part.amount) {
        case Amount::parts:
            return part.use + " " + base::shortest(part.value);
        case Amount::parts_weight:
            return part.use + " " + base::shortest(part.value) + " by weight";
        case Amount::percent_volume:
            return part.use + " " + base::shortest(part.value) + " % by volume";
        case Amount::percent_weight:
            return part.use + " " + base::shortest(part.value) + " % by weight";
        case Amount::rest:
            return part.use;
        case Amount::ml:
            return part.use + " " + base::shortest(part.value) + " mL";
        case Amount::g:
            return part.use + " " + base::shortest(part.value) + " g";
        case Amount::drops:
            return part.use + " " + base::shortest(part.value) + " drops";
        case Amount::g_per_l:
            return part.use + " " + base::shortest(part.value) + " g/L";
        case Amount::oz_per_qt:
            return part.use + " " + base::shortest(part.value) + " oz/qt";
    }
    return part.use;
}

std::string step_line(const schedule::Step& step, schedule::UnitSystem units) {
    constexpr std::array<const char*, 4> done = {"wiped", "brushed", "sprayed", "rolled"};
    std::string text;
    if (step.mix.size() == 1)
        text = step.mix.front().use;
    else
        for (const auto& part : step.mix) text += (text.empty() ? "" : " + ") + part_text(part);
    if (step.cut_lb) text += (step.mix.size() > 1 ? ", " : " ") + base::shortest(*step.cut_lb) + "-lb";
    if (step.coats > 1) text += " ×" + std::to_string(step.coats);
    if (step.method) text += std::string(" ") + done[static_cast<std::size_t>(*step.method)];
    const bool us = units == schedule::UnitSystem::us;
    if (step.wet_um)
        text += ", " +
                (us ? schedule::printed(*step.wet_um, schedule::Dimension::film, units)
                    : base::shortest(*step.wet_um) + " µm") +
                " wet";
    if (step.wet_g_per_m2) {
        text += ", " + base::shortest(*step.wet_g_per_m2) + " g/m2";
        if (us)
            text += " (" + schedule::figures(*step.wet_g_per_m2 * schedule::m2_per_ft2 / schedule::g_per_oz, 2) +
                    " oz/ft²)";
    }
    if (step.coverage_m2_per_l)
        text += ", " + (us ? schedule::printed(*step.coverage_m2_per_l, schedule::Dimension::coverage, units)
                           : base::shortest(*step.coverage_m2_per_l) + " m2/L");
    if (step.sheen_gu60) text += ", " + base::shortest(*step.sheen_gu60) + " GU";
    return text;
}

double hue_degrees(const color::Lab& c) { return std::atan2(c.b, c.a) * 180 / std::numbers::pi; }

}  // namespace

std::string mixing_line(const schedule::Finish& finish, schedule::UnitSystem units) {
    std::string text;
    for (const auto& step : finish.steps) text += (text.empty() ? "" : "; ") + step_line(step, units);
    return text.empty() ? "bare wood" : text;
}

std::string out_of_reach(const color::Lab& target, const color::Lab& nearest, const color::Lab& bare) {
    std::string text;
    if (target.l > bare.l + 0.5)
        text = "the wood itself is " + base::fixed(target.l - bare.l, 1) +
               " darker in L* than the target, and no finish of these lightens it; ";
    std::vector<std::string> lacks;
    const double dl = target.l - nearest.l, c1 = std::hypot(nearest.a, nearest.b), c2 = std::hypot(target.a, target.b),
                 dc = c2 - c1;
    double dh = std::remainder(hue_degrees(target) - hue_degrees(nearest), 360);
    if (std::abs(dl) >= 0.5)
        lacks.push_back(base::fixed(std::abs(dl), 1) + (dl > 0 ? " lighter" : " darker") + " in L*");
    if (std::abs(dc) >= 0.5)
        lacks.push_back(base::fixed(std::abs(dc), 1) + (dc > 0 ? " more" : " less") + " saturated in C*");
    if (std::min(c1, c2) > 2 && std::abs(dh) * std::sqrt(c1 * c2) * std::numbers::pi / 180 >= 0.5)
        lacks.push_back(base::fixed(std::abs(dh), 1) + " degrees of hue " +
                        (dh > 0 ? "to the yellow and green" : "to the red and purple"));
    return text + "the target is " + (lacks.empty() ? "a little off" : base::joined(lacks, ", ", " and ")) +
           " from the nearest of these recipes";
}

}  // namespace foretone::search
