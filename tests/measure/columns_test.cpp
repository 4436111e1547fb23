// What a column holds, from its heading.

#include "../../src/measure/columns.hpp"

#include <catch2/catch.hpp>

#include "../../src/measure/table.hpp"
#include "measure/refusals.hpp"

using namespace foretone;
using namespace foretone::test;
using measure::column_of;
using Kind = measure::Column::Kind;

namespace {

std::vector<measure::Cell> headed(const std::vector<std::string>& texts) {
    std::vector<measure::Cell> out;
    for (const auto& t : texts) out.push_back({t, 5, out.size() + 1, false});
    return out;
}

// Rows of a table read under no conditions; what was refused, or a line a reading.
std::string table_told(const std::vector<std::string>& headings, const std::vector<std::vector<std::string>>& rows,
                       std::string* notes = nullptr) {
    measure::Table table{headed(headings), {}};
    for (std::size_t i = 0; i < rows.size(); ++i) {
        table.rows.push_back(headed(rows[i]));
        for (auto& c : table.rows.back()) c.line = 6 + i;
    }
    measure::Notes heard;
    measure::Numbers numbers(heard);
    std::string out;
    const auto refused = refused_as([&] {
        for (const auto& r : measure::read_columns(table, {}, true, numbers, heard).readings) {
            out += r.reading.name + ":";
            for (const auto& s : r.samples)
                out += " " + std::to_string(std::lround(s.nm)) + "=" + std::to_string(s.value);
            if (r.reading.lab) out += " Lab" + std::to_string(std::lround(r.reading.lab->l));
            if (r.reading.xyz) out += " Y" + std::to_string(std::lround(r.reading.xyz->y));
            for (const auto& [k, v] : r.reading.tags) out += " " + k + "~" + v;
            out += "\n";
        }
    });
    if (notes) *notes = note_lines(heard.list());
    return refused == "read" ? out : refused;
}

}  // namespace

TEST_CASE("a wavelength is found behind every name it goes by, and in none that is something else") {
    for (const char* heading : {"SPECTRAL_NM_400",
                                "SPECTRAL_NM400",
                                "NM_400",
                                "nm400",
                                "R_400",
                                "r400",
                                "SPEC_400",
                                "SPECTRAL_400",
                                "400_NM",
                                "400 nm",
                                "400.0nm",
                                "SPECTRAL_PCT_400",
                                "SPECTRAL_DEC_400",
                                "reflectance 400",
                                "Reflectance_400",
                                "wavelength400",
                                "lambda_400",
                                "refl-400",
                                "spectral_reflectance_400",
                                "%R 400",
                                "R% 400",
                                "400 nm %",
                                "reflectance_pct 400",
                                "spectrum_nm_400,0"}) {
        INFO(heading);
        const auto c = column_of(heading, false);
        CHECK(c.kind == Kind::wavelength);
        CHECK(c.nm == 400);
    }
    for (const char* heading : {"400", "400.0", "400,5"}) {
        CHECK(column_of(heading, true).kind == Kind::wavelength);
        CHECK(column_of(heading, false).kind == Kind::tag);  // in CGATS a bare number is somebody's own column
    }
    for (const char* heading : {"R_199", "R_2501", "nm", "R", "room 400", "400 g", "R_400_b", "x400", "R_4e2"}) {
        INFO(heading);
        CHECK(column_of(heading, true).kind != Kind::wavelength);
    }
    CHECK(column_of("R_200", false).nm == 200);
    CHECK(column_of("R_2500", false).nm == 2500);
    CHECK(column_of("nm 402.5", false).nm == 402.5);
}

TEST_CASE("a column's name says percent or fraction, or neither") {
    CHECK(column_of("SPECTRAL_PCT_400", false).percent == true);
    CHECK(column_of("SPECTRAL_DEC_400", false).percent == false);
    CHECK(column_of("400 nm %", false).percent == true);
    CHECK(column_of("%R 400", false).percent == true);
    CHECK_FALSE(column_of("R_400", false).percent);
    CHECK(column_of("SPECTRAL_PCT", false).percent == true);
    CHECK(column_of("SPECTRAL_DEC", false).percent == false);
    for (const char* percent : {"R (%)", "reflectance percent", "board [pct]", "R (0-100)", "% of white"})
        CHECK(measure::percent_said(percent) == true);
    for (const char* fraction : {"R (fraction)", "decimal", "R (0-1)"}) CHECK(measure::percent_said(fraction) == false);
    for (const char* neither : {"5% dye", "5 % dye", "board", "", "percent or fraction", "1_pct stain"})
        CHECK_FALSE(measure::percent_said(neither).has_value());
}

