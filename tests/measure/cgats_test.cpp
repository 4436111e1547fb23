#include <catch2/catch.hpp>

#include "foretone/base/number.hpp"
#include "foretone/measure/cgats.hpp"
#include "measure/texts.hpp"
#include "support/tolerance.hpp"

#include "measure/refusals.hpp"

using namespace foretone;
using namespace foretone::measure;
using namespace foretone::test;

TEST_CASE("every common name of a spectral column is known, in either case") {
    struct Name {
        const char *before, *after;
    };
    for (const auto& [before, after] : {Name{"SPECTRAL_NM_", ""},
                                        {"SPECTRAL_NM", ""},
                                        {"NM_", ""},
                                        {"nm", ""},
                                        {"R_", ""},
                                        {"SPEC_", ""},
                                        {"SPECTRAL_", ""},
                                        {"", "_NM"},
                                        {"nm", ".000"},
                                        {"spectral_nm_", ".00"},
                                        {"SPECTRAL_PCT_", ""},
                                        {"SPECTRAL_DEC_", ""},
                                        {"", "nm"}}) {
        INFO("names such as " << before << "400" << after);
        const bool percent = std::string(before) == "SPECTRAL_PCT_";
        const auto r = read_cgats(cgats(wavelength_columns(before, after), wood_values(0, percent ? 100 : 1),
                                        wood_values(0.05, percent ? 100 : 1)));
        REQUIRE(r.readings.size() == 2);
        CHECK(r.readings[0].name == "bare maple");
        CHECK(r.readings[0].line == 9);
        CHECK(r.readings[0].reflectance->wavelength_nm.size() == 31);
        CHECK_THAT(worst_off(r.readings[0]), Near(0, closed_form));
        CHECK_THAT(worst_off(r.readings[1], 0.05), Near(0, closed_form));
        CHECK(r.readings[1].tags.at("sample_id") == "2");
    }
}

TEST_CASE("wavelengths and values in turn, as percent and as fractions") {
    for (const bool percent : {true, false}) {
        std::string columns, values;
        for (int nm = 400; nm <= 700; nm += 20) {
            columns += percent ? " SPECTRAL_NM SPECTRAL_PCT" : " SPECTRAL_NM SPECTRAL_DEC";
            values += " " + std::to_string(nm) + " " + base::shortest(wood_like(nm) * (percent ? 100 : 1));
        }
        const auto r = read_cgats(cgats(columns, values, values));
        REQUIRE(r.readings.size() == 2);
        CHECK(r.readings[0].reflectance->wavelength_nm.size() == 16);
        CHECK_THAT(worst_off(r.readings[0]), Near(0, closed_form));
        CHECK_FALSE(has_note(r, "scale-by-values"));
    }
}

TEST_CASE("one pair of columns holds a wavelength a row") {
    std::string text =
        "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_NAME SPECTRAL_NM SPECTRAL_DEC\nEND_DATA_FORMAT\nBEGIN_DATA\n";
    for (const char* name : {"bare", "coated", "coated"})
        for (int nm = 400; nm <= 700; nm += 20)
            text += std::string(name) + " " + std::to_string(nm) + " " + base::shortest(wood_like(nm)) + "\n";
    const auto r = read_cgats(text + "END_DATA\n");
    REQUIRE(r.readings.size() == 3);  // the second "coated" begins where the wavelengths begin again
    CHECK(r.readings[2].name == "coated");
    CHECK_THAT(worst_off(r.readings[2]), Near(0, closed_form));
}

TEST_CASE("percent or fraction is decided by name, by SPECTRAL_NORM, as stated, or by values beyond doubt") {
    const auto columns = wavelength_columns("SPECTRAL_NM_");
    const auto percent = wood_values(0, 100), fraction = wood_values();
    const auto by_norm = read_cgats(cgats(columns, percent, percent, "SPECTRAL_NORM \"100\"\n"));
    CHECK_THAT(worst_off(by_norm.readings[0]), Near(0, closed_form));
    CHECK_FALSE(has_note(by_norm, "scale-by-values"));
    const auto by_values = read_cgats(cgats(columns, percent, percent));
    CHECK_THAT(worst_off(by_values.readings[0]), Near(0, closed_form));
    CHECK(has_note(by_values, "scale-by-values"));

    // Between 1 and 2 both could be: a board as black as 1.5 %, or a fraction that is too high.
    const std::string doubtful = cgats(columns, wood_values(0, 100.0 / 30), wood_values(0, 100.0 / 30));
    CHECK_THROWS_AS(read_cgats(doubtful), Refused);
    Options stated;
    stated.percent = true;
    CHECK_THAT(read_cgats(doubtful, stated).readings[0].reflectance->value[0], Near(0.15 / 30, 1e-6));
    CHECK(has_note(read_cgats(cgats(columns, percent, percent, "SPECTRAL_NORM \"1\"\n"), stated), "scale-overruled"));
}

