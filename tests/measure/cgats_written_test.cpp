// CGATS as it is written: to which digit, what it declares, what all readings must share; and read back, over seeds.

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include "foretone/measure/cgats.hpp"
#include "foretone/measure/csv.hpp"
#include "measure/refusals.hpp"
#include "measure/texts.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

measure::Reading seeded_reading(std::mt19937_64& random, int number) {
    const auto unit = [&] { return static_cast<double>(random() >> 11) * 0x1p-53; };
    measure::Reading r;
    r.name = "board " + std::to_string(number);
    r.tags["wood"] = number % 2 ? "oak" : "hard maple";
    r.reflectance = spectral::Sampled::regular(380, 10, std::vector<double>(41));
    for (double& v : r.reflectance->value) v = unit();
    r.lab = color::Lab{100 * unit(), 200 * unit() - 100, 200 * unit() - 100};
    r.xyz = color::Xyz{90 * unit(), 2 + 90 * unit(), 90 * unit()};
    r.light = "D65", r.observer = "10deg";
    r.geometry = optics::Geometry::d8_excluded;
    r.spread_de = unit();
    return r;
}

bool holds_text(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::string why_not(const std::vector<measure::Reading>& readings) {
    try {
        measure::write_cgats({"CSV", {}, readings, {}}, {});
    } catch (const std::invalid_argument& e) {
        return e.what();
    }
    return "written";
}

}  // namespace

TEST_CASE("seeded readings are read back to half of the last digit written") {
    std::mt19937_64 random(61);
    for (int i = 0; i < 20; ++i) {
        measure::Readings out{"CSV", {}, {}, {}};
        for (int n = 0; n < 1 + i % 4; ++n) out.readings.push_back(seeded_reading(random, n));
        const auto back = measure::read_cgats(measure::write_cgats(out, {"a test", "", "", {}}));
        REQUIRE(back.readings.size() == out.readings.size());
        double curve = 0, color = 0, spread = 0;
        for (std::size_t n = 0; n < out.readings.size(); ++n) {
            const auto &a = out.readings[n], &b = back.readings[n];
            CHECK((a.name == b.name && a.light == b.light && a.observer == b.observer && a.geometry == b.geometry));
            CHECK(b.tags.at("wood") == a.tags.at("wood"));
            REQUIRE(b.reflectance->wavelength_nm == a.reflectance->wavelength_nm);
            for (std::size_t k = 0; k < 41; ++k)
                curve = worst_of(curve, std::abs(a.reflectance->value[k] - b.reflectance->value[k]));
            color = worst_of({color, std::abs(a.lab->l - b.lab->l), std::abs(a.lab->a - b.lab->a),
                              std::abs(a.lab->b - b.lab->b), std::abs(a.xyz->x - b.xyz->x),
                              std::abs(a.xyz->y - b.xyz->y), std::abs(a.xyz->z - b.xyz->z)});
            spread = worst_of(spread, std::abs(*a.spread_de - *b.spread_de));
        }
        CHECK(curve <= 0.5e-6 + identity);   // six decimals
        CHECK(color <= 0.5e-4 + identity);   // four
        CHECK(spread <= 0.5e-3 + identity);  // three
        CHECK(note_lines(back.notes).empty());
    }
}

TEST_CASE("a written file declares what the standard does not know, and says only what all readings share") {
    std::mt19937_64 random(62);
    auto a = seeded_reading(random, 0), b = seeded_reading(random, 1);
    const auto whole = measure::write_cgats({"", {}, {a, b}, {}}, {"me", "two boards", "2026-01-02", {"made up"}});
    for (const char* part : {"ORIGINATOR \"me\"", "DESCRIPTOR \"two boards\"", "CREATED \"2026-01-02\"", "# made up",
                             "KEYWORD \"ILLUMINATION_NAME\"", "OBSERVER_ANGLE \"10\"", "SPECTRAL_NORM \"1\"",
                             "MEASUREMENT_GEOMETRY \"d/8-excluded\"", "NUMBER_OF_SETS 2", "NUMBER_OF_FIELDS 51",
                             "SPECTRAL_NM_380", "STDEV_DE", "XYZ_Z LAB_L"})
        CHECK(holds_text(whole, part));
    b.lab.reset(), b.spread_de.reset(), b.geometry = optics::Geometry::g45_0;
    const auto shared = measure::write_cgats({"", {}, {a, b}, {}}, {});
    for (const char* part : {"LAB_L", "STDEV_DE", "MEASUREMENT_GEOMETRY", "ORIGINATOR", "CREATED"})
        CHECK_FALSE(holds_text(shared, part));
    CHECK(holds_text(shared, "XYZ_X"));
    b.tags["coats"] = "2";
    CHECK(holds_text(measure::write_cgats({"", {}, {a, b}, {}}, {}), "\"-\" \"hard maple\""));
}