TEST_CASE("names, numbers, conditions and colors have their columns, in any case; all else is a tag") {
    const std::pair<const char*, Kind> spelt[] = {{"Sample Name", Kind::name},
                                                  {"SAMPLE_NAME", Kind::name},
                                                  {"board", Kind::name},
                                                  {"Patch", Kind::name},
                                                  {"Sample-ID", Kind::id},
                                                  {"No", Kind::id},
                                                  {"#", Kind::id},
                                                  {"", Kind::nothing},
                                                  {"  ", Kind::nothing},
                                                  {"SPECTRAL_NM", Kind::pair_nm},
                                                  {"SPECTRAL_PCT", Kind::pair_value},
                                                  {"LAB_L", Kind::lab_l},
                                                  {"lab_a", Kind::lab_a},
                                                  {"CIE_B", Kind::lab_b},
                                                  {"LAB_L*", Kind::lab_l},
                                                  {"XYZ_X", Kind::xyz_x},
                                                  {"xyz y", Kind::xyz_y},
                                                  {"XYZ_Z", Kind::xyz_z},
                                                  {"Illuminant", Kind::light},
                                                  {"observer", Kind::observer},
                                                  {"Geometry", Kind::geometry},
                                                  {"STDEV_DE", Kind::spread},
                                                  {"sd", Kind::spread},
                                                  {"wood", Kind::tag},
                                                  {"CMYK_C", Kind::tag},
                                                  {"name of shop", Kind::tag}};
    for (const auto& [text, kind] : spelt) {
        INFO("'" << text << "'");
        CHECK(column_of(text, false).kind == kind);
    }
    for (const auto& [text, kind] : {std::pair{"L*", Kind::lab_l},
                                     {"l", Kind::lab_l},
                                     {"a", Kind::lab_a},
                                     {"b*", Kind::lab_b},
                                     {"X", Kind::xyz_x},
                                     {"Y", Kind::xyz_y},
                                     {"Z", Kind::xyz_z}}) {
        CHECK(column_of(text, true).kind == kind);
        CHECK(column_of(text, false).kind == Kind::tag);
    }
    for (const char* small : {"x", "y", "z"}) CHECK(column_of(small, true).kind == Kind::tag);  // a chromaticity
    for (const char* nm : {"wavelength", "Wavelength (nm)", "nm", "lambda", "\xCE\xBB", "WL", "wavelengths_nm"})
        CHECK(measure::heads_wavelengths(nm));
    for (const char* other : {"name", "nm400", "", "wave height"}) CHECK_FALSE(measure::heads_wavelengths(other));
}

TEST_CASE("headings promise a spectrum from two wavelengths on, and a color when all three of it are there") {
    const auto promised = [](const std::vector<std::string>& headings) {
        const auto p = measure::promise(headed(headings), true);
        return std::to_string(p.wavelengths) + (p.pairs ? " pairs" : "") + (p.lab ? " Lab" : "") +
               (p.xyz ? " XYZ" : "");
    };
    CHECK(promised({"name", "400"}) == "0");
    CHECK(promised({"name", "400", "410"}) == "2");
    CHECK(promised({"L", "a"}) == "0");
    CHECK(promised({"L", "a", "b"}) == "0 Lab");
    CHECK(promised({"b*", "Y", "a*", "X", "L*", "Z"}) == "0 Lab XYZ");
    CHECK(promised({"X", "Y"}) == "0");
    CHECK(promised({"SPECTRAL_NM"}) == "0 pairs");
    CHECK_FALSE(measure::promise({}, true).any());
}

