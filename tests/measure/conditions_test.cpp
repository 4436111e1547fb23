// Every spelling of the trade to the project's words: light, observer, geometry, scale; and what contradicts.

#include "../../src/measure/conditions.hpp"

#include <catch2/catch.hpp>

#include "../../src/measure/separated.hpp"
#include "measure/refusals.hpp"

using namespace foretone;
using namespace foretone::test;
using optics::Geometry;

namespace {

std::string geometry_told(const std::string& text) {
    const auto g = measure::geometry_from(text);
    return g.geometry ? std::string(measure::geometry_word(*g.geometry)) : g.sphere_open ? "open" : "unknown";
}

struct Taken {
    measure::Conditions conditions;
    std::string notes, refused;
    bool known = false;
};

Taken taken(const std::string& key, const std::string& value) {
    Taken out;
    measure::Notes notes;
    out.refused = refused_as([&] { out.known = out.conditions.take(key, {value, 4, 9, false}, notes); });
    out.notes = note_lines(notes.list());
    return out;
}

std::string said_told(const std::string& line) {
    const auto said = measure::said_in({line, 3});
    return said ? said->key + "=" + said->value.text + "@" + std::to_string(said->value.column) : "none";
}

char separator_told(const std::vector<std::string>& lines) {
    measure::Lines out;
    for (std::size_t i = 0; i < lines.size(); ++i) out.list.push_back({lines[i], i + 1});
    return measure::separator_of(out);
}

}  // namespace

TEST_CASE("lights are brought to the library's ids, other names stay as they are written") {
    for (const char* d65 :
         {"D65", "d65", "CIE D65", "Illuminant D65", " standard D65 ", "CIE-D65", "cie illuminant d65", "ill. D65"})
        CHECK(measure::light_from(d65) == "D65");
    for (const auto& [text, due] : {std::pair{"a", "A"},
                                    {"CIE A", "A"},
                                    {"f11", "F11"},
                                    {"f2", "F2"},
                                    {"c", "C"},
                                    {"led-b3", "LED-B3"},
                                    {"D50", "D50"},
                                    {"shop lamp", "shop lamp"},
                                    {"d6500", "d6500"},
                                    {"d6x", "d6x"},
                                    {"fl", "fl"},
                                    {"", ""},
                                    {"f", "f"},
                                    {"b", "B"},
                                    {"x", "x"}})
        CHECK(measure::light_from(text) == due);
}

TEST_CASE("observers are two, by angle or by year") {
    for (const char* two : {"2", "2deg", "2 degree", "2\xC2\xB0", "CIE 1931", "1931", "2 degrees", "CIE 1931 2 degree",
                            "2.0", "Standard Observer 2"})
        CHECK(measure::observer_from(two) == "2deg");
    for (const char* ten : {"10", "10deg", "10\xC2\xB0", "CIE 1964", "1964", "CIE 1964 10 degree", "10.0"})
        CHECK(measure::observer_from(ten) == "10deg");
    for (const char* neither : {"", "5", "20 deg", "1932", "two", "12"}) {
        INFO(neither);
        CHECK((std::string(neither) == "20 deg" || !measure::observer_from(neither)));
    }
}

