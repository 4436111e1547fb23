/// Shop arithmetic against figures worked out another way, its round trips, and every refusal.

#include <cmath>

#include "cli/answers.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

json mixed(const std::string& arguments) { return json_answer("mix " + arguments); }
double mixed_value(const std::string& arguments, const std::string& key) { return mix_value(mixed(arguments), key); }

// A pound is 453.59237 g, a US gallon 3.785411784 L, an ounce a sixteenth of a pound, a quart a quarter gallon.
constexpr double pound_g = 453.59237, gallon_l = 3.785411784;

}  // namespace

TEST_CASE("a cut said in any unit is the same cut") {
    fresh_folder();
    const auto first = mixed("cut 2.5lb/gal");
    const std::pair<const char*, const char*> ways[] = {{"g_per_l_alcohol", "g/L-alcohol"},
                                                        {"g_per_l_solution", "g/L-solution"},
                                                        {"weight_percent", "%w-resin"},
                                                        {"volume_percent", "%v-resin"}};
    for (const auto& [key, unit] : ways) {
        std::ostringstream said;
        said.precision(15);
        said << mix_value(first, key) << unit;
        INFO(said.str());
        CHECK(mixed_value("cut " + said.str(), "lb_per_gal") == Approx(2.5).epsilon(1e-9));
    }
}

TEST_CASE("a cut's weights and volumes add up to what is weighed and poured") {
    fresh_folder();
    for (const double resin : {1.02, 1.15}) {
        const auto a = mixed("cut 2lb/gal --volume 1L --resin-density " + std::to_string(resin));
        const double g = mix_value(a, "resin_g"), ml = mix_value(a, "alcohol_ml");
        CHECK(g / resin + ml == Approx(1000).epsilon(1e-5));                   // resin and alcohol fill the litre
        CHECK(g / ml * 1000 == Approx(2 * pound_g / gallon_l).epsilon(1e-5));  // and are a 2-lb cut
        CHECK(mix_value(a, "g_per_l_solution") == Approx(g).epsilon(1e-5));
        CHECK(mix_value(a, "volume_percent") == Approx(100 * g / resin / 1000).epsilon(1e-5));
        CHECK(mix_value(a, "weight_percent") == Approx(100 * g / (g + 0.789 * ml)).epsilon(1e-4));
    }
}

TEST_CASE("thinning says parts, for what is at hand and for what is wanted alike") {
    fresh_folder();
    const double parts = mixed_value("thin 3lb/gal 1.5lb/gal", "parts_alcohol");
    CHECK(parts == Approx((3 / 1.5 - 1) / (1 + 0.3)).epsilon(1e-9));  // the rule of thumb that the answer prints
    const auto have = mixed("thin 3lb/gal 1.5lb/gal --have 400mL");
    CHECK(mix_value(have, "alcohol_ml") == Approx(400 * parts));
    CHECK(mix_value(have, "total_ml") == Approx(400 * (1 + parts)));
    const auto make = mixed("thin 3lb/gal 1.5lb/gal --make 1L");
    CHECK(mix_value(make, "mix_ml") + mix_value(make, "alcohol_ml") == Approx(1000));
    CHECK(mix_value(make, "alcohol_ml") / mix_value(make, "mix_ml") == Approx(parts));
    CHECK(mixed_value("thin 2lb/gal 2lb/gal", "parts_alcohol") == Approx(0).margin(1e-12));
    // By the resin's density a part of a 3-lb cut holds 1/(1 + v) of alcohol, v its resin's volume a volume of alcohol.
    const double v = 3 * pound_g / gallon_l / 1000 / 1.15;
    CHECK(mixed_value("thin 3lb/gal 1.5lb/gal", "parts_alcohol_by_density") == Approx((2 - 1) / (1 + v)).epsilon(1e-6));
}

TEST_CASE("a powder's strength is the same in every unit") {
    fresh_folder();
    const auto a = mixed("powder 30g/L --volume 250mL");
    CHECK(mix_value(a, "powder_g") == Approx(7.5));
    CHECK(mix_value(a, "percent_weight_volume") == Approx(3));
    CHECK(mix_value(a, "percent_weight") == Approx(100 * 30 / (30 + 998.0)).epsilon(1e-9));
    CHECK(mix_value(a, "oz_per_qt") == Approx(30 / (pound_g / 16 / (gallon_l / 4))).epsilon(1e-9));
    CHECK(mixed_value("powder 3%w/v", "g_per_l") == Approx(30));
    CHECK(mixed_value("powder 2.91829%", "g_per_l") == Approx(30).epsilon(1e-5));
    CHECK(mixed_value("powder 1oz/gal", "g_per_l") == Approx(pound_g / 16 / gallon_l).epsilon(1e-9));
    CHECK(mixed_value("powder 3% --density 0.8", "g_per_l") == Approx(800 * 0.03 / 0.97).epsilon(1e-9));
}

