// Each kind of change in words, with its figures; and a recipe in every unit it can be said in.

#include <catch2/catch.hpp>

#include <set>

#include "foretone/search/correct.hpp"
#include "foretone/search/words.hpp"
#include "search/small_space.hpp"

using namespace foretone;
using namespace foretone::test;
using schedule::Amount;
using Kind = search::Change::Kind;

namespace {

schedule::Finish three_steps() {
    schedule::Step dye, seal, top;
    dye.mix = {{"honey-dye", Amount::parts, 1}, {"water", Amount::parts, 9}};
    seal.mix = {{"orange-shellac", Amount::parts, 1}};
    seal.cut_lb = 2;
    seal.method = material::Method::spray;
    top.mix = {{"waterborne-acrylic", Amount::parts, 1}};
    top.coats = 2;
    top.wet_um = 100;
    top.sheen_gu60 = 25;
    return {"", {dye, seal, top}, false};
}

// The sentence of a change of one step, made by `edit`.
template <class Edit>
std::string sentence_of(Kind kind, std::size_t step, const std::string& material, double amount, Edit edit) {
    static const auto materials = materials_for("hard-maple");
    const auto before = three_steps();
    search::Change c;
    c.kind = kind, c.step = step, c.material = material, c.amount = amount;
    c.finish = before;
    edit(c.finish);
    return search::sentence(c, before, materials);
}

}  // namespace

TEST_CASE("a change is said as what to do, with the step, the figure as it becomes and as it was") {
    const auto none = [](schedule::Finish&) {};
    CHECK(sentence_of(Kind::strength, 0, "honey-dye", 0.5, [](auto& f) { f.steps[0].mix[1].value = 19; }) ==
          "step 1: dilute the dye to 50 % of its strength: honey-dye 1 + water 19");
    CHECK(sentence_of(Kind::strength, 0, "honey-dye", 2, [](auto& f) { f.steps[0].mix[1].value = 4; }) ==
          "step 1: strengthen the dye to 200 % of its strength: honey-dye 1 + water 4");
    CHECK(sentence_of(Kind::coats, 2, "waterborne-acrylic", 3, [](auto& f) { f.steps[2].coats = 3; }) ==
          "step 3: 3 coats of waterborne-acrylic instead of 2");
    CHECK(sentence_of(Kind::coats, 2, "waterborne-acrylic", 1, [](auto& f) { f.steps[2].coats = 1; }) ==
          "step 3: 1 coat of waterborne-acrylic instead of 2");
    CHECK(sentence_of(Kind::coats, 1, "orange-shellac", 0, [](auto& f) { f.steps.erase(f.steps.begin() + 1); }) ==
          "leave out step 2 (orange-shellac)");
    CHECK(sentence_of(Kind::cut, 1, "orange-shellac", 1.25, none) ==
          "step 2: orange-shellac at a 1.25-lb cut instead of 2");
    CHECK(sentence_of(Kind::film, 2, "waterborne-acrylic", 0.8, [](auto& f) { f.steps[2].wet_um = 80; }) ==
          "step 3: lay waterborne-acrylic thinner: 80 µm wet instead of 100");
    CHECK(sentence_of(Kind::film, 2, "waterborne-acrylic", 1.2, [](auto& f) { f.steps[2].wet_um = 120; }) ==
          "step 3: lay waterborne-acrylic heavier: 120 µm wet instead of 100");
    CHECK(sentence_of(Kind::sheen, 2, "waterborne-acrylic", 10, none) == "step 3: 10 gloss units instead of 25");
}

TEST_CASE("a touch is told in drops for a pot, of a powder in grams a litre") {
    const auto touch = [](const std::string& id, double amount) {
        return sentence_of(Kind::touch, 0, id, amount, [&](auto& f) {
            f.steps[0].mix.push_back({id, Amount::parts, 0.1});
        });
    };
    // 20 drops a millilitre, a pot of 100 mL: a share of 0.01 is 1 mL, 20 drops.
    const std::string line = ": honey-dye 1 + water 9 + russet-dye 0.1";
    CHECK(touch("russet-dye", 0.01) == "step 1: a touch of russet-dye, about 20 drops in 100 mL" + line);
    CHECK(touch("russet-dye", 0.0005) == "step 1: a touch of russet-dye, about 1 drop in 100 mL" + line);
    CHECK(touch("russet-dye", 0.0004) == "step 1: a touch of russet-dye, under a drop in 100 mL" + line);
    CHECK(touch("russet-dye", 0.001) == "step 1: a touch of russet-dye, about 2 drops in 100 mL" + line);
    CHECK(touch("solvent-red-24", 0.1234) ==
          "step 1: a touch of solvent-red-24, 0.12 g/L: honey-dye 1 + water 9 + solvent-red-24 0.1");
}