TEST_CASE("geometries are brought to three words, a sphere without its specular stays open") {
    const std::pair<const char*, const char*> spelt[] = {{"45/0", "45/0"},
                                                         {"45:0", "45/0"},
                                                         {"0:45", "45/0"},
                                                         {"45\xC2\xB0"
                                                          "c:0\xC2\xB0",
                                                          "45/0"},
                                                         {"45a:0", "45/0"},
                                                         {"0/45 annular", "unknown"},
                                                         {"45/8", "unknown"},
                                                         {"d/8-included", "d/8-included"},
                                                         {"d/8 SCI", "d/8-included"},
                                                         {"di:8\xC2\xB0", "d/8-included"},
                                                         {"8:di", "d/8-included"},
                                                         {"SCI", "d/8-included"},
                                                         {"Specular Included", "d/8-included"},
                                                         {"diffuse incl.", "d/8-included"},
                                                         {"d/8 spin", "d/8-included"},
                                                         {"d/8-excluded", "d/8-excluded"},
                                                         {"de:8", "d/8-excluded"},
                                                         {"8/de", "d/8-excluded"},
                                                         {"sphere SCE", "d/8-excluded"},
                                                         {"specular excluded", "d/8-excluded"},
                                                         {"d/8 spex", "d/8-excluded"},
                                                         {"d/8", "open"},
                                                         {"8/d", "open"},
                                                         {"d/0", "open"},
                                                         {"sphere", "open"},
                                                         {"d/8 SCI SCE", "open"},
                                                         {"included", "unknown"},
                                                         {"polarized", "unknown"},
                                                         {"", "unknown"}};
    for (const auto& [text, due] : spelt) {
        INFO("'" << text << "'");
        CHECK(geometry_told(text) == due);
    }
    for (const auto g : {Geometry::g45_0, Geometry::d8_included, Geometry::d8_excluded})
        CHECK(measure::geometry_from(measure::geometry_word(g)).geometry == g);
}

TEST_CASE("keys of conditions are known in any case and spacing; others are left to the caller") {
    CHECK(measure::key_of("  Measurement-Geometry. ") == "measurement_geometry");
    CHECK(measure::key_of("Sample__Name") == "sample_name");
    CHECK(measure::key_of("L*") == "l*");
    CHECK(taken("Illumination Name", "cie d50").conditions.light == "D50");
    CHECK(taken("ILLUMINANT_NAME", "A").conditions.light == "A");
    CHECK(taken("observer.angle", "10").conditions.observer == "10deg");
    CHECK(taken("Standard Observer", "1931").conditions.observer == "2deg");
    CHECK(taken("device geometry", "45/0").conditions.geometry == Geometry::g45_0);
    CHECK_FALSE(taken("finish", "oil").known);
    CHECK_FALSE(taken("", "D65").known);
    CHECK(taken("observer", "5").refused == "4:9 observer-unknown '5'");
    CHECK(taken("geometry", "d/8").notes == "4:9 geometry-open");
    CHECK(taken("geometry", "from above").notes == "4:9 geometry-unknown");
    CHECK_FALSE(taken("geometry", "from above").conditions.geometry);
}

TEST_CASE("the scale is percent or fraction by its word or by the value of white") {
    for (const char* percent : {"percent", "Percent", "pct", "%", "0-100", "100", "100.0", "percentage"})
        CHECK(taken("scale", percent).conditions.percent == true);
    for (const char* fraction : {"fraction", "Fractions", "dec", "0-1", "1", "1.0", "factor", "decimal"})
        CHECK(taken("scale", fraction).conditions.percent == false);
    CHECK(taken("spectral_norm", "100").conditions.percent_line == 4);
    CHECK(taken("scale", "per mille").refused == "4:9 scale-unknown 'per mille'");
    CHECK(taken("spectral norm", "255").refused == "4:9 scale-unknown '255'");
}

TEST_CASE("conditions within a value are found, and a measuring condition M0 to M3 is no light") {
    auto c = taken("MEASUREMENT_SOURCE", "Illumination=D50 ObserverAngle=2 WhiteBase=Absolute").conditions;
    CHECK((c.light == "D50" && c.observer == "2deg"));
    c = taken("MEASUREMENT_SOURCE", "Illumination=M1 ObserverAngle=10").conditions;
    CHECK((c.light.empty() && c.observer == "10deg"));
    c = taken("WEIGHTING_FUNCTION", "ILLUMINANT, D65").conditions;
    CHECK((c.light == "D65" && c.observer.empty()));
    c = taken("COMPUTATIONAL_PARAMETER", "OBSERVER, 10 degree").conditions;
    CHECK((c.light.empty() && c.observer == "10deg"));
    CHECK(taken("WEIGHTING_FUNCTION", "OBSERVER, 3 degree").refused == "4:9 observer-unknown '3'");
    CHECK(taken("MEASUREMENT_SOURCE", "Illumination= ").conditions.light.empty());
}

