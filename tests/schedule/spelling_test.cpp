/// Units as people write them, and results that read back as themselves.
#include <catch2/catch.hpp>

#include <string>

#include "foretone/base/text.hpp"
#include "foretone/schedule/printed.hpp"
#include "foretone/schedule/spelling.hpp"
#include "foretone/schedule/step.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::schedule;
using namespace foretone::test;

namespace {

struct WrittenUnit {
    Dimension dimension;
    const char* unit;
    const char* spellings;  // separated by ';'
};

using WD = Dimension;

// Spellings of labels, data sheets and shop notes (common practice).
const WrittenUnit written_units[] = {
    {WD::volume, "mL", "mL;ml;ML;cc;milliliter;millilitres;Milliliters;cm³"},
    {WD::volume, "L", "L;l;liter;litre;liters;Litres;ltr"},
    {WD::volume, "cL", "cl;cL;centiliter;centilitre"},
    {WD::volume, "drops", "drop;drops;Drops"},
    {WD::volume, "tsp", "tsp;tsp.;teaspoon;teaspoons"},
    {WD::volume, "tbsp", "tbsp;Tbsp;tablespoon;tablespoons"},
    {WD::volume, "floz", "floz;fl oz;fl. oz.;FL OZ;fluid ounce;fluid ounces;fl-oz;US fl oz"},
    {WD::volume, "cup", "cup;cups"},
    {WD::volume, "pt", "pt;pt.;pint;pints;US pint"},
    {WD::volume, "qt", "qt;qts;quart;quarts;Qt;US quart"},
    {WD::volume, "gal", "gal;gal.;gals;gallon;gallons;US gallon"},
    {WD::mass, "g", "g;gram;grams;gm;grammes"},
    {WD::mass, "mg", "mg;milligram;milligrams"},
    {WD::mass, "kg", "kg;Kg;KG;kilo;kilos;kilogram;kilograms"},
    {WD::mass, "oz", "oz;oz.;OZ;ounce;ounces"},
    {WD::mass, "lb", "lb;lbs;lb.;lbs.;pound;pounds;#"},
    {WD::area, "m2", "m2;m²;m^2;sqm;sq m;sq. m.;square meters;square metre"},
    {WD::area, "cm2", "cm2;cm²;sq cm;square centimeters"},
    {WD::area, "ft2", "ft2;ft²;ft^2;sqft;sq ft;sq. ft.;Sq.Ft.;sf;SF;square feet;square foot"},
    {WD::area, "in2", "in2;in²;sq in;sqin;square inches"},
    {WD::area, "yd2", "yd2;yd²;sq yd;square yards"},
    {WD::film, "um", "um;µm;μm;micron;microns;micrometer"},
    {WD::film, "mm", "mm;millimeter;millimetres"},
    {WD::film, "mil", "mil;mils;thou;Mils"},
    {WD::cut, "lb/gal", "lb/gal;lbs/gal;lb;lbs;lb cut;-lb cut;pound cut;pounds per gallon;#;# cut;lb per gal"},
    {WD::cut, "oz/pt", "oz/pt;oz per pint;ounces per pint"},
    {WD::load, "g/L", "g/L;g/l;grams per liter;g per litre;gram/litre"},
    {WD::load, "oz/qt", "oz/qt;oz per quart;ounces per quart"},
    {WD::load, "%w/v", "%w/v;% w/v;g/100 mL;g/100ml"},
    {WD::share, "%", "%;percent;per cent;pct"},
    {WD::coverage, "m2/L", "m2/L;m²/l;m2/liter;sqm/l"},
    {WD::coverage, "ft2/gal", "ft2/gal;ft²/gal;sq ft/gal;sqft/gal;square feet per gallon;sf/gal"},
    {WD::temperature, "C", "C;°C;c;deg C;celsius;degrees C;℃"},
    {WD::temperature, "F", "F;°F;f;deg F;fahrenheit;℉;º F"},
    {WD::time, "min", "min;mins;minute;minutes"},
    {WD::time, "h", "h;hr;hrs;hour;hours"},
    {WD::time, "d", "d;day;days"},
    {WD::time, "wk", "wk;week;weeks"},
    {WD::count, "parts", "part;parts"}};

std::string spelling_fault(const std::string& text, Dimension d) {
    try {
        read_amount(text, d);
    } catch (const Fault& f) {
        CHECK(f.part == -1);  // of no part of a mix
        return f.id + ": " + f.what();
    }
    return "";
}

}  // namespace

TEST_CASE("every spelling of a unit is that unit, with and without a blank before it") {
    int spellings = 0;
    for (const auto& row : written_units)
        for (const auto& spelling : base::split(row.spellings, ';')) {
            INFO(spelling);
            for (const char* gap : {"", " "}) {
                const auto read = read_amount("2.5" + std::string(gap) + spelling, row.dimension);
                CHECK(read.value == 2.5);
                CHECK(read.unit->name == row.unit);
            }
            ++spellings;
        }
    CHECK(spellings >= 120);
}

TEST_CASE("the table names only units that there are, and no spelling of a dimension twice") {
    for (const auto& row : spellings())
        for (const auto& spelling : base::split(row.written, ';')) {
            INFO(row.unit << " as " << spelling);
            int of = 0;
            for (const auto& u : units())
                if (u.name == row.unit) {
                    ++of;
                    const auto* found = unit_called(spelling, u.dimension);
                    REQUIRE(found);
                    CHECK(found->name == row.unit);
                }
            CHECK(of == 1);
        }
}

