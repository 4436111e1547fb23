// The larger unit is taken where the smaller would need four figures. A pot's measures stay in the one unit that the
// scale or the measuring cup shows; beside larger ones stands how they are counted out of quarts and pounds.

#include "foretone/schedule/printed.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/schedule/spelling.hpp"
#include "foretone/schedule/units.hpp"

namespace foretone::schedule {
namespace {

// A unit as it is printed, and the stored amount from which on it is taken.
struct Print {
    std::string_view name, text;
    double from;
};

constexpr double ml_per_fl_oz = 1000 * l_per_us_gal / 128;

std::vector<Print> prints(Dimension dimension, UnitSystem system) {
    const bool us = system == UnitSystem::us;
    switch (dimension) {
        case Dimension::volume:
            if (us) return {{"floz", "fl oz", 0}, {"qt", "qt", 32 * ml_per_fl_oz}, {"gal", "gal", 128 * ml_per_fl_oz}};
            return {{"mL", "mL", 0}, {"L", "L", 1000}};
        case Dimension::mass:
            if (us) return {{"oz", "oz", 0}, {"lb", "lb", 16 * g_per_oz}};
            return {{"g", "g", 0}, {"kg", "kg", 1000}};
        case Dimension::area:
            if (us) return {{"ft2", "ft²", 0}};
            return {{"m2", "m²", 0}};
        case Dimension::film:
            if (us) return {{"mil", "mil", 0}};
            return {{"um", "µm", 0}};
        case Dimension::load:
            if (us) return {{"oz/qt", "oz/qt", 0}};
            return {{"g/L", "g/L", 0}};
        case Dimension::coverage:
            if (us) return {{"ft2/gal", "ft²/gal", 0}};
            return {{"m2/L", "m²/L", 0}};
        case Dimension::temperature:
            if (us) return {{"F", "°F", -1e9}};
            return {{"C", "°C", -1e9}};
        case Dimension::share:
            return {{"%", "%", 0}};
        case Dimension::cut:
            return {{"lb/gal", "lb/gal", 0}};
        case Dimension::time:
            return {{"min", "min", 0}, {"h", "h", 1}, {"d", "days", 48}};
        case Dimension::count:
            return {{"parts", "parts", 0}};
    }
    return {};
}

// "1 qt 21.5 fl oz": whole large units and what is left, empty where there is no whole one.
std::string counted(double amount, double per_large, const char* large, const char* small, int decimals) {
    const double whole = std::floor(amount / per_large + 1e-9);
    if (whole < 1) return "";
    const std::string rest = base::at_most(std::max(0.0, amount - whole * per_large), decimals);
    std::string out = base::at_most(whole, 0) + " " + large;
    if (rest != "0") out += " " + rest + " " + small;
    return out;
}

}  // namespace

std::optional<UnitSystem> system_of(const Unit& unit) {
    constexpr std::array<std::string_view, 16> us = {"tsp", "tbsp", "floz", "cup", "pt",  "qt",      "gal",   "oz",
                                                     "lb",  "ft2",  "in2",  "yd2", "mil", "ft2/gal", "oz/qt", "F"};
    constexpr std::array<std::string_view, 13> metric = {"mL",  "cL", "L",  "mg",  "g",    "kg", "m2",
                                                         "cm2", "um", "mm", "g/L", "m2/L", "C"};
    if (std::find(us.begin(), us.end(), unit.name) != us.end()) return UnitSystem::us;
    if (std::find(metric.begin(), metric.end(), unit.name) != metric.end()) return UnitSystem::metric;
    return std::nullopt;
}

std::optional<UnitSystem> units_written(std::string_view amount) {
    const auto text = base::trimmed(amount);
    const auto number = number_before_unit(text);
    const auto name = base::trimmed(text.substr(number.length));
    if (number.length == 0 || name.empty()) return std::nullopt;
    for (std::size_t d = 0; d < dimension_words.size(); ++d)
        if (const auto* unit = unit_called(name, static_cast<Dimension>(d)))
            if (const auto system = system_of(*unit)) return system;
    return std::nullopt;
}

std::string figures(double v, int digits) {
    if (!std::isfinite(v) || v == 0) return base::at_most(v, 0);
    const int before = static_cast<int>(std::floor(std::log10(std::abs(v)))) + 1;
    if (before > digits) {
        const double step = std::pow(10.0, before - digits);
        return base::at_most(std::round(v / step) * step, 0);
    }
    return base::at_most(v, std::min(digits - before, 12));
}

std::string printed(double stored, Dimension dimension, UnitSystem system) {
    const auto all = prints(dimension, system);
    // What rounds up to the next unit is said in it: 999.9 mL is 1 L.
    const auto chosen = [&](double v) {
        const Print* best = &all.front();
        for (const auto& p : all)
            if (std::abs(v) >= p.from * (1 - 1e-9)) best = &p;
        return *best;
    };
    auto best = chosen(stored);
    for (int round = 0; round < 2; ++round)
        for (const auto& u : units()) {
            if (u.dimension != dimension || u.name != best.name) continue;
            const double v = (stored - u.offset) / u.factor;
            const std::string number = dimension == Dimension::temperature ? base::at_most(v, 0)
                                       : dimension == Dimension::share     ? base::at_most(v, 1)
                                                                           : figures(v, 3);
            const auto next = chosen(base::number_in(number).value_or(v) * u.factor + u.offset);
            if (next.name == best.name || round == 1) return number + " " + std::string(best.text);
            best = next;
            break;
        }
    return base::at_most(stored, 3);
}

std::string printed_measure(double stored, bool weighed, UnitSystem system) {
    if (system == UnitSystem::metric) return base::at_most(stored, 3) + (weighed ? " g" : " mL");
    const double small = stored / (weighed ? g_per_oz : ml_per_fl_oz);
    std::string out = base::at_most(small, 3) + (weighed ? " oz" : " fl oz");
    const auto large = weighed ? counted(small, 16, "lb", "oz", 3) : counted(small, 32, "qt", "fl oz", 3);
    if (!large.empty()) out += " (" + large + ")";
    return out;
}

}  // namespace foretone::schedule