TEST_CASE("what the user states fills in what is open, and is refused where the file says otherwise") {
    measure::Options stated;
    stated.light = "cie d65";
    stated.observer = "10deg";
    stated.geometry = Geometry::d8_excluded;
    const auto outcome = [&](const measure::Conditions& file) {
        measure::Conditions c = file;
        return refused_as([&] { c.state(stated); });
    };
    measure::Conditions open;
    open.state(stated);
    CHECK((open.light == "D65" && open.observer == "10deg" && open.geometry == Geometry::d8_excluded));
    measure::Conditions file{"D65", "10deg", Geometry::d8_excluded, {}, 0};
    CHECK(outcome(file) == "read");
    file.light = "A";
    CHECK(outcome(file) == "0:0 light-contradicts 'D65'");
    file.light = "D65", file.observer = "2deg";
    CHECK(outcome(file) == "0:0 observer-contradicts '10deg'");
    file.observer = "10deg", file.geometry = Geometry::g45_0;
    CHECK(outcome(file) == "0:0 geometry-contradicts 'd/8-excluded'");
    CHECK(refusal_text([&] { file.state(stated); }) ==
          "the geometry is stated as d/8-excluded, but the file says 45/0; one of the two is wrong");
    file.state({});  // nothing stated, nothing touched
    CHECK(file.geometry == Geometry::g45_0);
}

TEST_CASE("a line that states something is a key of letters, a mark and a value") {
    CHECK(said_told("light: D65") == "light=D65@7");
    CHECK(said_told("  Observer = 10 deg  ").rfind("Observer=10 deg@", 0) == 0);
    CHECK(said_told("light: D65;;;") == "light=D65@7");
    CHECK(said_told("light:\"D65\",,") == "light=D65@7");
    CHECK(said_told("light:") == "none");
    CHECK(said_told("400: 0.3") == "none");  // a number is no key
    CHECK(said_told("no mark here") == "none");
    CHECK(said_told(std::string(41, 'k') + ": x") == "none");
    CHECK(said_told(std::string(40, 'k') + ": x") != "none");
    const auto cells = [](const std::vector<std::string>& texts) {
        std::vector<measure::Cell> out;
        for (const auto& t : texts) out.push_back({t, 2, out.size() + 1, false});
        const auto said = measure::said_in_cells(out);
        return said ? said->key + "=" + said->value.text : std::string("none");
    };
    CHECK(cells({"light", "D65", "", ""}) == "light=D65");
    CHECK(cells({"light:", "D65"}) == "light=D65");
    CHECK(cells({"light: D65", "", ""}) == "light=D65");
    CHECK(cells({"light", "", "D65"}) == "none");
    CHECK(cells({"light", "D65", "A"}) == "none");
    CHECK(cells({"", "", ""}) == "none");
    CHECK(cells({}) == "none");
}

TEST_CASE("the separator is the first of tab, semicolon and comma that more than half of the lines hold") {
    CHECK(separator_told({"a,b", "c,d"}) == ',');
    CHECK(separator_told({"a;b,c", "c;d,e"}) == ';');
    CHECK(separator_told({"a\tb;c", "c\td;e"}) == '\t');
    CHECK(separator_told({"a;b", "c,d"}) == ',');  // half is not more than half
    CHECK(separator_told({"a;b", "c;d", "e,f"}) == ';');
    CHECK(separator_told({"\"a;b\",c", "\"d;e\",f"}) == ',');  // within quotes it separates nothing
    CHECK(separator_told({"# x;y", "# x;y", "light: D65;", "a,b"}) == ',');
    CHECK(separator_told({}) == ',');
    CHECK(separator_told({"words alone"}) == ',');
}