TEST_CASE("halves and quarters are numbers, and a comma is asked about") {
    const std::pair<const char*, double> numbers[] = {{"1/2 gal", 0.5}, {"1 1/2 qt", 1.5}, {"1-1/2 qt", 1.5},
                                                      {"½ pt", 0.5},    {"2½ gal", 2.5},   {"3/4 gal", 0.75},
                                                      {"⅛ gal", 0.125}, {"12 gal", 12},    {".5 gal", 0.5}};
    for (const auto& [text, due] : numbers) {
        INFO(text);
        CHECK_THAT(read_amount(text, WD::volume).value, Near(due, closed_form));
    }
    CHECK(spelling_fault("1,5 L", WD::volume)
              .find("amount-comma: '1,5 L' has a comma in its number: write 1.5, not 1,5") == 0);
    CHECK(spelling_fault("1,500 mL", WD::volume).find("amount-comma") == 0);
    CHECK(spelling_fault("1,05 L", WD::volume).find("amount-comma") == 0);
    CHECK(spelling_fault("many L", WD::volume).find("amount-syntax") == 0);
    CHECK(printed(0.5, WD::volume, UnitSystem::metric) == "0.5 mL");  // less than one of the smallest unit
    CHECK(printed(0.5, WD::mass, UnitSystem::metric) == "0.5 g");
    CHECK(spelling_fault("1,9 L", WD::volume).find("amount-comma") == 0);
    CHECK(spelling_fault("1/0 gal", WD::volume).find("unit-unknown") == 0);
}

TEST_CASE("an ounce by weight is not one by volume, and the message says which is which") {
    CHECK(read_amount("8 oz", WD::mass).unit->name == "oz");
    CHECK(read_amount("8 fl oz", WD::volume).unit->name == "floz");
    const auto told = spelling_fault("8 oz", WD::volume);
    CHECK(told.find("'oz' is a unit of mass and no unit of volume") != std::string::npos);
    CHECK(told.find("floz") != std::string::npos);
    CHECK(spelling_fault("8 furlong", WD::volume).find("'furlong' is no unit of volume") != std::string::npos);
}

TEST_CASE("what is printed reads back as itself, in both systems and every size") {
    int printed_ones = 0;
    for (const auto system : {UnitSystem::metric, UnitSystem::us})
        for (const auto d : {WD::volume, WD::mass, WD::area, WD::film, WD::load, WD::coverage, WD::temperature,
                             WD::share, WD::cut, WD::time, WD::count})
            for (double v = 0.0123; v < 2e5; v *= 1.7) {
                const auto text = printed(v, d, system);
                INFO(v << " is printed as " << text);
                CHECK(printed(read_amount(text, d).stored(), d, system) == text);
                ++printed_ones;
            }
    CHECK(printed_ones > 500);
    for (const double step : {0.02, 0.5, 2.0})
        for (int n = 1; n < 300; n += 7) {
            const auto ml = n * step * 29.5735295625;  // US fluid ounce, mL (NIST SP 811)
            const auto text = printed_measure(ml, false, UnitSystem::us);
            INFO(text);
            const auto first = text.substr(0, text.find(" ("));
            CHECK_THAT(read_amount(first, WD::volume).stored(), Near(ml, 0.02));
        }
}

// NIST SP 811: 1 US fl oz = 29.57353 mL, 1 ft² = 0.09290304 m², 1 mil = 25.4 µm, 1 oz = 28.34952 g.
TEST_CASE("results come in figures that can be weighed, poured and read off") {
    CHECK(printed(1567.7, WD::volume, UnitSystem::metric) == "1.57 L");
    CHECK(printed(753.2, WD::volume, UnitSystem::metric) == "753 mL");
    CHECK(printed(45.359, WD::mass, UnitSystem::metric) == "45.4 g");
    CHECK(printed(384.456, WD::volume, UnitSystem::us) == "13 fl oz");
    CHECK(printed(2 * 946.352946, WD::volume, UnitSystem::us) == "2 qt");
    CHECK(printed(8 * 946.352946, WD::volume, UnitSystem::us) == "2 gal");
    CHECK(printed(2.508, WD::area, UnitSystem::us) == "27 ft²");
    CHECK(printed(90, WD::film, UnitSystem::us) == "3.54 mil");
    CHECK(printed(20, WD::temperature, UnitSystem::us) == "68 °F");
    CHECK(printed(0.0033333333333333335, WD::volume, UnitSystem::metric) == "0.00333 mL");
    CHECK(printed_measure(752.5, false, UnitSystem::metric) == "752.5 mL");
    CHECK(printed_measure(53.5 * 29.5735295625, false, UnitSystem::us) == "53.5 fl oz (1 qt 21.5 fl oz)");
    CHECK(printed_measure(20 * 28.349523125, true, UnitSystem::us) == "20 oz (1 lb 4 oz)");
    CHECK(figures(123456, 3) == "123000");
    CHECK(figures(0, 3) == "0");
}

TEST_CASE("a unit says whose it is, and what both use belongs to neither") {
    const auto of = [](const char* text, WD d) { return system_of(*read_amount(text, d).unit); };
    CHECK(of("3 sq ft", WD::area) == UnitSystem::us);
    CHECK(of("3 m²", WD::area) == UnitSystem::metric);
    CHECK(of("68°F", WD::temperature) == UnitSystem::us);
    CHECK_FALSE(of("2lb", WD::cut));
    CHECK_FALSE(of("50%", WD::share));
}

TEST_CASE("waits are printed in minutes below an hour, in hours below two days, then in days") {
    const auto hours = [](double h) { return printed(h, WD::time, UnitSystem::metric); };
    CHECK(hours(0.25) == "15 min");
    CHECK(hours(0.75) == "45 min");
    CHECK(hours(1) == "1 h");
    CHECK(hours(1.5) == "1.5 h");
    CHECK(hours(47) == "47 h");
    CHECK(hours(48) == "2 days");
    CHECK(hours(36 * 24) == "36 days");
}
