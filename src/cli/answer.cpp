#include "answer.hpp"

#include <iostream>
#include <nlohmann/json.hpp>

#include "foretone/report/tool_json.hpp"
#include "foretone/base/number.hpp"
#include "foretone/schedule/printed.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/report/json.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {

std::string json_of(const Answer& a) {
    nlohmann::ordered_json j;
    j["tool"] = report::tool_json();
    j["title"] = a.title;
    j["values"] = nlohmann::ordered_json::array();
    for (const auto& v : a.values) j["values"].push_back({{"key", v.key}, {"value", v.value}, {"unit", v.unit}});
    j["formulas"] = a.formulas;
    j["notes"] = a.notes;
    j["cautions"] = nlohmann::ordered_json::array();
    for (const auto& c : job::all_cautions(a.cautions)) j["cautions"].push_back({{"id", c.id}, {"text", c.text}});
    return j.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

// Grams and millilitres in figures that can be weighed or poured, in the units asked for; all else as it is.
std::pair<std::string, std::string> shown(const Answer::Value& v, schedule::UnitSystem units) {
    const bool g = v.unit == "g", ml = v.unit == "mL";
    std::string text = v.text;
    if (text.empty() && (g || ml))
        text = schedule::printed(v.value, g ? schedule::Dimension::mass : schedule::Dimension::volume, units);
    const auto blank = text.find(' ');
    if (blank != std::string::npos) return {text.substr(0, blank), text.substr(blank + 1)};
    return {base::at_most(v.value, v.digits), v.unit};
}

}  // namespace

int give(const Answer& a, const Common& common) {
    put_json(common, json_of(a));
    if (common.speaks()) {
        std::cout << a.title << "\n";
        std::size_t width = 0;
        for (const auto& v : a.values) width = std::max(width, columns_of(v.label));
        const auto units = a.units.value_or(units_said(common).value_or(schedule::UnitSystem::metric));
        for (const auto& v : a.values) {
            const auto [number, unit] = shown(v, units);
            std::cout << "  " << left(v.label, width) << "  " << right(number, 9) << " " << unit << "\n";
        }
        for (const auto& f : a.formulas) std::cout << "formula: " << f << "\n";
        for (const auto& n : a.notes) std::cout << "note: " << n << "\n";
    }
    print_cautions(common, a.cautions);
    return 0;
}

}  // namespace foretone::cli
