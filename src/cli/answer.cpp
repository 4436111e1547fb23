#include "answer.hpp"

#include <iostream>

#include "foretone/base/number.hpp"
#include "foretone/report/mix_json.hpp"
#include "foretone/schedule/printed.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {

// Grams and millilitres in figures that can be weighed or poured, in the units asked for; all else as it is.
std::pair<std::string, std::string> shown(const job::MixFigure& v, schedule::UnitSystem units) {
    const bool g = v.unit == "g", ml = v.unit == "mL";
    std::string text = v.text;
    if (text.empty() && (g || ml))
        text = schedule::printed(v.value, g ? schedule::Dimension::mass : schedule::Dimension::volume, units);
    const auto blank = text.find(' ');
    if (blank != std::string::npos) return {text.substr(0, blank), text.substr(blank + 1)};
    return {base::at_most(v.value, v.digits), v.unit};
}

}  // namespace

int give(const job::MixAnswer& a, const Common& common) {
    put_json(common, report::mix_json(a));
    if (common.speaks()) {
        std::cout << a.title << "\n";
        std::size_t width = 0;
        for (const auto& v : a.figures) width = std::max(width, columns_of(v.label));
        const auto units = units_said(common).value_or(a.units_written.value_or(schedule::UnitSystem::metric));
        for (const auto& v : a.figures) {
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