TEST_CASE("light, observer and geometry come from the keywords, in any of their spellings") {
    const auto read = [](const std::string& keywords) {
        return read_cgats(cgats(" LAB_L LAB_A LAB_B", " 70 5 20", " 60 8 25", keywords)).readings[0];
    };
    const auto iso = read("ILLUMINATION_NAME \"D65\"\nOBSERVER_ANGLE \"10\"\nMEASUREMENT_GEOMETRY \"45/0\"\n");
    CHECK(iso.light == "D65");
    CHECK(iso.observer == "10deg");
    CHECK(iso.geometry == optics::Geometry::g45_0);
    CHECK(iso.lab == color::Lab{70, 5, 20});
    const auto functions = read(
        "WEIGHTING_FUNCTION \"ILLUMINANT, D50\"\nWEIGHTING_FUNCTION \"OBSERVER, 2 degree\"\nMEASUREMENT_GEOMETRY "
        "\"di:8\xC2\xB0\"\n");
    CHECK(functions.light == "D50");
    CHECK(functions.observer == "2deg");
    CHECK(functions.geometry == optics::Geometry::d8_included);
    const auto source = read("MEASUREMENT_SOURCE \"Illumination=D50 ObserverAngle=2 WhiteBase=Absolute Filter=No\"\n");
    CHECK(source.light == "D50");
    CHECK(source.observer == "2deg");
    CHECK_FALSE(source.geometry);
    Options stated;
    stated.light = "D65";
    stated.observer = "2deg";
    CHECK(read_cgats(cgats(" LAB_L LAB_A LAB_B", " 70 5 20", " 60 8 25"), stated).readings[0].light == "D65");
}

TEST_CASE("XYZ becomes Lab where the white is known, on either scale") {
    Options stated;
    stated.white = [](const std::string& light, const std::string& observer) -> std::optional<color::Xyz> {
        if (light == "D65" && observer == "2deg") return color::Xyz{95.047, 100, 108.883};  // ASTM E308-01, Table 5
        return std::nullopt;
    };
    const std::string keywords = "ILLUMINATION_NAME \"D65\"\nOBSERVER_ANGLE \"2\"\n";
    const auto hundred =
        read_cgats(cgats(" XYZ_X XYZ_Y XYZ_Z", " 38.02 40 43.55", " 19.01 20 21.78", keywords), stated);
    const auto one = read_cgats(cgats(" XYZ_X XYZ_Y XYZ_Z", " .3802 .40 .4355", " .1901 .20 .2178", keywords), stated);
    CHECK(has_note(one, "xyz-scale"));
    // Computed: L* = 116·0.4^(1/3) − 16 = 69.4695.
    CHECK_THAT(hundred.readings[0].lab->l, Near(69.4695, table_digits));
    CHECK_THAT(one.readings[0].lab->l, Near(69.4695, table_digits));
    CHECK_THAT(hundred.readings[0].lab->a, Near(0, 0.01));
}

TEST_CASE("several tables, tags, comments, tabs and blanks in names") {
    const auto r = read_cgats(
        "CGATS.17\n# made up\nILLUMINATION_NAME \"D65\"\nOBSERVER_ANGLE \"2\" # the small "
        "one\nBEGIN_DATA_FORMAT\nSAMPLE_NAME\tWood\tLAB_L\tLAB_A\tLAB_B\nEND_DATA_FORMAT\n"
        "BEGIN_DATA\nbare\thard maple\t80\t4\t18\nEND_DATA\n"
        "BEGIN_DATA_FORMAT\nSAMPLE_NAME CMYK_C\nEND_DATA_FORMAT\nBEGIN_DATA\nnone 5\nEND_DATA\n"
        "ILLUMINATION_NAME \"A\"\nBEGIN_DATA_FORMAT\nSAMPLE_NAME STDEV_DE LAB_L LAB_A "
        "LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n\"with \"\"quotes\"\"\" 0.4 80 4 18\nEND_DATA\n");
    REQUIRE(r.readings.size() == 2);
    CHECK(r.readings[0].tags.at("wood") == "hard maple");
    CHECK(has_note(r, "names-unquoted"));
    CHECK(has_note(r, "table-skipped"));
    CHECK(r.readings[1].name == "with \"quotes\"");
    CHECK(r.readings[1].light == "A");
    CHECK(r.readings[1].observer == "2deg");  // what an earlier table said stays
    CHECK(*r.readings[1].spread_de == 0.4);
    CHECK(r.readings[1].tags.at("table") == "3");
}

