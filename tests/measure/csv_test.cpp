#include <catch2/catch.hpp>

#include "foretone/base/number.hpp"
#include "foretone/measure/csv.hpp"
#include "foretone/measure/lab_list.hpp"
#include "foretone/measure/read.hpp"
#include "measure/texts.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::measure;
using namespace foretone::test;

namespace {

// The invented spectrum down, `columns` times, with this separator and decimal sign.
std::string down(const std::string& heading, char separator, char decimal, int columns) {
    std::string out = heading + "\n";
    for (int nm = 400; nm <= 700; nm += 10) {
        out += std::to_string(nm);
        for (int c = 0; c < columns; ++c) {
            auto v = base::shortest(std::round(wood_like(nm, 0.05 * c) * 1e5) / 1e5);
            if (v.find('.') != std::string::npos) v[v.find('.')] = decimal;
            out += separator + v;
        }
        out += "\n";
    }
    return out;
}

std::string replaced(std::string text, char from, char to) {
    for (char& c : text)
        if (c == from) c = to;
    return text;
}

}  // namespace

TEST_CASE("wavelengths down: comma, semicolon or tab, decimal point or comma") {
    struct Way {
        char separator, decimal;
    };
    for (const auto& [separator, decimal] : {Way{',', '.'}, {';', '.'}, {';', ','}, {'\t', '.'}, {'\t', ','}}) {
        INFO("separator '" << separator << "', decimal '" << decimal << "'");
        const auto r = read_csv(
            down(std::string("wavelength_nm") + separator + "bare" + separator + "one coat", separator, decimal, 2));
        REQUIRE(r.readings.size() == 2);
        CHECK(r.readings[0].name == "bare");
        CHECK(r.readings[1].name == "one coat");
        CHECK_THAT(worst_off(r.readings[0]), Near(0, closed_form));
        CHECK_THAT(worst_off(r.readings[1], 0.05), Near(0, closed_form));
        CHECK(has_note(r, "decimal-comma") == (decimal == ','));
    }
}

TEST_CASE("rows of words above or below the wavelengths' heading are tags of the columns") {
    auto text = down("wood;maple;maple\nfinish;none;dye\nwavelength_nm;bare;dyed\nstep;0;1", ';', ',', 2);
    const auto r = read_csv("# geometry: 45/0\nlight;D65;\n" + text);
    REQUIRE(r.readings.size() == 2);
    CHECK(r.readings[1].tags.at("wood") == "maple");
    CHECK(r.readings[1].tags.at("finish") == "dye");
    CHECK(r.readings[1].tags.at("step") == "1");
    CHECK(r.readings[1].geometry == optics::Geometry::g45_0);
    CHECK(r.keywords.at("light") == "D65");
}

TEST_CASE("samples down with wavelengths across, and tags beside them") {
    for (const char separator : {',', ';', '\t'}) {
        std::string text = "name wood coats" + wavelength_columns("") + "\nbare maple 0" + wood_values() +
                           "\ncoated maple 1" + wood_values(0.05) + "\n";
        text = replaced(text, ' ', separator);
        if (separator == ';') text = replaced(text, '.', ',');
        const auto r = read_csv(text);
        REQUIRE(r.readings.size() == 2);
        CHECK(r.readings[1].tags.at("coats") == "1");
        CHECK_THAT(worst_off(r.readings[1], 0.05), Near(0, closed_form));
    }
}

TEST_CASE("percent by a heading, by a sign or by a line of the file") {
    const auto percent = [](const std::string& heading, const std::string& sign) {
        std::string out = heading + "\n";
        for (int nm = 400; nm <= 700; nm += 10)
            out += std::to_string(nm) + ";" + base::shortest(std::round(wood_like(nm) * 1e5) / 1e3) + sign + "\n";
        return out;
    };
    for (const auto& text :
         {percent("nm;reflectance (%)", ""), percent("nm;R", " %"), percent("# scale: percent\nnm;R", "")}) {
        const auto r = read_csv(text);
        CHECK_THAT(worst_off(r.readings[0]), Near(0, closed_form));
        CHECK_FALSE(has_note(r, "scale-by-values"));
    }
    CHECK(has_note(read_csv(percent("nm;R", "")), "scale-by-values"));
    // A share in a sample's name is no unit.
    CHECK_THAT(worst_off(read_csv(down("# scale: fraction\nnm;5% dye", ';', '.', 1)).readings[0]),
               Near(0, closed_form));
}

