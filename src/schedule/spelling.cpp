// Every spelling is compared in one plain form, so that the table holds what differs in letters only. A spelling
// belongs to a dimension: "oz" is a weight, "fl oz" a volume; "lb" is a pound, and where a cut is due the pound cut.

#include "foretone/schedule/spelling.hpp"

#include <cmath>
#include <string>
#include <tuple>
#include <utility>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"

namespace foretone::schedule {
namespace {

// Lower case; squares are 2, micro is u, "per" a stroke; blanks, points, dashes, '^' and '°' are left out.
std::string plain_form(std::string_view written) {
    std::string text = base::lower(written);
    constexpr std::pair<std::string_view, std::string_view> alike[] = {
        {"\xC2\xB2", "2"}, {"\xC2\xB3", "3"},     {"\xC2\xB5", "u"},     {"\xCE\xBC", "u"}, {"\xC2\xB0", ""},
        {"\xC2\xBA", ""},  {"\xE2\x84\x83", "c"}, {"\xE2\x84\x89", "f"}, {"\xC2\xA0", " "}, {" per ", "/"}};
    for (const auto& [from, to] : alike) text = base::replaced(text, from, to);
    std::erase_if(text, [](char c) { return c == ' ' || c == '.' || c == '-' || c == '^' || c == '_'; });
    return text;
}

// "1/2" at the start of `text`: its value and length, 0 if there is none.
std::pair<double, std::size_t> stroke_fraction(std::string_view text) {
    const auto digits = [&](std::size_t at) {
        std::size_t end = at;
        while (end < text.size() && end < at + 3 && text[end] >= '0' && text[end] <= '9') ++end;
        return end;
    };
    const auto top = digits(0);
    if (top == 0 || top >= text.size() || text[top] != '/') return {0, 0};
    const auto end = digits(top + 1);
    if (end == top + 1) return {0, 0};
    const auto above = base::number_in(text.substr(0, top)),
               below = base::number_in(text.substr(top + 1, end - top - 1));
    if (!above || !below || !(*below > 0)) return {0, 0};
    return {*above / *below, end};
}

// "½" and its like.
std::pair<double, std::size_t> one_sign_fraction(std::string_view text) {
    constexpr std::pair<std::string_view, double> signs[] = {
        {"\xC2\xBC", 0.25},        {"\xC2\xBD", 0.5},         {"\xC2\xBE", 0.75},
        {"\xE2\x85\x93", 1 / 3.0}, {"\xE2\x85\x94", 2 / 3.0}, {"\xE2\x85\x9B", 0.125},
        {"\xE2\x85\x9C", 0.375},   {"\xE2\x85\x9D", 0.625},   {"\xE2\x85\x9E", 0.875}};
    for (const auto& [sign, value] : signs)
        if (text.starts_with(sign)) return {value, sign.size()};
    return {0, 0};
}

bool digit_at(std::string_view text, std::size_t at) { return at < text.size() && text[at] >= '0' && text[at] <= '9'; }

}  // namespace

const std::vector<Spellings>& spellings() {
    static const std::vector<Spellings> all = {
        {"mL", "ml;millilitre;millilitres;milliliter;milliliters;cc;cm3"},
        {"cL", "cl;centilitre;centilitres;centiliter;centiliters"},
        {"L", "l;litre;litres;liter;liters;ltr"},
        {"drops", "drop;drops"},
        {"tsp", "tsp;tsps;teaspoon;teaspoons"},
        {"tbsp", "tbsp;tbsps;tablespoon;tablespoons"},
        {"floz", "fl oz;fl. oz.;fluid ounce;fluid ounces;fl ounce;fl ounces;us fl oz;oz fl"},
        {"cup", "cup;cups"},
        {"pt", "pt;pts;pint;pints;us pt;us pint;us pints"},
        {"qt", "qt;qts;quart;quarts;us qt;us quart;us quarts"},
        {"gal", "gal;gals;gallon;gallons;us gal;us gallon;us gallons"},
        {"mg", "mg;milligram;milligrams"},
        {"g", "g;gram;grams;gramme;grammes;gm"},
        {"kg", "kg;kgs;kilo;kilos;kilogram;kilograms"},
        {"oz", "oz;ozs;ounce;ounces;oz wt;oz av"},
        {"lb", "lb;lbs;pound;pounds;#"},
        {"m2", "m2;sqm;sq m;sq. m.;square metre;square metres;square meter;square meters"},
        {"cm2", "cm2;sqcm;sq cm;square centimetre;square centimetres;square centimeter;square centimeters"},
        {"ft2", "ft2;sqft;sq ft;sq. ft.;square foot;square feet;sf"},
        {"in2", "in2;sqin;sq in;sq. in.;square inch;square inches"},
        {"yd2", "yd2;sqyd;sq yd;square yard;square yards"},
        {"um", "um;micron;microns;micrometre;micrometres;micrometer;micrometers"},
        {"mm", "mm;millimetre;millimetres;millimeter;millimeters"},
        {"mil", "mil;mils;thou"},
        {"lb/gal",
         "lb/gal;lbs/gal;pounds/gallon;pounds/gal;lb/gallon;lb;lbs;pound;pounds;lb cut;lbs cut;pound cut;#;# cut"},
        {"oz/pt", "oz/pt;oz/pint;ounces/pint"},
        {"g/L-alcohol", "g/l alcohol;g/l of alcohol;grams/litre of alcohol;grams/liter of alcohol"},
        {"g/L-solution", "g/l solution;g/l of solution"},
        {"%w-resin", "%w resin;% resin by weight"},
        {"%v-resin", "%v resin;% resin by volume"},
        {"g/L", "g/l;g/litre;g/liter;grams/litre;grams/liter;gram/litre;gram/liter"},
        {"oz/qt", "oz/qt;oz/quart;ounces/quart;ounce/quart"},
        {"oz/gal", "oz/gal;oz/gallon;ounces/gallon"},
        {"%w/v", "%w/v;% w/v;w/v%;g/100ml;g/100 ml"},
        {"%", "%;percent;per cent;pct"},
        {"m2/L", "m2/l;sqm/l;m2/litre;m2/liter;square metres/litre;square meters/liter"},
        {"ft2/gal", "ft2/gal;sqft/gal;sq ft/gal;sf/gal;ft2/gallon;sq ft/gallon;square feet/gallon"},
        {"C", "c;deg c;degrees c;celsius;centigrade;degrees celsius"},
        {"F", "f;deg f;degrees f;fahrenheit;degrees fahrenheit"},
        {"min", "min;mins;minute;minutes"},
        {"h", "h;hr;hrs;hour;hours"},
        {"d", "d;day;days"},
        {"wk", "wk;wks;week;weeks"},
        {"parts", "part;parts"}};
    return all;
}

const Unit* unit_called(std::string_view written, Dimension dimension) {
    for (const auto& u : units())
        if (u.dimension == dimension && u.name == written) return &u;
    const std::string form = plain_form(written);
    if (form.empty()) return nullptr;
    for (const auto& row : spellings())
        for (const auto& one : base::split(row.written, ';')) {
            if (plain_form(one) != form) continue;
            for (const auto& u : units())
                if (u.dimension == dimension && u.name == row.unit) return &u;
        }
    return nullptr;
}

ReadNumber number_before_unit(std::string_view text) {
    if (const auto [value, length] = one_sign_fraction(text); length > 0) return {value, length};
    if (const auto [value, length] = stroke_fraction(text); length > 0) return {value, length};
    const auto lead = base::leading_number(text);
    ReadNumber out{lead.value, lead.length, lead.out_of_range};
    if (out.length == 0 || out.out_of_range) return out;
    out.comma = out.length < text.size() && text[out.length] == ',' && digit_at(text, out.length + 1);
    // A whole number with a fraction behind it: "1 1/2", "1-1/2", "1½".
    if (out.value < 0 || out.value != std::floor(out.value)) return out;
    std::size_t at = out.length;
    while (at < text.size() && (text[at] == ' ' || text[at] == '-')) ++at;
    auto [more, length] = one_sign_fraction(text.substr(at));
    if (length == 0 && at > out.length) std::tie(more, length) = stroke_fraction(text.substr(at));
    if (length > 0 && more < 1) out.value += more, out.length = at + length;
    return out;
}

}  // namespace foretone::schedule
