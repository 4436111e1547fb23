// CxF3, part by part: which object, which value, which specification; what is taken from where and what is refused.

#include <catch2/catch.hpp>

#include "foretone/measure/cxf.hpp"
#include "measure/refusals.hpp"
#include "measure/texts.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::measure;
using namespace foretone::test;

namespace {

// A document of these objects and specifications, one a line: objects begin in line 3.
std::string cxf_of(const std::string& objects, const std::string& specifications) {
    return "<CxF xmlns=\"http://colorexchangeformat.com/CxF3-core\"><Resources>\n<ObjectCollection>\n" + objects +
           "\n</ObjectCollection>\n<ColorSpecificationCollection>" + specifications +
           "</ColorSpecificationCollection></Resources></CxF>\n";
}

std::string object(const std::string& attributes, const std::string& values) {
    return "<Object " + attributes + "><ColorValues>" + values + "</ColorValues></Object>";
}

std::string spectrum_of(const std::string& attributes, const std::string& values) {
    return "<ReflectanceSpectrum ColorSpecification=\"S\" " + attributes + ">" + values + "</ReflectanceSpectrum>";
}

std::string lab_of(const std::string& specification, const std::string& l) {
    return "<ColorCIELab ColorSpecification=\"" + specification + "\"><L>" + l + "</L><A>3</A><B>18</B></ColorCIELab>";
}

std::string specification(const std::string& id, const std::string& light, const std::string& observer,
                          const std::string& more = "") {
    return "<ColorSpecification Id=\"" + id + "\"><TristimulusSpec><Illuminant>" + light + "</Illuminant><Observer>" +
           observer + "</Observer></TristimulusSpec><MeasurementSpec>" + more +
           "</MeasurementSpec></ColorSpecification>";
}

const std::string by_ten = "<WavelengthRange StartWL=\"400\" Increment=\"10\"/>";
const std::string d50 = specification("S", "D50", "2_Degree", by_ten);

Reading only(const std::string& text) {
    const auto r = read_cxf(text, {});
    REQUIRE(r.readings.size() == 1);
    return r.readings.front();
}

std::string refused_cxf(const std::string& text) {
    return refused_as([&] { read_cxf(text, {}); });
}

}  // namespace

TEST_CASE("a CxF object is called by its name, else by its Id, else by its number, and keeps its type") {
    const auto values = spectrum_of("", wood_values());
    const auto r = read_cxf(cxf_of(object("Name=\"bare\" Id=\"x\" ObjectType=\"Standard\"", values) +
                                       object("Name=\"\" Id=\"x7\"", values) + object("", values),
                                   d50),
                            {});
    REQUIRE(r.format == "CxF3");
    REQUIRE(r.readings.size() == 3);
    CHECK(r.readings[0].name == "bare");
    CHECK(r.readings[0].tags.at("object_type") == "Standard");
    CHECK(r.readings[1].name == "x7");
    CHECK(r.readings[1].tags.count("object_type") == 0);
    CHECK(r.readings[2].name == "3");
    for (const auto& one : r.readings) CHECK(worst_off(one) < 1e-5);
    CHECK(r.readings[0].line == 3);
}

TEST_CASE("a CxF spectrum starts and steps as it says itself, else as its specification says") {
    const auto grid = [](const std::string& own, const std::string& range) {
        const auto r = only(cxf_of(object("Name=\"b\"", spectrum_of(own, wood_values())),
                                   specification("S", "D50", "2_Degree", range)));
        const auto& nm = r.reflectance->wavelength_nm;
        return base::shortest(nm.front()) + " to " + base::shortest(nm.back()) + ", " + std::to_string(nm.size());
    };
    CHECK(grid("", by_ten) == "400 to 700, 31");
    CHECK(grid("StartWL=\"390\"", "<WavelengthRange StartWL=\"400\" Increment=\"12\"/>") == "390 to 750, 31");
    CHECK(grid("StartWL=\"380\" Increment=\"12\"", by_ten) == "380 to 740, 31");
    CHECK(grid("Increment=\"11\"", by_ten) == "400 to 730, 31");
    CHECK(grid("StartWL=\"400\" Increment=\"10\"", "") == "400 to 700, 31");
    CHECK(grid("StartWL=\"nonsense\"", by_ten) == "400 to 700, 31");
}

TEST_CASE("a CxF spectrum that does not say its step is taken every 10 nm, and that is said; one that says it is not") {
    const std::string start = "<WavelengthRange StartWL=\"400\"/>";
    const auto text =
        cxf_of(object("Name=\"b\"", spectrum_of("", wood_values())), specification("S", "D50", "2_Degree", start));
    const auto r = read_cxf(text, {});
    CHECK(has_note(r, "cxf-step"));
    CHECK(worst_off(r.readings[0]) < 1e-5);
    CHECK_FALSE(has_note(read_cxf(cxf_of(object("Name=\"b\"", spectrum_of("", wood_values())), d50), {}), "cxf-step"));
}

