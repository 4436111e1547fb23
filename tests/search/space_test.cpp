#include <catch2/catch.hpp>

#include <set>

#include "foretone/search/words.hpp"
#include "search/small_space.hpp"

using namespace foretone;
using namespace foretone::test;

TEST_CASE("every dye mix stands once, in least terms, with no more stocks and parts than allowed") {
    const auto materials = materials_for("ash");
    auto choices = small_choices();
    choices.dye->at_once = 3;
    const auto space = search::make_space(choices, materials);
    std::set<std::vector<double>> ratios;  // shares of each stock and of water
    std::size_t mixes = 0;
    for (const auto& mix : space.mixes) {
        if (!mix) continue;
        ++mixes;
        std::vector<double> share = {static_cast<double>(mix->water)};
        int largest = 0;
        for (const auto p : mix->parts) {
            share.push_back(static_cast<double>(p) / mix->total());
            largest = std::max<int>(largest, p);
        }
        CHECK(largest <= 3);
        ratios.insert(share);
    }
    CHECK(ratios.size() == mixes);
    // Computed by counting: 3 alone; 3 pairs with 7 coprime ratios of 1–3; coprime triples of 1–3: 27 − (2,2,2) −
    // (3,3,3) = 25; 4 dilutions.
    CHECK(mixes == (3 + 3 * 7 + 25) * 4);
    CHECK_FALSE(space.mixes.front());
}

TEST_CASE("the size of a space is the number of its recipes, and each can be told") {
    const auto materials = materials_for("ash");
    auto choices = small_choices();
    choices.most_steps = 2;
    const auto space = search::make_space(choices, materials);
    std::uint64_t count = 0;
    int most = 0;
    for (std::size_t w = 0; w < space.ways.size(); ++w)
        for (std::size_t m = 0; m < space.mixes_with(space.ways[w]); ++m, ++count) {
            const std::uint64_t number = w * space.mixes.size() + m;
            most = std::max(most, search::effort(space, number).steps);
            if (static_cast<int>(search::recipe(space, number).steps.size()) != search::effort(space, number).steps)
                most = 99;
        }
    CHECK(most == 2);
    CHECK(count == space.size());
    CHECK_THROWS_AS(search::recipe(space, space.ways.size() * space.mixes.size()), std::out_of_range);
}

TEST_CASE("what must always be used is in every recipe") {
    const auto materials = materials_for("ash");
    auto choices = small_choices();
    choices.dye->always = choices.sealer->always = true;
    const auto space = search::make_space(choices, materials);
    bool all = true;
    for (const auto& mix : space.mixes) all = all && mix;
    for (const auto& way : space.ways) all = all && way.option[1] >= 0 && way.option[2] >= 0;
    CHECK(all);
    choices.most_steps = 2;
    CHECK_THROWS_WITH(search::make_space(choices, materials), Catch::Contains("as few as 2 steps"));
}

TEST_CASE("a space without a topcoat, of two liquids or too large is refused") {
    const auto materials = materials_for("ash");
    auto choices = small_choices();
    choices.topcoat.reset();
    CHECK_THROWS_WITH(search::make_space(choices, materials), Catch::Contains("topcoat"));
    choices = small_choices();
    auto other = materials;
    std::get<material::Stock>(other.at("russet-dye").data).carrier = "alcohol";
    CHECK_THROWS_WITH(search::make_space(choices, other), Catch::Contains("different liquids"));
    choices.dye->use = {"honey-dye", "russet-dye", "umber-dye", "raven-dye"};
    choices.dye->at_once = 4;
    choices.dye->most_parts = 100;
    CHECK_THROWS_WITH(search::make_space(choices, materials), Catch::Contains("dye mixes"));
    choices = small_choices();
    choices.dye->water.clear();
    CHECK_THROWS_AS(search::make_space(choices, materials), std::invalid_argument);
}

