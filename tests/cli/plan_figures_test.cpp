/// `plan`: amounts, waits and costs against one another and against common rules, and the terminal against the JSON.

#include <cmath>
#include <map>

#include "cli/answers.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

const std::string plan_pine = "plan " FORETONE_SCENES "/wash-coat-pine.toml ";

json planned(const std::string& arguments) { return json_answer(plan_pine + arguments); }

double days_of(const std::string& arguments) { return planned("--area 2m2 " + arguments).at("elapsed_days"); }

}  // namespace

TEST_CASE("a plan mixes what its films, area, coats and losses come to") {
    fresh_folder();
    const auto p = planned("--area 2.5m2 --scale 0.0001g --syringe 0.001mL");
    REQUIRE(p.at("steps").size() == 2);
    for (const auto& s : p["steps"]) {
        INFO(s.dump());
        const double used = s.at("wet_um").get<double>() * 2.5 * s.at("coats").get<double>();  // 1 um on 1 m2 is 1 mL
        CHECK(s.at("mix_ml").get<double>() * (1 - s.at("loss").get<double>()) == Approx(used).epsilon(1e-9));
        CHECK(s.at("coverage_m2_per_l").get<double>() * s.at("wet_um").get<double>() == Approx(1000));
        CHECK(s.at("dry_um").get<double>() < s.at("wet_um").get<double>());
        CHECK(s.at("accounts").size() == s.at("coats").get<std::size_t>());
        for (const auto& m : s.at("measures"))
            CHECK(std::abs(m.at("measured").get<double>() - m.at("exact").get<double>()) <= 0.0005 + 1e-12);
    }
}

TEST_CASE("the books of every coat of a plan close") {
    fresh_folder();
    int books = 0;
    const auto p = planned("--area 2.5m2");
    for (const auto& s : p.at("steps"))
        for (const auto& a : s.at("accounts"))
            for (const char* of : {"liquid", "binder", "dye", "pigment"}) {
                const auto& f = a.at(of);
                double sum = 0;
                for (const char* where : {"in", "on", "wiped", "gone"}) {
                    CHECK(f.at(where).get<double>() >= 0);
                    sum += f.at(where).get<double>();
                }
                CHECK(sum == Approx(f.at("laid").get<double>()).margin(1e-9));
                ++books;
            }
    CHECK(books == 16);
}

TEST_CASE("twice the area is twice the mix, whatever unit it is said in") {
    fresh_folder();
    const std::string fine = " --scale 0.0001g --syringe 0.001mL";
    const auto one = planned("--area 1m2" + fine), two = planned("--area 2m2" + fine),
               feet = planned("--area 10.763910417ft2" + fine);
    CHECK(feet.at("area_m2").get<double>() == Approx(1).epsilon(1e-9));
    for (std::size_t s = 0; s < 2; ++s) {
        CHECK(two["steps"][s]["mix_ml"].get<double>() == Approx(2 * one["steps"][s]["mix_ml"].get<double>()));
        CHECK(feet["steps"][s]["mix_ml"].get<double>() == Approx(one["steps"][s]["mix_ml"].get<double>()));
        CHECK(one["steps"][s]["wet_um"] == two["steps"][s]["wet_um"]);
    }
}

TEST_CASE("purchases hold every measure, in whole packs, and cost what the scene's prices say") {
    fresh_folder();
    const auto p = planned("--area 27ft2");
    // The scene's own packs and prices.
    const std::map<std::string, std::pair<double, double>> packs = {
        {"waxed-orange-shellac", {500, 14.5}}, {"waterborne-polyurethane", {946, 32.0}}, {"alcohol", {1000, 8.0}}};
    std::map<std::string, double> measured;
    for (const auto& s : p.at("steps"))
        for (const auto& m : s.at("measures"))
            measured[m.at("material").get<std::string>()] += m.at("measured").get<double>();
    double sum = 0;
    for (const auto& b : p.at("buy")) {
        const auto id = b.at("material").get<std::string>();
        INFO(id);
        REQUIRE(packs.count(id));
        const auto& [size, price] = packs.at(id);
        CHECK(b.at("amount").get<double>() >= measured[id] - 0.5);
        CHECK(b.at("packs") == std::ceil(b.at("amount").get<double>() / size));
        CHECK(b.at("cost").get<double>() == Approx(b.at("packs").get<double>() * price));
        sum += b.at("cost").get<double>();
    }
    CHECK(p.at("cost").at("sum").get<double>() == Approx(sum));
    CHECK(p.at("cost").at("currency") == "EUR");
    CHECK(planned("--area 27m2").at("cost").at("sum").get<double>() > sum);
}