TEST_CASE("the file's own counts size nothing") {
    auto text = cgats(wavelength_columns("NM_"), wood_values(), wood_values());
    for (const char* count : {"0", "-5", "4000000000", "1e300", "many"}) {
        auto other = text;
        other.replace(other.find("NUMBER_OF_SETS 2") + 15, 1, count);
        const auto r = read_cgats(other);
        CHECK(r.readings.size() == 2);
        CHECK(has_note(r, "count-sets"));
    }
}

TEST_CASE("rows that run over several lines are joined only if NUMBER_OF_SETS bears it out") {
    const std::string head =
        "CGATS.17\nILLUMINATION_NAME \"D65\"\nOBSERVER_ANGLE \"2\"\nBEGIN_DATA_FORMAT\nSAMPLE_NAME LAB_L LAB_A "
        "LAB_B\nEND_DATA_FORMAT\n";
    const std::string rows = "BEGIN_DATA\nbare 80\n4 18\ncoat 70\n6 25\nEND_DATA\n";
    const auto r = read_cgats(head + "NUMBER_OF_SETS 2\n" + rows);
    REQUIRE(r.readings.size() == 2);
    CHECK(r.readings[1].lab == color::Lab{70, 6, 25});
    CHECK(has_note(r, "rows-wrapped"));
    CHECK_THROWS_AS(read_cgats(head + rows), Refused);
    CHECK_THROWS_AS(read_cgats(head + "NUMBER_OF_SETS 3\n" + rows), Refused);
}

TEST_CASE("what is written is read back the same") {
    Readings in{"CSV", {}, {}, {}};
    for (int i = 0; i < 3; ++i) {
        Reading r;
        r.name = "stage " + std::to_string(i);
        r.tags["finish"] = i == 0 ? "bare" : "oil, then wax";
        if (i == 2) r.tags["coats"] = "2";
        std::vector<double> values;
        for (int nm = 380; nm <= 780; nm += 5) values.push_back(wood_like(nm, 0.01 * i));
        r.reflectance = spectral::Sampled::regular(380, 5, values);
        r.xyz = color::Xyz{30.5 + i, 31.25, 20.125};
        r.lab = color::Lab{62.75 + i, 4.5, -18.25};
        r.light = "LED-4000";
        r.observer = "10deg";
        r.geometry = optics::Geometry::d8_excluded;
        r.spread_de = 0.75;
        in.readings.push_back(r);
    }
    const auto text = write_cgats(in, {"Foretone", "three stages", "2026-03-02", {"invented"}});
    CHECK(text == write_cgats(in, {"Foretone", "three stages", "2026-03-02", {"invented"}}));
    const auto out = read_cgats(text);
    CHECK(out.notes.empty());
    REQUIRE(out.readings.size() == 3);
    CHECK(out.keywords.at("descriptor") == "three stages");
    for (std::size_t i = 0; i < 3; ++i) {
        const auto &a = in.readings[i], &b = out.readings[i];
        CHECK(b.name == a.name);
        CHECK(b.tags.at("finish") == a.tags.at("finish"));
        CHECK(b.light == a.light);
        CHECK(b.observer == a.observer);
        CHECK(b.geometry == a.geometry);
        CHECK(b.spread_de == a.spread_de);
        CHECK(b.lab == a.lab);
        CHECK(b.xyz == a.xyz);
        CHECK(b.reflectance->wavelength_nm == a.reflectance->wavelength_nm);
        double worst = 0;
        for (std::size_t k = 0; k < a.reflectance->value.size(); ++k)
            worst = worst_of(worst, std::abs(a.reflectance->value[k] - b.reflectance->value[k]));
        CHECK(worst <= 0.5e-6 + identity);  // six decimals
    }
    CHECK(out.readings[2].tags.at("coats") == "2");
    CHECK(out.readings[0].tags.at("coats") == "-");
}