TEST_CASE("rows become readings; colors that are not whole stay tags or are left out") {
    CHECK(table_told({"name", "400", "420", "wood"}, {{"a", "0.1", "0.2", "oak"}}) ==
          "a: 400=0.100000 420=0.200000 wood~oak\n");
    CHECK(table_told({"id", "name", "L", "a", "b"}, {{"7", "x", "50", "1", "2"}}) == "x: Lab50 sample_id~7\n");
    CHECK(table_told({"id", "X", "Y", "Z"}, {{"7", "10", "20", "30"}}) == "7: Y20\n");
    std::string notes;
    CHECK(table_told({"L", "a", "b", ""}, {{"50", "1", "2", ""}, {"51", "1", "2", "what"}}, &notes) ==
          "1: Lab50\n2: Lab51\n");
    CHECK(notes == "6:1 name-missing\n7:4 column-unnamed");
    CHECK(table_told({"name", "L", "a", "b", "X"}, {{"q", "50", "1", "2", "9"}}) == "q: Lab50 x~9\n");
    CHECK(table_told({"", "L", "a", "b"}, {{"first", "50", "1", "2"}}) == "first: Lab50\n");
}

TEST_CASE("one wavelength a row goes on with a sample as long as wavelengths move on") {
    const std::vector<std::string> pair = {"name", "SPECTRAL_NM", "SPECTRAL_DEC"};
    CHECK(table_told(pair, {{"a", "400", "0.1"}, {"a", "420", "0.2"}, {"a", "400", "0.3"}, {"b", "420", "0.4"}}) ==
          "a: 400=0.100000 420=0.200000\na: 400=0.300000\nb: 420=0.400000\n");
    CHECK(table_told(pair, {{"a", "700", "0.1"}, {"a", "680", "0.2"}, {"a", "700", "0.3"}}) ==
          "a: 700=0.100000 680=0.200000\na: 700=0.300000\n");
    CHECK(table_told(pair, {{"a", "199", "0.1"}}) == "6:2 wavelength-bad '199'");
    CHECK(table_told(pair, {{"a", "2501", "0.1"}}) == "6:2 wavelength-bad '2501'");
    CHECK(table_told({"SPECTRAL_NM", "wood"}, {}) == "5:1 pair-broken 'SPECTRAL_NM'");
    CHECK(table_told({"name", "SPECTRAL_PCT"}, {}) == "5:2 pair-broken 'SPECTRAL_PCT'");
    CHECK(table_told({"SPECTRAL_NM", "SPECTRAL_DEC", "SPECTRAL_NM", "SPECTRAL_PCT"}, {}) ==
          "5:4 scale-mixed 'SPECTRAL_PCT'");
}

TEST_CASE("a heading that is there twice, and a spread that cannot be, are refused") {
    CHECK(table_told({"wood", "L", "a", "b", "Wood"}, {}) == "5:5 column-twice 'Wood'");
    CHECK(table_told({"L", "a", "b", "L*"}, {}) == "5:4 column-twice 'L*'");
    CHECK(table_told({"name", "L", "a", "b", "sd"}, {{"x", "50", "1", "2", "50"}}) == "x: Lab50\n");
    CHECK(table_told({"name", "L", "a", "b", "sd"}, {{"x", "50", "1", "2", "50.5"}}) == "6:5 spread-range '50.5'");
    CHECK(table_told({"name", "L", "a", "b", "sd"}, {{"x", "50", "1", "2", "-0.1"}}) == "6:5 spread-range '-0.1'");
    CHECK(table_told({"name", "L", "a", "b"}, {{"x", "50", "", "2"}}) == "6:3 value-missing ''");
}

TEST_CASE("one wavelength a row may move on by one nanometre, up or down") {
    const std::vector<std::string> pair = {"name", "SPECTRAL_NM", "SPECTRAL_DEC"};
    CHECK(table_told(pair, {{"a", "400", "0.1"}, {"a", "401", "0.2"}, {"a", "402", "0.3"}}) ==
          "a: 400=0.100000 401=0.200000 402=0.300000\n");
    CHECK(table_told(pair, {{"a", "402", "0.1"}, {"a", "401", "0.2"}, {"a", "400", "0.3"}}) ==
          "a: 402=0.100000 401=0.200000 400=0.300000\n");
    CHECK(table_told(pair, {{"a", "400", "0.1"}, {"a", "401", "0.2"}, {"a", "401", "0.3"}}) ==
          "a: 400=0.100000 401=0.200000\na: 401=0.300000\n");
}