TEST_CASE("every kind of change has its word, and no two the same") {
    std::set<std::string_view> words;
    for (const auto kind : {Kind::strength, Kind::coats, Kind::cut, Kind::film, Kind::touch, Kind::sheen})
        words.insert(search::word(kind));
    CHECK(words == std::set<std::string_view>{"strength", "coats", "cut", "film", "touch", "sheen"});
    CHECK(search::word(Kind::touch) == "touch");
    CHECK(search::word(Kind::sheen) == "sheen");
}

TEST_CASE("a mixing line says every unit as the scene does, and a step's amounts behind it") {
    const auto line = [](std::vector<schedule::Part> mix) {
        schedule::Step s;
        s.mix = std::move(mix);
        return search::mixing_line({"", {s}, false});
    };
    CHECK(line({{"a", Amount::parts_weight, 2}, {"b", Amount::percent_volume, 3.5}}) ==
          "a 2 by weight + b 3.5 % by volume");
    CHECK(line({{"a", Amount::percent_weight, 1}, {"b", Amount::rest, 1}}) == "a 1 % by weight + b");
    CHECK(line({{"a", Amount::ml, 12}, {"b", Amount::g, 0.5}, {"c", Amount::drops, 7}}) ==
          "a 12 mL + b 0.5 g + c 7 drops");
    CHECK(line({{"a", Amount::g_per_l, 4}, {"b", Amount::oz_per_qt, 0.25}}) == "a 4 g/L + b 0.25 oz/qt");
    CHECK(line({{"alone", Amount::ml, 12}}) == "alone");
    schedule::Step s;
    s.mix = {{"x", Amount::parts, 1}};
    s.wet_um = 90;
    s.method = material::Method::roll;
    s.cut_lb = 1.5;
    CHECK(search::mixing_line({"", {s}, false}) == "x 1.5-lb rolled, 90 µm wet");
    s.wet_um.reset(), s.coverage_m2_per_l = 12.5, s.method = material::Method::wipe, s.cut_lb.reset();
    CHECK(search::mixing_line({"", {s, s}, false}) == "x wiped, 12.5 m2/L; x wiped, 12.5 m2/L");
}

TEST_CASE("what is missing is told from half a unit on, and hue only where there is color enough to have one") {
    const color::Lab bare{70, 8, 24};
    const auto told = [&](const color::Lab& target, const color::Lab& nearest) {
        return search::out_of_reach(target, nearest, bare);
    };
    const std::string end = " from the nearest of these recipes";
    CHECK(told({50, 0, 30}, {50, 0, 30}) == "the target is a little off" + end);
    CHECK(told({50.49, 0, 30.49}, {50, 0, 30}) == "the target is a little off" + end);
    CHECK(told({50.5, 0, 30}, {50, 0, 30}) == "the target is 0.5 lighter in L*" + end);
    CHECK(told({49, 0, 29}, {50, 0, 30}) == "the target is 1.0 darker in L* and 1.0 less saturated in C*" + end);
    CHECK(told({50, 30, 0}, {50, 0, 30}) == "the target is 90.0 degrees of hue to the red and purple" + end);
    CHECK(told({50, 0, 1.9}, {50, 1.9, 0}) == "the target is a little off" + end);
    // Over 0 degrees the shorter way is told.
    CHECK(told({50, 30, 2}, {50, 30, -2}).find("7.6 degrees of hue to the yellow and green") != std::string::npos);
    CHECK(told({70.5, 8, 24}, {70, 8, 24}).find("the wood itself") == std::string::npos);
    CHECK(told({71, 8, 24}, {70, 8, 24}).find("the wood itself is 1.0 darker in L* than the target") == 0);
}

TEST_CASE("in US units films are said in mil and coverages in ft²/gal; the usual line is metric") {
    static const auto materials = materials_for("hard-maple");
    constexpr auto us = schedule::UnitSystem::us;
    auto before = three_steps();
    search::Change c;
    c.kind = Kind::film, c.step = 2, c.material = "waterborne-acrylic", c.amount = 0.762;
    c.finish = before;
    c.finish.steps[2].wet_um = 76.2;  // 3 mil
    CHECK(search::sentence(c, before, materials, us) ==
          "step 3: lay waterborne-acrylic thinner: 3 mil wet instead of 3.94 mil");
    CHECK(search::mixing_line(c.finish, us).find(", 3 mil wet") != std::string::npos);
    CHECK(search::mixing_line(c.finish).find(", 76.2 µm wet") != std::string::npos);
    before.steps[2].wet_um.reset();
    before.steps[2].coverage_m2_per_l = 10;
    CHECK(search::mixing_line(before, us).find(", 407 ft²/gal") != std::string::npos);  // 10 · 3.785412/0.09290304
}