TEST_CASE("the writer refuses readings that share nothing, and says which") {
    CHECK_THROWS_AS(write_cgats({}, {}), std::invalid_argument);
    Reading lab, spectrum;
    lab.name = "a";
    lab.lab = color::Lab{50, 0, 0};
    lab.light = "D65";
    lab.observer = "2deg";
    spectrum.name = "b";
    spectrum.reflectance = spectral::Sampled::regular(400, 10, std::vector<double>(31, 0.5));
    CHECK_THROWS_WITH(write_cgats({"", {}, {lab, spectrum}, {}}, {}), Catch::Contains("in common"));
    auto other = lab;
    other.light = "A";
    CHECK_THROWS_WITH(write_cgats({"", {}, {lab, other}, {}}, {}), Catch::Contains("under A"));
    auto coarse = spectrum;
    coarse.reflectance = spectral::Sampled::regular(400, 20, std::vector<double>(16, 0.5));
    CHECK_THROWS_WITH(write_cgats({"", {}, {spectrum, coarse}, {}}, {}), Catch::Contains("wavelengths"));
    // Tags never take the place of a quantity, nor of each other.
    lab.tags = {{"sample_name", "x"}, {"sd", "not a number"}, {"400_nm", "x"},  {"h\xC3\xA4rte", "x"},
                {"h_rte", "x"},       {"end_data", "x"},      {"\xC3\xA4", "x"}};
    const auto tagged = read_cgats(write_cgats({"", {}, {lab}, {}}, {}));
    REQUIRE(tagged.readings.size() == 1);
    CHECK(tagged.readings[0].name == "a");
    for (const char* tag : {"tag_sample_name", "tag_sd", "tag_400_nm", "h_rte", "h_rte_2", "tag_end_data", "tag"})
        CHECK(tagged.readings[0].tags.count(tag) == 1);
    lab.name = "3/4\" board\n";
    CHECK(write_cgats({"", {}, {lab}, {}}, {}).find("\"3/4' board \"") != std::string::npos);
}

TEST_CASE("readings say which table of a file they stood in from the second one that was read on") {
    const auto table = [](const std::string& name, const std::string& columns = "LAB_L LAB_A LAB_B",
                          const std::string& values = "80 4 18") {
        return "BEGIN_DATA_FORMAT\nSAMPLE_NAME " + columns + "\nEND_DATA_FORMAT\nBEGIN_DATA\n" + name + " " + values +
               "\nEND_DATA\n";
    };
    const std::string head = "CGATS.17\nILLUMINATION_NAME \"D65\"\nOBSERVER_ANGLE \"2\"\n";
    const auto said = [&](const std::string& tables) {
        std::string out;
        for (const auto& r : read_cgats(head + tables).readings)
            out += r.name + ":" + (r.tags.count("table") ? r.tags.at("table") : "-") + " ";
        return out;
    };
    CHECK(said(table("one")) == "one:- ");
    CHECK(said(table("one") + table("two")) == "one:- two:2 ");
    CHECK(said(table("one") + table("two") + table("three")) == "one:- two:2 three:3 ");
    CHECK(said(table("none", "CMYK_C", "5") + table("one") + table("two")) == "one:- two:3 ");
}

TEST_CASE("a comment among the rows of a separated table is none of them, and a text without a table is told so") {
    const auto separated = [](const std::string& row) {
        return "CGATS.17;;\nILLUMINATION_NAME;D65;\nOBSERVER_ANGLE;2;\nBEGIN_DATA_FORMAT;;\n"
               "SAMPLE_NAME;LAB_L;LAB_A;LAB_B\nEND_DATA_FORMAT;;\nBEGIN_DATA;;\none;80;4;18\n" +
               row + "two;70;5;20\nEND_DATA;;\n";
    };
    REQUIRE(read_cgats(separated("")).readings.size() == 2);
    CHECK(read_cgats(separated("# read;by;hand;twice\n")).readings.size() == 2);
    CHECK(refused_as([] { read_cgats("CGATS.17\nORIGINATOR \"a test\"\n"); }) == "0:0 cgats-format-missing ''");
}