TEST_CASE("drops, parts, volumes and weights go into one another by density") {
    fresh_folder();
    CHECK(mixed_value("weigh 15mL --density 0.8", "g") == Approx(12));
    CHECK(mixed_value("weigh 12g --density 0.8", "ml") == Approx(15));
    CHECK(mixed_value("weigh 40drops", "ml") == Approx(2));  // 20 drops a mL, as the answer says
    CHECK(mixed_value("weigh 3parts --part 5g --density 0.8", "g") == Approx(15));
    CHECK(mixed_value("weigh 3parts --part 5g --density 0.8", "ml") == Approx(18.75));
    CHECK(mixed_value("weigh 30mL --part 10mL", "parts") == Approx(3));
    CHECK(mixed_value("weigh 1floz", "ml") == Approx(gallon_l * 1000 / 128).epsilon(1e-9));
}

TEST_CASE("each rung of a ladder is its ratio of the one before, stock and liquid filling the jar") {
    fresh_folder();
    const auto a = mixed("ladder 40g/L --rungs 4 --ratio 0.25 --volume 200mL");
    double strength = 40;
    for (int count_of_coats = 1; count_of_coats <= 4; ++count_of_coats, strength *= 0.25) {
        const std::string at = "rung_" + std::to_string(count_of_coats);
        CHECK(mix_value(a, at + "_strength") == Approx(strength));
        CHECK(mix_value(a, at + "_stock_ml") == Approx(200 * strength / 40));
        CHECK(mix_value(a, at + "_stock_ml") + mix_value(a, at + "_liquid_ml") == Approx(200));
    }
    CHECK(a.at("values").size() == 12);
    CHECK(mixed("ladder 40g/L").at("values").size() == 15);  // five rungs if not said
    CHECK(mixed_value("ladder 40g/L", "rung_1_stock_ml") == Approx(100));
}

TEST_CASE("tint and finish weigh what was asked for together") {
    fresh_folder();
    const auto a = mixed("tint 2lb 2.5%");
    CHECK(mix_value(a, "tint_g") == Approx(2 * pound_g * 0.025));
    CHECK(mix_value(a, "tint_g") + mix_value(a, "finish_g") == Approx(2 * pound_g));
    CHECK(mixed_value("tint 1kg 0%", "tint_g") == 0);
}

TEST_CASE("a wet film and its coverage are one figure, and dry is its solids' share") {
    fresh_folder();
    for (const std::string said : {"100um", "10m2/L", "3.93700787mil"}) {
        const auto a = mixed("film " + said + " --solids 35%");
        INFO(said);
        CHECK(mix_value(a, "wet_um") == Approx(100).epsilon(1e-6));
        CHECK(mix_value(a, "wet_mil") == Approx(100 / 25.4).epsilon(1e-6));
        CHECK(mix_value(a, "coverage_m2_per_l") == Approx(10).epsilon(1e-6));
        // 1 m2/L = gallon in litres over a square foot in square metres.
        CHECK(mix_value(a, "coverage_ft2_per_gal") == Approx(10 * gallon_l / (0.3048 * 0.3048)).epsilon(1e-6));
        CHECK(mix_value(a, "wet_ml_per_m2") == Approx(100).epsilon(1e-6));
        CHECK(mix_value(a, "dry_um") == Approx(35).epsilon(1e-6));
    }
    const auto film = mixed("film 100um");
    for (const auto& v : film.at("values")) CHECK(v.at("key") != "dry_um");
}

TEST_CASE("a pot is as large as asked, or as the area needs with its loss") {
    fresh_folder();
    write("tiny.toml", tiny_scene);
    const auto pot = mixed("pot tiny.toml --volume 250mL");
    CHECK(mix_value(pot, "tung") == Approx(250).margin(0.5));
    CHECK(mix_value(pot, "total_ml") == Approx(250).margin(0.5));
    const double one = mixed_value("pot tiny.toml --area 1m2 --syringe 0.01mL", "total_ml"),
                 ten = mixed_value("pot tiny.toml --area 10m2 --syringe 0.01mL", "total_ml");
    CHECK(ten / one == Approx(10).epsilon(1e-3));
    CHECK(mixed_value("pot tiny.toml --area 10.7639104ft2 --syringe 0.01mL", "total_ml") == Approx(one).epsilon(1e-4));
    const auto rough = mixed("pot tiny.toml --volume 101mL --syringe 20mL");
    CHECK(mix_value(rough, "tung") == Approx(100));  // the nearest whole step of the syringe
}