TEST_CASE("a CxF spectrum must begin, and end, where light is: from 200 to 2500 nm") {
    const auto from = [](const std::string& own, const std::string& values = wood_values()) {
        return refused_cxf(
            cxf_of(object("Name=\"b\"", spectrum_of(own, values)), specification("S", "D50", "2_Degree")));
    };
    CHECK(from("StartWL=\"199\" Increment=\"10\"") == "3:1 cxf-number 'StartWL'");
    CHECK(from("StartWL=\"2501\" Increment=\"10\"") == "3:1 cxf-number 'StartWL'");
    CHECK(from("") == "3:1 cxf-number 'StartWL'");
    // 31 values: 30 steps. 400 + 30 x 70 = 2500 is a wavelength still, though no reading of a board's color.
    CHECK(from("StartWL=\"400\" Increment=\"70.1\"") == "3:1 cxf-range '2503'");
    CHECK(from("StartWL=\"400\" Increment=\"70\"") != "3:1 cxf-range '2500'");
    CHECK(from("StartWL=\"400\" Increment=\"-7\"") == "3:1 cxf-range '190'");
    const auto told = refusal_text([&] {
        read_cxf(
            cxf_of(object("Name=\"plank 3\"", spectrum_of("StartWL=\"400\" Increment=\"100\"", wood_values())), d50),
            {});
    });
    CHECK(told.find("'plank 3' has 31 values in steps of 100 nm: it would end at 3400 nm") != std::string::npos);
}

TEST_CASE("values of a CxF spectrum are parted by blanks, lines or commas; what is no number is named") {
    std::string commas = wood_values();
    for (std::size_t i = 1; i < commas.size(); ++i)
        if (commas[i] == ' ') commas[i] = i % 2 ? ',' : '\n';
    CHECK(worst_off(only(cxf_of(object("Name=\"b\"", spectrum_of("", commas)), d50))) < 1e-5);
    const auto bad = [](const std::string& values) {
        return refused_cxf(cxf_of(object("Name=\"b\"", spectrum_of("", values)), d50));
    };
    CHECK(bad(wood_values() + " 0.3x") == "3:1 cxf-number 'x'");
    CHECK(bad("0.1 n/a 0.3") == "3:1 cxf-number 'n/a'");
    CHECK(bad("0.1 nan 0.3") == "3:1 cxf-number 'nan'");
    CHECK(bad("0.1 1e999 0.3") == "3:1 cxf-number '1e999'");
    std::string many;
    for (int i = 0; i < 4001; ++i) many += " 0.3";
    CHECK(bad(many) == "3:1 fields-too-many ''");
}

TEST_CASE("a CxF value's conditions are its own specification's, and what one value has said another keeps") {
    const std::string geometry =
        "<GeometryChoice><SingleAngle><IlluminationAngle>45</IlluminationAngle><MeasurementAngle>0</MeasurementAngle>"
        "</SingleAngle></GeometryChoice>";
    const auto specs = specification("S", "D50", "2_Degree", by_ten) + specification("T", "A", "10_Degree", geometry);
    auto r = only(cxf_of(object("Name=\"b\"", lab_of("T", "81.5") + lab_of("S", "10")), specs));
    CHECK(r.lab->l == 81.5);  // the first of its kind
    CHECK(r.light == "A");
    CHECK(r.observer == "10deg");
    CHECK(r.geometry == optics::Geometry::g45_0);
    r = only(cxf_of(object("Name=\"b\"", lab_of("S", "50")), specs));
    CHECK(r.light == "D50");
    CHECK(r.observer == "2deg");
    CHECK_FALSE(r.geometry);
    r = only(cxf_of(object("Name=\"b\"", spectrum_of("", wood_values()) + lab_of("T", "60")), specs));
    CHECK(r.light == "A");
    CHECK(r.lab->l == 60);
    CHECK(worst_off(r) < 1e-5);
    r = only(cxf_of(object("Name=\"b\"",
                           "<ColorCIEXYZ ColorSpecification=\"S\"><X>20</X><Y>21</Y><Z>10</Z>"
                           "</ColorCIEXYZ>"),
                    specs));
    REQUIRE(r.xyz);
    CHECK(r.xyz->x == 20);
    CHECK(r.xyz->z == 10);
    CHECK(r.light == "D50");
    CHECK(refused_cxf(cxf_of(object("Name=\"b\"", lab_of("none", "50")), specs)).find("light-missing") !=
          std::string::npos);
}