TEST_CASE("a tag that is nearly a wavelength once its letters are capitals is written so that it is none") {
    std::mt19937_64 random(7);
    auto r = seeded_reading(random, 1);
    r.tags["spectral_nm080\xC3\x83"] = "x";  // as the fuzzer found it
    const auto written = measure::write_cgats({"CGATS", {}, {r}, {}}, {});
    CHECK(holds_text(written, "TAG_SPECTRAL_NM080"));
    measure::Options fraction;
    fraction.percent = false;
    CHECK(measure::read_cgats(written, fraction).readings.size() == 1);
}

TEST_CASE("quotes and control characters do not break a written file") {
    std::mt19937_64 random(63);
    auto r = seeded_reading(random, 0);
    r.name = "a \"wet\"\nboard\x7F";
    r.tags["note\x01"] = "x\ty";
    const auto text = measure::write_cgats({"", {}, {r}, {}}, {"", "", "", {"one\nBEGIN_DATA"}});
    const auto back = measure::read_cgats(text);
    REQUIRE(back.readings.size() == 1);
    CHECK(back.readings[0].name == "a 'wet' board ");
    CHECK_FALSE(holds_text(text, "\nBEGIN_DATA\n1 \"a \"wet"));
}

TEST_CASE("readings that do not go into one table are refused with the one that differs") {
    std::mt19937_64 random(64);
    const auto a = seeded_reading(random, 0);
    auto b = seeded_reading(random, 1);
    CHECK(why_not({a, b}) == "written");
    CHECK(holds_text(why_not({}), "no readings"));
    b.reflectance = spectral::Sampled::regular(380, 5, std::vector<double>(81, 0.5));
    CHECK(holds_text(why_not({a, b}), "wavelengths of 'board 1' are not those of 'board 0'"));
    b.reflectance.reset();
    CHECK(why_not({a, b}) == "written");  // colors alone
    b.light = "A";
    CHECK(holds_text(why_not({a, b}), "'board 1' is under A 10deg, 'board 0' under D65 10deg"));
    b.lab.reset(), b.xyz.reset();
    CHECK(holds_text(why_not({a, b}), "in common"));
}

TEST_CASE("rows of a spreadsheet are wavelengths only where wavelengths can be") {
    const auto csv_told = [](const std::string& text) {
        return refused_as([&] { measure::read_csv("# scale: fraction\n" + text); });
    };
    std::string rows;
    for (int nm = 400; nm <= 700; nm += 20) rows += std::to_string(nm) + ",0.5\n";
    CHECK(csv_told("nm,a\n" + rows) == "read");
    CHECK(csv_told(rows) == "read");  // no heading: told, and taken as wavelengths
    CHECK(csv_told("150,0.5\n160,0.5\n") == "2:1 csv-heading '150'");
    CHECK(csv_told("2600,0.5\n2610,0.5\n") == "2:1 csv-heading '2600'");
    CHECK(csv_told("nm,a\n" + rows + "199,0.5\n") == "19:1 wavelength-bad '199'");
    CHECK(csv_told("nm,a\n" + rows + "710\n") == "19:1 row-cells '1'");
    CHECK(csv_told("nm,a\n" + rows + "710,0.5,0.6\n") == "19:1 row-cells '3'");
    CHECK(csv_told("nm,a,a\n400,0.5,\n") == "3:9 value-missing ''");
    CHECK(csv_told("nm,a\n") == "2:1 csv-heading 'nm'");
    CHECK(csv_told("name,L,a,b\n") == "2:1 readings-none ''");
    CHECK(csv_told("nm,400,420\n400,0.5,0.5\n420,0.5,0.5\n") == "2:1 csv-direction 'nm'");
    const auto notes_told = [](const std::string& text) {
        auto notes = measure::read_csv(text).notes;
        std::erase_if(notes, [](const auto& n) { return n.id == "spectrum-20nm"; });  // said of all of them
        return note_lines(notes);
    };
    const std::string head = "# scale: fraction\n# geometry: 45/0\n";
    CHECK(notes_told(head + rows) == "3:1 heading-missing");
    CHECK(notes_told(head + "from the shop\nnm,a\n" + rows) == "3:1 lines-left-out");
    CHECK(notes_told(head + "nm,a\n,\n" + rows) == "4:1 rows-empty");
    CHECK(csv_told("nm,\n" + rows) == "3:1 row-cells '2'");  // values under no heading
}

TEST_CASE("a tag that is called as another quantity's wavelength is written under a name that reads back") {
    measure::Readings r;
    measure::Reading one;
    one.name = "bare";
    one.lab = color::Lab{80, 4, 18};
    one.light = "D65", one.observer = "2deg";
    one.tags = {{"absorbance_400", "0.3"}, {"optical density 5", "1"}, {"shelf", "7"}, {"serial_123", "x"}};
    r.readings = {one};
    const auto again = measure::read_cgats(measure::write_cgats(r, {})).readings;
    REQUIRE(again.size() == 1);
    CHECK(again[0].tags.at("shelf") == "7");
    CHECK(again[0].tags.at("serial_123") == "x");
    CHECK(again[0].tags.at("absorbance_400_tag") == "0.3");
}
