/// What was read: reflectance, or something else that must not be taken for it.

#include "../../src/measure/quantity.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/measure/read.hpp"
#include "foretone/base/number.hpp"

using namespace foretone;

namespace {

// Wavelengths down, 380 to 780 nm by 20: a table under `heading`, every value `value`; `first` in place of "380".
std::string quantity_down(const std::string& heading, const std::string& value, const std::string& first = "380") {
    std::string out = heading + "\n" + first + "," + value + "\n";
    for (int nm = 400; nm <= 780; nm += 20) out += std::to_string(nm) + "," + value + "\n";
    return out;
}

// The same across, by 10 nm from 400 to 700, one heading replaced.
std::string quantity_across(const std::string& prefix, const std::string& from = "", const std::string& to = "") {
    std::string head = "name", row = "oak";
    for (int nm = 400; nm <= 700; nm += 10) {
        const auto word = prefix + std::to_string(nm);
        head += "," + (word == from ? to : word);
        row += ",0.3";
    }
    return head + "\n" + row + "\n";
}

std::string quantity_fault(const std::string& text) {
    try {
        measure::read(text);
    } catch (const measure::Refused& e) {
        return e.id + " " + std::to_string(e.line) + ": " + e.what();
    }
    return "read";
}

bool quantity_refused(const std::string& text, const std::string& id) {
    return quantity_fault(text).starts_with(id + " ");
}

}  // namespace

TEST_CASE("absorbance and transmittance are not taken for reflectance") {
    for (const char* other : {"absorbance", "Absorbance (AU)", "ABS", "transmittance", "Transmittance %", "K/S"}) {
        INFO(other);
        CHECK(quantity_refused(quantity_down(std::string("wavelength_nm,") + other, "0.9"), "not-reflectance"));
    }
    CHECK(quantity_refused(quantity_across("ABSORBANCE_"), "not-reflectance"));
    CHECK(
        quantity_refused("# quantity: transmittance\n" + quantity_down("wavelength_nm,oak", "0.3"), "not-reflectance"));
    CHECK(quantity_refused("# measurement type: transmissive\n" + quantity_down("wavelength_nm,oak", "0.3"),
                           "not-reflectance"));
    CHECK(quantity_fault(quantity_down("wavelength_nm,absorbent oak", "0.3")) == "read");  // a name
    CHECK(quantity_fault("# measurement type: reflective\n" + quantity_down("wavelength_nm,oak", "0.3")) == "read");
}

TEST_CASE("log(1/R) is worked back to reflectance, and told") {
    for (const char* heading : {"log(1/R)", "Log (1 / R)", "apparent absorbance"}) {
        INFO(heading);
        const auto in = measure::read(quantity_down(std::string("wavelength_nm,") + heading, "0.9"));
        REQUIRE(in.readings.size() == 1);
        for (const double r : in.readings[0].reflectance->value) CHECK(r == Approx(std::pow(10, -0.9)));
        bool told = false;
        for (const auto& n : in.notes) told = told || n.id == "log-one-over-r";
        CHECK(told);
    }
}

TEST_CASE("readings through polarizing filters are refused") {
    for (const char* said : {"filter: polarized", "measurement condition: M3", "Filter: Pol", "polarization: yes",
                             "measurement_source: Illumination=D50 Filter=Pol"}) {
        INFO(said);
        CHECK(
            quantity_refused("# " + std::string(said) + "\n" + quantity_down("wavelength_nm,oak", "0.3"), "polarized"));
    }
    for (const char* said :
         {"filter: none", "measurement condition: M1", "polarization: none", "filter: unpolarized", "filter: UV"}) {
        INFO(said);
        CHECK(quantity_fault("# " + std::string(said) + "\n" + quantity_down("wavelength_nm,oak", "0.3")) == "read");
    }
}

