#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

const std::string scenes = FORETONE_SCENES;

json answer(const std::string& arguments) {
    const auto r = run("mix " + arguments + " --json -");
    INFO(r.err);
    REQUIRE(r.status == 0);
    return json::parse(r.out);
}

double value(const json& a, const std::string& key) {
    for (const auto& v : a.at("values"))
        if (v.at("key") == key) return v.at("value");
    FAIL("no value " + key);
    return 0;
}

}  // namespace

TEST_CASE("mix answers the figures of the bench, with formulas and cautions") {
    fresh_folder();
    const auto cut = answer("cut 1lb/gal");
    CHECK(value(cut, "g_per_l_alcohol") == Approx(119.826).margin(0.001));  // 453.59237 g / 3.785411784 L
    CHECK(value(cut, "g_per_l_solution") == Approx(108.5).margin(0.05));    // shellac_pound_cut.csv
    CHECK(cut.at("formulas").size() >= 3);
    CHECK(cut.at("cautions").size() >= 6);
    CHECK(value(answer("thin 3lb/gal 1lb/gal"), "parts_alcohol") == Approx(1.538).margin(0.001));
    CHECK(value(answer("thin 5lb/gal 3lb/gal --have 300mL"), "alcohol_ml") == Approx(133.3).margin(0.1));
    CHECK(value(answer("powder 1oz/qt"), "g_per_l") == Approx(29.957).margin(0.001));
    CHECK(value(answer("weigh 20drops"), "g") == Approx(0.998));
    CHECK(value(answer("weigh 0.998g"), "drops") == Approx(20));
    CHECK(value(answer("weigh 3parts --part 10mL"), "ml") == Approx(30));
    CHECK(value(answer("ladder 30g/L"), "rung_3_strength") == Approx(7.5));
    CHECK(value(answer("tint 1kg 2%"), "tint_g") == Approx(20));
    CHECK(value(answer("film 1mil --solids 30%"), "coverage_ft2_per_gal") == Approx(1604.17).margin(0.01));
}

TEST_CASE("mix pot rounds a step and says what that does to the color") {
    fresh_folder();
    const std::string pot = "pot " + scenes + "/stool-maple.toml --finish 'dye, shellac, waterborne' --area ";
    const auto small = answer(pot + "0.5m2"), large = answer(pot + "50m2");
    CHECK(value(large, "rounding_dE00_D65") < 0.02);
    CHECK(value(large, "rounding_dE00_D65") < value(small, "rounding_dE00_D65"));
    // 65 g/m2 of a mix of 0.2 % dye on 50 m2, 15 % lost by wiping: 3823 g.
    CHECK(value(large, "total_ml") == Approx(50 * 65 / 0.85).epsilon(0.01));
    CHECK(value(answer("pot " + scenes + "/shelf-pine.toml --volume 500mL --step 1"), "alcohol") > 400);
}

TEST_CASE("mix refuses bad amounts with a message each, and tells bad amounts from wrong usage") {
    fresh_folder();
    const std::pair<const char*, const char*> refused[] = {{"cut -2lb/gal", "[amount-range]"},
                                                           {"cut 2kg/gal", "[unit-unknown]"},
                                                           {"cut 2", "[unit-missing]"},
                                                           {"cut much", "[amount-syntax]"},
                                                           {"cut 99%w-resin", "[cut-range]"},
                                                           {"cut 100%v-resin", "[cut-range]"},
                                                           {"cut 2lb/gal --resin-density 9", "[density-range]"},
                                                           {"thin 1lb/gal 3lb/gal", "[cut-range]"},
                                                           {"powder 5g/L --density 0", "[density-range]"},
                                                           {"weigh 3parts", "[part-missing]"},
                                                           {"ladder 30g/L --ratio 2", "[amount-range]"},
                                                           {"tint 1kg 100%", "[amount-range]"},
                                                           {"film 0mil", "[amount-range]"}};
    for (const auto& [arguments, id] : refused) {
        INFO(arguments);
        const auto r = run(std::string("mix ") + arguments);
        CHECK(r.status == 1);
        CHECK(r.err.find("error: mix ") == 0);
        CHECK(r.err.find(id) != std::string::npos);
        CHECK(r.out.empty());
    }
    const std::string pot = "mix pot " + scenes + "/shelf-pine.toml ";
    CHECK(run(pot + "--area -2m2").err.find("[amount-range]") != std::string::npos);
    CHECK(run(pot + "--area 2m2 --step 9").err.find("[step-unknown]") != std::string::npos);
    CHECK(run(pot + "--area 2m2 --finish garnt").err.find("[finish-unknown]") != std::string::npos);
    CHECK(run(pot).err.find("[amount-missing]") != std::string::npos);
    CHECK(run("mix").status == 2);
    CHECK(run("mix cut").status == 2);
    CHECK(run("mix cut 2lb/gal --lot 3").status == 2);
}

TEST_CASE("mix --units lists every unit") {
    const auto units = answer("--units").at("units");
    CHECK(units.size() >= 30);
    CHECK(run("mix --units").out.find("g/L-solution") != std::string::npos);
}

TEST_CASE("cautions are not switched off but by --quiet") {
    fresh_folder();
    CHECK(run("mix cut 2lb/gal --cautions").out.find("EN 71-3 and ASTM F963") != std::string::npos);
    const auto quiet = run("mix cut 2lb/gal --quiet");
    CHECK(quiet.out.empty());
    CHECK(quiet.err.empty());
    CHECK(run("mix cut 2lb/gal --json -").err.find("caution: flammable") == 0);
}
