/// The one reading that is due among several, and readings that are not one.

#include "foretone/scene/readings.hpp"
#include "scene/faults.hpp"
#include "support/folder.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::string across(const std::vector<std::string>& names) {
    std::string text = "# geometry: 45/0\nname";
    for (int nm = 400; nm <= 700; nm += 20) text += "," + std::to_string(nm);
    for (std::size_t i = 0; i < names.size(); ++i) {
        text += "\n" + names[i];
        for (int nm = 400; nm <= 700; nm += 20) text += ",0." + std::to_string(21 + i);
    }
    return text + "\n";
}

}  // namespace

TEST_CASE("one of several readings is found by its name, values and all") {
    const Folder f("readings-choice");
    const auto file = f.write("r.csv", across({"bare", "oiled", "waxed"}));
    const auto one = scene::read_one_reflectance(file, library(), "oiled");
    CHECK(one.name == "oiled");
    CHECK(one.reflectance.value.front() == 0.22);
    CHECK(one.reflectance.value.size() == 16);
    CHECK(one.geometry == optics::Geometry::g45_0);
}

TEST_CASE("a name that stands twice is told at its second line, and many names are cut short") {
    const Folder f("readings-twice");
    const auto twice = f.write("t.csv", across({"bare", "oiled", "oiled"}));
    const auto found = faults_of([&] { scene::read_one_reflectance(twice, library(), "oiled"); });
    holds_fault(found, "readings-several", 5, 1, "2 readings are named 'oiled'");
    std::vector<std::string> names;
    for (int i = 0; i < 15; ++i) names.push_back("reading" + std::to_string(i));
    const auto many = f.write("m.csv", across(names));
    const auto told = faults_of([&] { scene::read_one_reflectance(many, library()); });
    holds_fault(told, "readings-several", 4, 1, "holds 15 readings");
    CHECK(told[0].text.find("reading11, ...") != std::string::npos);
    CHECK(told[0].text.find("reading12") == std::string::npos);
    holds_fault(faults_of([&] { scene::read_one_reflectance(many, library(), "reading99"); }), "sample-unknown", 0, 0,
                "reading9");
}

TEST_CASE("a text that is no readings at all is told how a spectrum's heading reads, and what else is read") {
    const Folder f("readings-none");
    const auto found = faults_of([&] { scene::read_one_reflectance(f.write("p.txt", "dear all\n"), library()); });
    REQUIRE(found.size() == 1);
    CHECK(found[0].id == "spectrum-header");
    CHECK(found[0].text.find("wavelength_nm,reflectance") != std::string::npos);
    CHECK(found[0].text.find("CGATS") != std::string::npos);
    const auto plain = faults_of(
        [&] { scene::read_one_reflectance(f.write("s.csv", "wavelength_nm,reflectance\n400,0.5\n"), library()); });
    REQUIRE(plain.size() == 1);
    CHECK(plain[0].id == "spectrum-short");
}

TEST_CASE("a plain spectrum is one whatever its comments, blanks, marks and line ends") {
    const Folder f("readings-plain");
    std::string rows;
    for (int nm = 400; nm <= 700; nm += 20) rows += std::to_string(nm) + ",0.5\r\n";
    for (const std::string head : {"wavelength_nm,reflectance\r\n", "# a board\r\n\r\nwavelength_nm,reflectance\r\n",
                                   "\xEF\xBB\xBFwavelength_nm,reflectance\r\n"}) {
        const auto one = scene::read_one_reflectance(f.write("s.csv", head + rows), library());
        CHECK(one.reflectance.value.size() == 16);
        CHECK(one.name.empty());
        CHECK_FALSE(one.geometry);
    }
}