// Common practice, as `drying.hpp` states it: ten degrees colder doubles a wait; above 50 % humidity what dries from
// water takes (1 + damp) and all else (1 + damp/2) times as long.
TEST_CASE("waits follow the air by the rule that is stated, in any unit it is said in") {
    fresh_folder();
    const double usual = days_of("");
    CHECK(days_of("--temp 20C --humidity 50") == usual);
    CHECK(days_of("--temp 10C") == Approx(2 * usual));
    CHECK(days_of("--temp 30C") == Approx(usual / 2));
    CHECK(days_of("--temp 86F") == Approx(usual / 2).epsilon(1e-9));
    CHECK(days_of("--humidity 20") == usual);
    const double damp = days_of("--humidity 100");
    CHECK(damp > 1.5 * usual);
    CHECK(damp < 2 * usual);
    CHECK(days_of("--humidity 75%") == days_of("--humidity 75"));
    CHECK(days_of("--humidity ' 75 '") == days_of("--humidity 75"));
}

TEST_CASE("each coat waits for the one before, and the dates are the hours counted from the start") {
    fresh_folder();
    const auto p = planned("--area 2m2 --start '2028-02-28 23:30'");
    double at = 0;
    const auto& coats = p.at("timeline");
    REQUIRE(coats.size() == 4);
    for (std::size_t i = 0; i < coats.size(); ++i) {
        CHECK(coats[i].at("at_h").get<double>() == Approx(at));
        at += coats[i].at("recoat_earliest_h").get<double>();
        CHECK_FALSE(coats[i].at("before").get<std::string>().empty());
    }
    CHECK(p.at("elapsed_days").get<double>() == Approx(at / 24));
    CHECK(coats[0].at("when") == "2028-02-28 23:30");
    CHECK(coats[1].at("when").get<std::string>().rfind("2028-02-29 ", 0) == 0);  // a leap year
    CHECK(coats[0].at("before").get<std::string>().rfind("sand to the final grit", 0) == 0);
}

TEST_CASE("what a plan prints is its JSON: steps, findings, notes, label") {
    fresh_folder();
    const auto p = planned("--area 2m2");
    const auto said = run(plan_pine + "--area 2m2").out;
    const auto says_it = [&](const std::string& part) { return said.find(part) != std::string::npos; };
    CHECK(says_it("2 m² · 20 °C · 50 % humidity"));
    for (const auto& s : p.at("steps")) CHECK(says_it(s.at("action").get<std::string>()));
    for (const auto& f : p.at("findings")) CHECK(says_it("[" + f.at("id").get<std::string>() + "]"));
    CHECK(p.at("findings").size() >= 1);
    for (const auto& line : p.at("label")) CHECK(says_it("\n  " + line.get<std::string>()));
    for (const auto& n : p.at("notes")) CHECK(says_it("note: " + n.get<std::string>()));
    for (const auto& b : p.at("buy")) CHECK(says_it("  " + b.at("name").get<std::string>() + ": "));
}

TEST_CASE("a plan's options are checked to the bound, each with its range or units") {
    fresh_folder();
    const std::pair<const char*, std::pair<const char*, const char*>> refused[] = {
        {"--area 0.00009m2", {"amount-range", "0.0001 m2"}},
        {"--area 100001m2", {"amount-range", "100000 m2"}},
        {"--area 2m2 --temp 4.9C", {"temperature-range", "between 5 and 40 C"}},
        {"--area 2m2 --temp 104.2F", {"temperature-range", "between 5 and 40 C"}},
        {"--area 2m2 --humidity 100.1", {"humidity-range", "0 to 100 %"}},
        {"--area 2m2 --scale 1001g", {"amount-range", "0.0001 g to 1000 g"}},
        {"--area 2m2 --scale 1mL", {"unit-unknown", "g, kg, oz, lb"}},
        {"--area 2m2 --syringe 1001mL", {"amount-range", "0.001 mL to 1000 mL"}},
        {"--area 2m2 --finish 'wash coat'", {"finish-unknown", "wash coat, waterborne"}},
        {"--area 2m2 --start '2026-02-30 08:00'", {"start-syntax", "2026"}},
        {"--area 2m2 --start '2026-02-28 24:00'", {"start-syntax", "2026"}}};
    for (const auto& [arguments, due] : refused) refused_with(plan_pine + arguments, due.first, due.second);
    CHECK_FALSE(exists("out"));
    for (const char* good : {"--area 0.0001m2 --syringe 0.001mL --scale 0.0001g", "--area 2m2 --temp 5C",
                             "--area 2m2 --temp 104F", "--area 2m2 --humidity 100"}) {
        INFO(good);
        CHECK(run(plan_pine + good).status == 0);
    }
}

TEST_CASE("a coat that is wiped says after how long, in the table as in the JSON") {
    fresh_folder();
    write("tiny.toml", tiny_scene);
    const auto coat = json_answer("plan tiny.toml --area 1m2").at("timeline").at(0);
    CHECK(coat.at("wipe_min") == 15);  // an oil, common practice
    const auto said = run("plan tiny.toml --area 1m2").out;
    const auto row = said.find("step 1 coat 1");
    REQUIRE(row != std::string::npos);
    CHECK(said.substr(row, said.find('\n', row) - row).find("  15 min  ") != std::string::npos);
}