TEST_CASE("a table of Lab with its conditions in columns or above") {
    const auto columns = read_csv(
        "name;light;observer;geometry;L*;a*;b*;sd\nbare;D65;10;d/8 SCI;81,5;3,2;18,4;0,3\nbare in lamp "
        "light;A;2;45/0;83,1;6,0;22,9;\n");
    REQUIRE(columns.readings.size() == 2);
    CHECK(columns.readings[0].lab == color::Lab{81.5, 3.2, 18.4});
    CHECK(columns.readings[0].observer == "10deg");
    CHECK(columns.readings[0].geometry == optics::Geometry::d8_included);
    CHECK(*columns.readings[0].spread_de == 0.3);
    CHECK(columns.readings[1].light == "A");
    CHECK_FALSE(columns.readings[1].spread_de);
    const auto above = read_csv(
        "light: Illuminant D65\nobserver: CIE 1964\nsample,stage,L,a,b\nx,bare,81.5,\xE2\x88\x92"
        "3.2,18.4\n");
    CHECK(above.readings[0].lab == color::Lab{81.5, -3.2, 18.4});
    CHECK(above.readings[0].observer == "10deg");
    CHECK(above.readings[0].tags.at("stage") == "bare");
    CHECK(has_note(above, "minus-typographic"));
}

TEST_CASE("a plain list of Lab, separated in any way, with a name of several words") {
    const std::string head = "light: D65\nobserver: 2deg\n# geometry: 45/0\n";
    for (const char* lines :
         {"bare maple 82.1 3.2 18.4\none coat 78 4.1 24.5\n", "bare maple 82,1 3,2 18,4\none coat 78 4,1 24,5\n",
          "bare maple;82,1;3,2;18,4\none coat;78;4,1;24,5\n", "bare maple,82.1,3.2,18.4\none coat,78,4.1,24.5\n",
          "bare maple\t82.1\t3.2\t18.4\none coat\t78\t4.1\t24.5\n",
          "name L* a* b*\n\"bare maple\" 82.1 3.2 18.4\none coat 78 4.1 24.5\n"}) {
        INFO(lines);
        const auto r = read_lab_list(head + lines);
        REQUIRE(r.readings.size() == 2);
        CHECK(r.readings[0].name == "bare maple");
        CHECK(r.readings[0].lab == color::Lab{82.1, 3.2, 18.4});
        CHECK(r.readings[1].name == "one coat");
        CHECK(r.readings[1].lab == color::Lab{78, 4.1, 24.5});
        CHECK(r.readings[1].geometry == optics::Geometry::g45_0);
    }
}

TEST_CASE("the kind of a text is told from its lines") {
    CHECK(format_of(cgats(wavelength_columns("NM_"), wood_values(), wood_values())) == Format::cgats);
    CHECK(format_of(down("wavelength_nm,a", ',', '.', 1)) == Format::csv);
    CHECK(format_of(replaced("name" + wavelength_columns("") + "\nx" + wood_values(), ' ', ';')) == Format::csv);
    CHECK(format_of(down("\xEF\xBB\xBF"
                         "400;0,5",
                         ';', ',', 1)) == Format::csv);
    CHECK(format_of("name;L;a;b\nx;50;1;2\n") == Format::csv);
    CHECK(format_of("light: D65\nbare 50 1 2\n") == Format::lab_list);
    CHECK(format_of("light: D65\nbare; 50; 1; 2\n") == Format::lab_list);
    CHECK(format_of("name L a b\nbare 50 1 2\n") == Format::lab_list);
    CHECK(format_of("format = 1\n[wood]\nuse = \"oak\"\n") == Format::unknown);
    CHECK(format_of("") == Format::unknown);
    CHECK(read("# light: D65\n# observer: 2deg\nbare 50 1 2\n").format == "Lab list");
}

TEST_CASE("a scale that a comment states is corrected where it stands") {
    const auto told = [](const std::string& head) {
        std::string text = head + "nm;R\n";
        for (int nm = 400; nm <= 700; nm += 10) text += std::to_string(nm) + ";45\n";
        try {
            read_csv(text);
        } catch (const Refused& e) {
            return e.id + ": " + e.what();
        }
        return std::string("read");
    };
    CHECK(told("# made up\n# scale: fraction\n").find("correct what line 2 says") != std::string::npos);
    CHECK(told("# scale: fraction\n").find("correct what line 1 says") != std::string::npos);
    CHECK(told("") == "read");
}