TEST_CASE("a recipe reads as it is mixed") {
    const auto materials = materials_for("ash");
    search::Choices c;
    c.dye = search::DyeChoices{{"honey-dye", "russet-dye"}, 2, 3, {9}, 70, true};
    c.sealer = search::CoatChoices{{"orange-shellac"}, {1.5},  {2}, material::Method::spray, {},
                                   {"solvent-red-24"}, {0.02}, true};
    c.topcoat = search::CoatChoices{{"waterborne-acrylic"}, {}, {2}, material::Method::brush, {25}, {}, {}, false};
    const auto space = search::make_space(c, materials);
    std::set<std::string> lines;
    for (std::size_t w = 0; w < space.ways.size(); ++w)
        for (std::size_t m = 0; m < space.mixes.size(); ++m)
            lines.insert(search::mixing_line(search::recipe(space, w * space.mixes.size() + m)));
    CHECK(lines.count(
              "honey-dye 3 + russet-dye 1 + water 36, 70 g/m2; orange-shellac 1.5-lb ×2 sprayed; waterborne-acrylic ×2 "
              "brushed, 25 GU") == 1);
    CHECK(lines.count(
              "honey-dye 1 + water 9, 70 g/m2; orange-shellac + solvent-red-24 0.02 % by weight, 1.5-lb ×2 sprayed; "
              "waterborne-acrylic ×2 brushed, 25 GU") == 1);
    CHECK(lines.size() == space.size());
    CHECK(search::mixing_line({}) == "bare wood");
}

TEST_CASE("why a target is out of reach is said from lightness, chroma and hue") {
    const color::Lab bare{70, 8, 24};
    // Computed by hand from the figures given.
    CHECK(search::out_of_reach({85, 6, 18}, {69, 8, 24}, bare).find("15.0 darker in L* than the target") !=
          std::string::npos);
    CHECK(search::out_of_reach({30, 6, 18}, {40, 6, 18}, bare) ==
          "the target is 10.0 darker in L* from the nearest of these recipes");
    CHECK(search::out_of_reach({50, 0, 40}, {50, 0, 30}, bare) ==
          "the target is 10.0 more saturated in C* from the nearest of these recipes");
    CHECK(search::out_of_reach({50, 0, 40}, {50, 40, 0}, bare).find("90.0 degrees of hue to the yellow") !=
          std::string::npos);
}

TEST_CASE("a dye thinned with as much water again has that water in its recipe; undiluted it has none") {
    const auto materials = materials_for("ash");
    search::Choices c;
    c.dye = search::DyeChoices{{"honey-dye"}, 1, 1, {0, 1, 2}, 70, true};
    c.topcoat = search::CoatChoices{{"waterborne-acrylic"}, {}, {2}, material::Method::brush, {25}, {}, {}, false};
    const auto space = search::make_space(c, materials);
    std::set<std::string> lines;
    for (std::uint64_t n = 0; n < space.size(); ++n) lines.insert(search::mixing_line(search::recipe(space, n)));
    const std::string rest = ", 70 g/m2; waterborne-acrylic ×2 brushed, 25 GU";
    CHECK(lines.count("honey-dye" + rest) == 1);
    CHECK(lines.count("honey-dye 1 + water 1" + rest) == 1);
    CHECK(lines.count("honey-dye 1 + water 2" + rest) == 1);
}

TEST_CASE(
    "mixes are numbered by colorants, then parts, then as their parts count up: shares of a search agree on that") {
    const auto materials = materials_for("ash");
    search::Choices c;
    c.dye = search::DyeChoices{{"honey-dye", "russet-dye", "umber-dye"}, 2, 3, {9}, 70, true};
    c.topcoat = search::CoatChoices{{"waterborne-acrylic"}, {}, {2}, material::Method::brush, {25}, {}, {}, false};
    const auto space = search::make_space(c, materials);
    REQUIRE(space.mixes.size() > 10);
    for (std::size_t i = 1; i < space.mixes.size(); ++i) {
        const auto &p = *space.mixes[i - 1], &q = *space.mixes[i];
        INFO("mix " << i);
        CHECK(std::tuple(p.colorants(), p.total(), p.parts) < std::tuple(q.colorants(), q.total(), q.parts));
    }
    CHECK(space.mixes.front()->parts[2] == 1);  // one part of the last stock alone counts lowest
}
