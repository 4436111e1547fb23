// Units are looked up by their written name; factors are the exact definitions in units.hpp.

#include "foretone/schedule/measure.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/schedule/spelling.hpp"
#include "foretone/schedule/step.hpp"
#include "foretone/schedule/units.hpp"

namespace foretone::schedule {
namespace {

constexpr double g_per_lb = 16 * g_per_oz;
constexpr double ml_per_us_fl_oz = 1000 * l_per_us_gal / 128;

std::string names_of(const std::vector<Dimension>& dimensions) {
    std::string list;
    for (const auto& u : units())
        for (const auto d : dimensions)
            if (u.dimension == d) list += (list.empty() ? "" : ", ") + std::string(u.name);
    return list;
}

std::string words_of(const std::vector<Dimension>& dimensions) {
    std::string list;
    for (const auto d : dimensions)
        list += (list.empty() ? "" : " or ") + std::string(dimension_words[static_cast<std::size_t>(d)]);
    return list;
}

// "an area", "a volume or mass", "a number of parts or volume or mass"
std::string one_of(const std::vector<Dimension>& dimensions) {
    const auto words = (dimensions.front() == Dimension::count ? "number of " : "") + words_of(dimensions);
    const bool vowel = !words.empty() && std::string_view("aeiou").find(words[0]) != std::string_view::npos;
    return (vowel ? "an " : "a ") + words;
}

// "a unit of mass and ", where `name` is one of another dimension.
std::string belongs_to(std::string_view name) {
    for (std::size_t d = 0; d < dimension_words.size(); ++d)
        if (unit_called(name, static_cast<Dimension>(d)))
            return "a unit of " + std::string(dimension_words[d]) + " and ";
    return "";
}

// The first unit of a quantity: what an example is written in.
std::string unit_of(Dimension dimension) {
    const auto& all = units();
    return std::string(
        std::find_if(all.begin(), all.end(), [&](const Unit& u) { return u.dimension == dimension; })->name);
}

}  // namespace

const std::vector<Unit>& units() {
    using D = Dimension;
    static const std::vector<Unit> all = {
        {"mL", D::volume, 1, 0, "millilitre"},
        {"cL", D::volume, 10, 0, "centilitre"},
        {"L", D::volume, 1000, 0, "litre"},
        {"drops", D::volume, ml_per_drop, 0, "drop of water, 20 a mL (practice)"},
        {"tsp", D::volume, ml_per_us_fl_oz / 6, 0, "US teaspoon"},
        {"tbsp", D::volume, ml_per_us_fl_oz / 2, 0, "US tablespoon"},
        {"floz", D::volume, ml_per_us_fl_oz, 0, "US fluid ounce; an ounce by weight is oz"},
        {"cup", D::volume, ml_per_us_fl_oz * 8, 0, "US cup"},
        {"pt", D::volume, 500 * l_per_us_qt, 0, "US pint"},
        {"qt", D::volume, 1000 * l_per_us_qt, 0, "US quart"},
        {"gal", D::volume, 1000 * l_per_us_gal, 0, "US gallon"},
        {"mg", D::mass, 0.001, 0, "milligram"},
        {"g", D::mass, 1, 0, "gram"},
        {"kg", D::mass, 1000, 0, "kilogram"},
        {"oz", D::mass, g_per_oz, 0, "avoirdupois ounce, a weight; by volume it is floz"},
        {"lb", D::mass, g_per_lb, 0, "avoirdupois pound"},
        {"m2", D::area, 1, 0, "square metre"},
        {"cm2", D::area, 1e-4, 0, "square centimetre"},
        {"ft2", D::area, m2_per_ft2, 0, "square foot"},
        {"in2", D::area, m2_per_ft2 / 144, 0, "square inch"},
        {"yd2", D::area, m2_per_ft2 * 9, 0, "square yard"},
        {"um", D::film, 1, 0, "micrometre"},
        {"mm", D::film, 1000, 0, "millimetre"},
        {"mil", D::film, um_per_mil, 0, "thousandth of an inch"},
        {"lb/gal", D::cut, 1, 0, "pounds of resin per US gallon of alcohol: the pound cut"},
        {"oz/pt", D::cut, 0.5, 0, "ounces of resin per US pint of alcohol"},
        {"g/L-alcohol", D::cut, 1 / (g_per_lb / l_per_us_gal), 0, "grams of resin per litre of alcohol"},
        {"g/L-solution", D::cut, 0, 0, "grams of resin per litre of solution"},
        {"%w-resin", D::cut, 0, 0, "percent of the solution's weight that is resin"},
        {"%v-resin", D::cut, 0, 0, "percent of the solution's volume that is resin"},
        {"g/L", D::load, 1, 0, "grams of powder per litre of liquid"},
        {"oz/qt", D::load, g_per_oz / l_per_us_qt, 0, "ounces of powder per US quart of liquid"},
        {"oz/gal", D::load, g_per_oz / l_per_us_gal, 0, "ounces of powder per US gallon of liquid"},
        {"%w/v", D::load, 10, 0, "grams of powder per 100 mL of liquid"},
        {"%", D::share, 1, 0, "percent"},
        {"m2/L", D::coverage, 1, 0, "square metres per litre"},
        {"ft2/gal", D::coverage, m2_per_ft2 / l_per_us_gal, 0, "square feet per US gallon"},
        {"C", D::temperature, 1, 0, "degree Celsius"},
        {"F", D::temperature, 5.0 / 9, -160.0 / 9, "degree Fahrenheit"},
        {"min", D::time, 1.0 / 60, 0, "minute"},
        {"h", D::time, 1, 0, "hour"},
        {"d", D::time, 24, 0, "day"},
        {"wk", D::time, 168, 0, "week"},
        {"parts", D::count, 1, 0, "part"},
    };
    return all;
}

Amounted read_amount(std::string_view text, const std::vector<Dimension>& dimensions) {
    text = base::trimmed(text);
    const std::string said(text.substr(0, 40));
    if (!text.empty() && text.front() == '+') text.remove_prefix(1);
    const auto [value, length, out_of_range, comma] = number_before_unit(text);
    if (comma)
        throw Fault("amount-comma", -1,
                    "'" + said + "' has a comma in its number: write 1.5, not 1,5, and 1500, not 1,500");
    if (length == 0 || out_of_range) {
        const std::string many = out_of_range ? "too large or too small" : "no number with a unit";
        throw Fault("amount-syntax", -1,
                    "'" + said + "' is " + many + ": write for example 2.5" + unit_of(dimensions.front()) + "; here " +
                        one_of(dimensions) + " is due, in " + names_of(dimensions));
    }
    const auto name = base::trimmed(text.substr(length));
    if (name.empty())
        throw Fault("unit-missing", -1,
                    "'" + said + "' has no unit: " + one_of(dimensions) + " is said in " + names_of(dimensions));
    for (const auto d : dimensions) {
        const auto* unit = unit_called(name, d);
        if (!unit) continue;
        if (!std::isfinite(value) || (value < 0 && d != Dimension::temperature))
            throw Fault("amount-range", -1,
                        "'" + said + "' is out of range: " + (d == Dimension::temperature ? "an" : "a negative or an") +
                            " endless " + std::string(dimension_words[static_cast<std::size_t>(d)]) +
                            " does not exist");
        return {value, unit};
    }
    throw Fault("unit-unknown", -1,
                "'" + std::string(name) + "' is " + belongs_to(name) + "no unit of " + words_of(dimensions) + ": use " +
                    names_of(dimensions) + " ('foretone mix --units' lists all)");
}

Amounted read_amount(std::string_view text, Dimension dimension) {
    return read_amount(text, std::vector<Dimension>{dimension});
}

double amount_in(std::string_view text, Dimension dimension, double low, double high) {
    const auto read = read_amount(text, dimension);
    const double v = read.stored();
    if (v >= low && v <= high) return v;
    const auto back = [&](double stored) {
        return base::at_most((stored - read.unit->offset) / read.unit->factor, 6) + " " + std::string(read.unit->name);
    };
    throw Fault("amount-range", -1,
                "'" + std::string(text.substr(0, 40)) + "' is out of range: " + one_of({dimension}) + " here is from " +
                    back(low) + " to " + back(high));
}

}  // namespace foretone::schedule