TEST_CASE("a heading that is nearly a wavelength is asked about, not dropped") {
    const auto fault = quantity_fault(quantity_across("", "550", "55O"));
    CHECK(fault.starts_with("wavelength-heading 1: "));
    CHECK(fault.find("is it 550?") != std::string::npos);
    CHECK(quantity_refused(quantity_across("SPECTRAL_NM", "SPECTRAL_NM700", "SPECTRAL_NM7300"), "wavelength-heading"));
    CHECK(quantity_refused(quantity_across("", "510", "5l0"), "wavelength-heading"));
    CHECK(quantity_refused(quantity_down("wavelength_nm,oak", "0.3", "38O"), "wavelength-heading"));
    for (const char* other : {"batch 3", "R_1", "no2", "b12", "5% dye", "2lb"}) {
        INFO(other);
        const auto read = quantity_across("", "550", other);
        CHECK(quantity_fault(read) == "read");
    }
}

TEST_CASE("control characters that do not show are refused in cells") {
    for (const char* bad : {"\xC2\x9B", "\xE2\x80\xAE", "\xE2\x81\xA6"}) {
        const auto text = quantity_down("wavelength_nm,oak" + std::string(bad), "0.3");
        CHECK(quantity_refused(text, "text-control"));
    }
}

TEST_CASE("comments that state a scale, a quantity or a filter are heard") {
    CHECK(measure::states_more("# scale: percent\nwavelength_nm,reflectance\n"));
    CHECK(measure::states_more("# Oak\n#filter = polarized\n"));
    CHECK_FALSE(measure::states_more("# Oak, planed\nwavelength_nm,reflectance\n400,0.2\n"));
    CHECK_FALSE(measure::states_more(""));
}

TEST_CASE("one column of a difference or a color alone is a column like any other") {
    for (const char* lone : {"dL*", "da*", "db*", "L*", "X"}) {
        INFO(lone);
        auto text = quantity_across("R");
        text.insert(text.find('\n'), std::string(",") + lone);
        text.insert(text.size() - 1, ",7");
        const auto readings = measure::read(text).readings;
        REQUIRE(readings.size() == 1);
        CHECK(readings[0].reflectance);
        CHECK_FALSE(readings[0].delta);
        CHECK_FALSE(readings[0].lab);
        CHECK_FALSE(readings[0].xyz);
    }
}

TEST_CASE("a wavelength within a bracket is one from 200 to 2500 nm") {
    const auto with_far = [](const std::string& far) {
        auto text = quantity_across("R");
        text.insert(text.find('\n'), ",R(" + far + ")");
        text.insert(text.size() - 1, ",0.3");
        return quantity_fault(text);
    };
    CHECK(with_far("2500 nm") == "read");
    CHECK(with_far("200 nm") == "read");
}

TEST_CASE("a spectrum of two values as spotread prints it is too few, but its line is read") {
    const std::string one = "Spectrum from 400.0 to 700.0 nm in ", values = " steps\n1.0, 2.0\n",
                      result = "Result is XYZ: 1 1 1, D50 Lab: 9 0 0\n";
    CHECK(quantity_fault(one + "2" + values + result).find("argyll-result") == std::string::npos);
    CHECK(quantity_fault(one + "1" + values + result).find("argyll-result") == 0);
}

TEST_CASE("polarizing filters are looked for where a file tells of filters or of the kind of reading, nowhere else") {
    const auto told = [](const std::string& key, const std::string& value) {
        return refused_as([&] { refuse_other_readings(key, {value, 7, 1, false}); });
    };
    CHECK(told("DEVICE_FILTER", "Polarized") == "7:1 polarized 'Polarized'");
    CHECK(told("POLARIZATION", "yes") == "7:1 polarized 'yes'");
    CHECK(told("M_CONDITION", "M3") == "7:1 polarized 'M3'");
    CHECK(told("MEASUREMENT_TYPE", "M3") == "7:1 polarized 'M3'");
    CHECK(told("DEVICE_FILTER", "pol") == "7:1 polarized 'pol'");
    for (const char* key : {"OPERATOR", "ORIGINATOR", "BOARD", "SERIAL"})
        for (const char* value : {"Polarized", "M3", "pol", "polarity 3"}) CHECK(told(key, value) == "read");
    for (const char* value : {"none", "No", "unpolarized", "off"}) CHECK(told("DEVICE_FILTER", value) == "read");
}
