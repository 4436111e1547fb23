// An independent reader and writer of CGATS text: LittleCMS 2.14 (cmsIT8*).

#include <catch2/catch.hpp>

#include <cmath>
#include <memory>

#include <lcms2.h>

#include "foretone/measure/cgats.hpp"
#include "measure/texts.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::measure;
using namespace foretone::test;

namespace {

struct Free {
    void operator()(void* it8) const { cmsIT8Free(it8); }
};
using It8 = std::unique_ptr<void, Free>;

Readings three_stages() {
    Readings in{"CSV", {}, {}, {}};
    for (const char* name : {"bare", "dye, dry", "two coats 3/4\" board"}) {
        Reading r;
        const double level = 0.01 * static_cast<double>(in.readings.size());
        r.name = name;
        r.tags["finish"] = "dye, then lacquer";
        std::vector<double> values;
        for (int nm = 380; nm <= 780; nm += 5) values.push_back(wood_like(nm, level));
        r.reflectance = spectral::Sampled::regular(380, 5, values);
        r.xyz = color::Xyz{30.5, 31.25 + level, 20.125};
        r.lab = color::Lab{62.72, 4.5, 18.25};
        r.light = "D65";
        r.observer = "2deg";
        r.geometry = optics::Geometry::g45_0;
        in.readings.push_back(r);
    }
    return in;
}

std::string saved(void* it8) {
    cmsUInt32Number bytes = 0;
    REQUIRE(cmsIT8SaveToMem(it8, nullptr, &bytes));
    std::string text(bytes, '\0');
    REQUIRE(cmsIT8SaveToMem(it8, text.data(), &bytes));
    return text.substr(0, text.find('\0'));
}

}  // namespace

TEST_CASE("a file that LittleCMS writes is read") {
    for (const bool pairs : {false, true}) {
        const It8 it8(cmsIT8Alloc(nullptr));
        REQUIRE(cmsIT8SetSheetType(it8.get(), "CGATS.17"));
        cmsIT8SetPropertyStr(it8.get(), "ORIGINATOR", "a test");
        cmsIT8SetPropertyStr(it8.get(), "MEASUREMENT_GEOMETRY", "45/0");
        cmsIT8SetPropertyMulti(it8.get(), "WEIGHTING_FUNCTION", "ILLUMINANT", "D50");
        cmsIT8SetPropertyMulti(it8.get(), "WEIGHTING_FUNCTION", "OBSERVER", "2 degree");
        std::vector<std::string> columns = {"SAMPLE_ID", "LAB_L", "LAB_A", "LAB_B"};
        for (int nm = 400; nm <= 700; nm += 20)
            if (pairs)
                columns.insert(columns.end(), {"SPECTRAL_NM", "SPECTRAL_PCT"});
            else
                columns.push_back("SPECTRAL_PCT_" + std::to_string(nm));
        cmsIT8SetPropertyDbl(it8.get(), "NUMBER_OF_FIELDS", static_cast<double>(columns.size()));
        cmsIT8SetPropertyDbl(it8.get(), "NUMBER_OF_SETS", 2);
        for (std::size_t i = 0; i < columns.size(); ++i)
            REQUIRE(cmsIT8SetDataFormat(it8.get(), static_cast<int>(i), columns[i].c_str()));
        for (int row = 0; row < 2; ++row) {
            int column = 0;
            cmsIT8SetDataRowCol(it8.get(), row, column++, row == 0 ? "bare" : "oiled");
            for (const double v : {70.0, 5.5, 20.25}) cmsIT8SetDataRowColDbl(it8.get(), row, column++, v - row);
            for (int nm = 400; nm <= 700; nm += 20) {
                if (pairs) cmsIT8SetDataRowColDbl(it8.get(), row, column++, nm);
                cmsIT8SetDataRowColDbl(it8.get(), row, column++, 100 * wood_like(nm, 0.05 * row));
            }
        }
        const auto text = saved(it8.get());
        INFO(text);
        const auto r = read_cgats(text);
        REQUIRE(r.readings.size() == 2);
        for (int row = 0; row < 2; ++row) {
            const auto& one = r.readings[static_cast<std::size_t>(row)];
            CHECK(one.name == (row == 0 ? "bare" : "oiled"));
            CHECK_THAT(one.lab->l, Near(70.0 - row, closed_form));
            CHECK_THAT(one.lab->b, Near(20.25 - row, closed_form));
            CHECK(one.light == "D50");
            CHECK(one.observer == "2deg");
            CHECK(one.geometry == optics::Geometry::g45_0);
            CHECK(one.reflectance->wavelength_nm.size() == 16);
            CHECK_THAT(worst_off(one, 0.05 * row), Near(0, closed_form));
        }
    }
}

