#include "tools.hpp"

#include "foretone/schedule/measure.hpp"
#include "foretone/schedule/units.hpp"

namespace foretone::cli {
using schedule::Dimension;

void add_tools(CLI::App& verb, std::string& scale, std::string& syringe) {
    verb.add_option("--scale", scale, "Smallest step of the scale (default 0.1g; 0.01oz in US units)");
    verb.add_option(
        "--syringe", syringe,
        "Smallest step of the syringe (default 0.5mL, 0.02 fl oz in US units, and measuring cups for more than "
        "100 mL)");
}

schedule::Tools tools_of(const std::string& scale, const std::string& syringe, schedule::UnitSystem units) {
    const bool us = units == schedule::UnitSystem::us;
    schedule::Tools tools;
    if (us) tools = {0.01 * schedule::g_per_oz, 0.02 * 1000 * schedule::l_per_us_gal / 128};
    tools.syringe_up_to_ml = schedule::usual_syringe_up_to_ml;
    if (!scale.empty())
        tools.scale_g = at_option("--scale", [&] { return schedule::amount_in(scale, Dimension::mass, 1e-4, 1000); });
    if (syringe.empty()) return tools;
    tools.syringe_ml =
        at_option("--syringe", [&] { return schedule::amount_in(syringe, Dimension::volume, 1e-3, 1000); });
    tools.syringe_up_to_ml = schedule::Tools().syringe_up_to_ml;
    return tools;
}

std::string tools_text(const std::string& scale, const std::string& syringe, schedule::UnitSystem units) {
    const bool us = units == schedule::UnitSystem::us;
    return "scale " + (scale.empty() ? us ? "0.01 oz" : "0.1 g" : scale) + ", syringe " +
           (syringe.empty() ? us ? "0.02 fl oz" : "0.5 mL" : syringe) +
           (syringe.empty() ? ", measuring cups beyond 100 mL" : "");
}

}  // namespace foretone::cli