TEST_CASE("CxF geometries: two angles, or a sphere with its gloss in or out, under either of its names") {
    const auto geometry = [](const std::string& choice) {
        return only(cxf_of(object("Name=\"b\"", spectrum_of("", wood_values())),
                           specification("S", "D50", "2_Degree", by_ten + choice)))
            .geometry;
    };
    const auto sphere = [](const std::string& tag, const std::string& word) {
        return "<GeometryChoice><Sphere><" + tag + ">" + word + "</" + tag + "></Sphere></GeometryChoice>";
    };
    const auto angles = [](const std::string& light, const std::string& look) {
        return "<IlluminationAngle>" + light + "</IlluminationAngle><MeasurementAngle>" + look + "</MeasurementAngle>";
    };
    CHECK(geometry(angles("45", "0")) == optics::Geometry::g45_0);
    CHECK(geometry(angles(" 45\n", " 0 ")) == optics::Geometry::g45_0);
    for (const char* tag : {"SphereGeometryConfiguration", "SphereConfiguration"}) {
        CHECK(geometry(sphere(tag, "Specular_Component_Included")) == optics::Geometry::d8_included);
        CHECK(geometry(sphere(tag, "Specular_Component_Excluded")) == optics::Geometry::d8_excluded);
    }
    CHECK_FALSE(geometry(""));
    CHECK_FALSE(geometry("<IlluminationAngle>45</IlluminationAngle>"));  // one angle says nothing
}

TEST_CASE("numbers of a CxF color are whole and finite, each part there; objects without values are passed over") {
    const auto bad = [](const std::string& values) { return refused_cxf(cxf_of(object("Name=\"b\"", values), d50)); };
    CHECK(bad("<ColorCIELab ColorSpecification=\"S\"><L>5O</L><A>1</A><B>1</B></ColorCIELab>") ==
          "3:1 cxf-number '5O'");
    CHECK(bad("<ColorCIELab ColorSpecification=\"S\"><L>50</L><A>1</A></ColorCIELab>") == "1:1 cxf-number ''");
    CHECK(bad("<ColorCIELab ColorSpecification=\"S\"><L>50</L><A>inf</A><B>1</B></ColorCIELab>") ==
          "3:1 cxf-number 'inf'");
    const auto r = only(cxf_of(
        "<Object Name=\"empty\"></Object>\n<Note>none</Note>\n" + object("Name=\"b\"", lab_of("S", " 50 ")), d50));
    CHECK(r.name == "b");
    CHECK(r.line == 5);
    CHECK(r.lab->l == 50);
    Options few;
    few.most_fields = 7;
    std::string seven;
    for (int i = 0; i < 7; ++i) seven += object("", lab_of("S", "50"));
    CHECK(read_cxf(cxf_of(seven, d50), few).readings.size() == 7);
    CHECK(refused_as([&] { read_cxf(cxf_of(seven + object("", lab_of("S", "50")), d50), few); }) ==
          "3:1 fields-too-many ''");
}

TEST_CASE("what is broken in a CxF file is said in words, at its line") {
    const auto told = [](const std::string& text) { return refusal_text([&] { read_cxf(text, {}); }); };
    const auto at = [](const std::string& text) { return refused_cxf(text); };
    CHECK(told("<CxF>\n<Resources>\n</CxF>").find("a tag is closed by another") != std::string::npos);
    CHECK(told("<CxF a=>\n</CxF>").find("an attribute is broken") != std::string::npos);
    CHECK(told("<?xml version=\"1.0\"?>\n").find("there is no element") != std::string::npos);
    CHECK(told("<CxF>\n<Resources").find("a tag is broken") != std::string::npos);
    CHECK(at("<CxF>\n<Resources>\n\n</CxF>").substr(0, 2) == "4:");
    CHECK(at("<!DOCTYPE a>\n<CxF/>") == "1:1 cxf-entities '<!DOCTYPE'");
    CHECK(at("<CxF>\n\n<!ENTITY a \"b\">\n</CxF>") == "3:1 cxf-entities '<!DOCTYPE'");
    CHECK(at("<CxF>\n</CxF>") == "1:1 cxf-empty ''");
}

TEST_CASE("namespaces of a CxF file are any; a specification behind nested ones is found") {
    auto text = cxf_of(object("Name=\"b\"", spectrum_of("", wood_values())), d50);
    std::string prefixed;
    for (std::size_t i = 0; i < text.size(); ++i) {
        prefixed += text[i];
        if (text[i] == '<') prefixed += text[i + 1] == '/' ? (++i, "/n:") : "n:";
    }
    CHECK(worst_off(only(prefixed)) < 1e-5);
    // Collections lie below other elements, before or behind their like.
    const std::string before = "<FileInformation><a><b/></a><c/></FileInformation>";
    text.insert(text.find("<Resources>"), before);
    CHECK(worst_off(only(text)) < 1e-5);
}