TEST_CASE("a file that is written here is read by LittleCMS") {
    const auto in = three_stages();
    const auto text = write_cgats(in, {"Foretone", "three stages", "2026-03-02", {"invented values"}});
    const It8 it8(cmsIT8LoadFromMem(nullptr, text.data(), static_cast<cmsUInt32Number>(text.size())));
    REQUIRE(it8);
    CHECK(std::string(cmsIT8GetSheetType(it8.get())) == "CGATS.17");
    CHECK(std::string(cmsIT8GetProperty(it8.get(), "ILLUMINATION_NAME")) == "D65");
    CHECK(cmsIT8GetPropertyDbl(it8.get(), "OBSERVER_ANGLE") == 2);
    CHECK(cmsIT8GetPropertyDbl(it8.get(), "NUMBER_OF_SETS") == 3);
    double worst = 0;
    for (std::size_t i = 0; i < in.readings.size(); ++i) {
        const auto& r = in.readings[i];
        const std::string id = std::to_string(i + 1);
        std::string name = r.name;
        if (i == 2) name = "two coats 3/4' board";  // a quote within a name is written as '
        CHECK(std::string(cmsIT8GetData(it8.get(), id.c_str(), "SAMPLE_NAME")) == name);
        CHECK(std::string(cmsIT8GetData(it8.get(), id.c_str(), "FINISH")) == "dye, then lacquer");
        CHECK_THAT(cmsIT8GetDataDbl(it8.get(), id.c_str(), "LAB_L"), Near(r.lab->l, 0.5e-4 + identity));
        CHECK_THAT(cmsIT8GetDataDbl(it8.get(), id.c_str(), "XYZ_Y"), Near(r.xyz->y, 0.5e-4 + identity));
        for (std::size_t k = 0; k < r.reflectance->value.size(); ++k) {
            const std::string column = "SPECTRAL_NM_" + std::to_string(380 + 5 * k);
            worst = worst_of(
                worst, std::abs(cmsIT8GetDataDbl(it8.get(), id.c_str(), column.c_str()) - r.reflectance->value[k]));
        }
    }
    CHECK_THAT(worst, Near(0, 0.5e-6 + identity));  // six decimals
}

TEST_CASE("what LittleCMS makes of a file written here is read back the same") {
    const auto text = write_cgats(three_stages(), {"Foretone", "", "", {}});
    const It8 it8(cmsIT8LoadFromMem(nullptr, text.data(), static_cast<cmsUInt32Number>(text.size())));
    REQUIRE(it8);
    cmsIT8DefineDblFormat(it8.get(), "%.8g");
    const auto again = read_cgats(saved(it8.get()));
    const auto direct = read_cgats(text);
    REQUIRE(again.readings.size() == direct.readings.size());
    for (std::size_t i = 0; i < again.readings.size(); ++i) {
        CHECK(again.readings[i].name == direct.readings[i].name);
        CHECK(again.readings[i].light == direct.readings[i].light);
        CHECK(again.readings[i].reflectance->value == direct.readings[i].reflectance->value);
    }
}