TEST_CASE("every answer has a title, formulas and the cautions that always stand") {
    fresh_folder();
    for (const std::string command : {"cut 2lb/gal", "thin 3lb/gal 1lb/gal", "powder 5g/L", "weigh 20drops",
                                      "ladder 30g/L", "tint 1kg 2%", "film 4mil"}) {
        INFO(command);
        const auto a = mixed(command);
        CHECK_FALSE(a.at("title").get<std::string>().empty());
        CHECK_FALSE(a.at("formulas").empty());
        std::vector<std::string> ids;
        for (const auto& c : a.at("cautions")) {
            ids.push_back(c.at("id").get<std::string>());
            CHECK_FALSE(c.at("text").get<std::string>().empty());
        }
        const std::vector<std::string> standing = {"data-sheet", "voc-waste", "food-toy", "sample", "local-codes"};
        REQUIRE(ids.size() >= standing.size());
        CHECK(std::vector<std::string>(ids.end() - 5, ids.end()) == standing);
        const auto said = run("mix " + command);
        for (const auto& f : a.at("formulas"))
            CHECK(said.out.find("formula: " + f.get<std::string>()) != std::string::npos);
    }
}

TEST_CASE("amounts that cannot be are refused by the sub-command that read them, with its range or its units") {
    fresh_folder();
    write("tiny.toml", tiny_scene);
    const std::pair<std::string, std::pair<std::string, std::string>> refused[] = {
        {"cut 0lb/gal", {"cut-range", "mix cut: "}},
        {"cut 1lb/gal --resin-density 0.5", {"density-range", "0.6 to 2 g/mL"}},
        {"cut 1lb/gal --alcohol-density 1.3", {"density-range", "0.6 to 1.2 g/mL"}},
        {"cut 1lb/gal --volume 0mL", {"amount-range", "mix cut: "}},
        {"cut 1lb/gal --volume 2g", {"unit-unknown", "mix cut: "}},
        {"thin 1lb/gal 2lb/gal", {"cut-range", "cannot be thinned to"}},
        {"thin 3lb/gal 1lb/gal --have 1L --make 1L", {"amount-twice", "not both"}},
        {"powder 0g/L", {"amount-range", "0.0001 to 2000 g/L"}},
        {"powder 2001g/L", {"amount-range", "0.0001 to 2000 g/L"}},
        {"powder 5g/L --density 4", {"density-range", "0.5 to 3 g/mL"}},
        {"weigh 3parts", {"part-missing", "--part 10mL"}},
        {"weigh 3parts --part 5m2", {"unit-unknown", "mix weigh: "}},
        {"weigh 2000L", {"amount-range", "more than 1000 L"}},
        {"ladder 30g/L --rungs 0", {"amount-range", "mix ladder: "}},
        {"ladder 2lb/gal --volume 1m2", {"unit-unknown", "mix ladder: "}},
        {"tint 0g 2%", {"amount-range", "mix tint: "}},
        {"tint 1kg -1%", {"amount-range", "mix tint: "}},
        {"film 6000um", {"amount-range", "0.1 to 5000 µm"}},
        {"film 100um --solids 101%", {"amount-range", "mix film: "}},
        {"film 2L", {"unit-unknown", "mix film: "}},
        {"pot tiny.toml", {"amount-missing", "--area 2.5m2 or --volume 500mL"}},
        {"pot tiny.toml --area 1m2 --step 0", {"step-unknown", "has steps 1 to 1"}},
        {"pot tiny.toml --area 1m2 --step 2", {"step-unknown", "--step 2: \"oiled\" has steps 1 to 1"}},
        {"pot tiny.toml --area 1m2 --finish waxed", {"finish-unknown", "Valid: oiled."}},
        {"pot tiny.toml --area 1m2 --scale 0g", {"amount-range", "--scale: "}},
        {"pot tiny.toml --area 1m2 --syringe 1g", {"unit-unknown", "--syringe: "}}};
    for (const auto& [arguments, due] : refused) refused_with("mix " + arguments, due.first, due.second);
    CHECK(run("mix pot tiny.toml --area 1m2 --volume 1L").status == 2);  // said twice
    CHECK(run("mix stir 1L").status == 2);
    CHECK(run("mix tint 1kg").status == 2);
}

TEST_CASE("every unit that is listed is of a known sort, with a meaning, each once") {
    const auto units = mixed("--units").at("units");
    std::set<std::string> names;
    for (const auto& u : units) {
        INFO(u.dump());
        CHECK(names.insert(u.at("unit").get<std::string>()).second);
        CHECK_FALSE(u.at("of").get<std::string>().empty());
        CHECK_FALSE(u.at("meaning").get<std::string>().empty());
    }
    const auto said = run("mix --units").out;
    for (const auto& name : names) CHECK(said.find("\n" + name + " ") != std::string::npos);
}
