// Every kind of limit from both sides: told where a recipe lies on it and the next step beyond could be made.

#include <catch2/catch.hpp>

#include "foretone/search/edge.hpp"
#include "search/small_space.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

// One sealer with these choices; every edge that any of its recipes lies on, joined.
std::string edges_of(const search::CoatChoices& sealer, int coats, std::optional<double> cut = {},
                     std::optional<double> sheen = {}) {
    static const auto materials = materials_for("ash");
    search::Choices c;
    c.sealer = sealer;
    c.topcoat = search::CoatChoices{{"waterborne-acrylic"}, {}, {1}, {}, {}, {}, {}, false};
    const auto space = search::make_space(c, materials);
    for (std::uint64_t n = 0; n < space.size(); ++n) {
        const auto f = search::recipe(space, n);
        if (f.steps.size() != 2 || f.steps[0].coats != coats || f.steps[0].cut_lb != cut ||
            f.steps[0].sheen_gu60 != sheen)
            continue;
        std::string out;
        for (const auto& e : search::on_the_edge(c, space, n)) out += e + "\n";
        return out;
    }
    return "no such recipe";
}

search::CoatChoices shellac(std::vector<int> coats, std::vector<double> cuts = {}, std::vector<double> sheens = {}) {
    return {{"orange-shellac"}, std::move(cuts), std::move(coats), {}, std::move(sheens), {}, {}, false};
}

const std::string role = "sealer orange-shellac";

}  // namespace

TEST_CASE("a number of coats is a limit where others are allowed too") {
    CHECK(edges_of(shellac({2, 3, 4}), 3).empty());
    CHECK(edges_of(shellac({2, 3, 4}), 4) == "4 coats of " + role + " is the most allowed: allow more coats\n");
    CHECK(edges_of(shellac({2, 3, 4}), 2) == "2 coats of " + role + " is the fewest allowed: allow fewer coats\n");
    CHECK(edges_of(shellac({1, 2, 3}), 1).empty());  // there are no fewer coats than one
    CHECK(edges_of(shellac({3}), 3).empty());        // one count alone is a choice already made
}

TEST_CASE("a cut is a limit up to what dissolves and down to what still builds") {
    CHECK(edges_of(shellac({1}, {1, 2, 3}), 1, 2.0).empty());
    CHECK(edges_of(shellac({1}, {1, 2, 3}), 1, 3.0) ==
          role + " at a 3-lb cut is the strongest allowed: allow a stronger cut_lb\n");
    CHECK(edges_of(shellac({1}, {1, 2, 3}), 1, 1.0) ==
          role + " at a 1-lb cut is the weakest allowed: allow a weaker cut_lb\n");
    CHECK(edges_of(shellac({1}, {0.25, 6}), 1, 6.0).empty());
    CHECK(edges_of(shellac({1}, {0.25, 6}), 1, 0.25).empty());
    CHECK(edges_of(shellac({1}, {0.3, 5.9}), 1, 5.9).find("strongest") != std::string::npos);
    CHECK(edges_of(shellac({1}, {0.3, 5.9}), 1, 0.3).find("weakest") != std::string::npos);
    CHECK(edges_of(shellac({1}, {2}), 1, 2.0).empty());
}

TEST_CASE("a sheen is a limit at either end of its list") {
    CHECK(edges_of(shellac({1}, {}, {20, 40, 60}), 1, {}, 40.0).empty());
    CHECK(edges_of(shellac({1}, {}, {20, 40, 60}), 1, {}, 60.0) ==
          role + " at 60 GU is the glossiest allowed: allow a higher sheen_gu60\n");
    CHECK(edges_of(shellac({1}, {}, {20, 40, 60}), 1, {}, 20.0) ==
          role + " at 20 GU is the dullest allowed: allow a lower sheen_gu60\n");
    CHECK(edges_of(shellac({1}, {}, {40}), 1, {}, 40.0).empty());
}

TEST_CASE("a mix is on the edge by its parts only if it is a mix, and by its dyes only if there are more to take") {
    const auto materials = materials_for("ash");
    search::Choices c;
    c.topcoat = search::CoatChoices{{"waterborne-acrylic"}, {}, {1}, {}, {}, {}, {}, false};
    const auto told = [&](const std::vector<std::string>& dyes, int at_once, std::vector<int> parts) {
        c.dye = search::DyeChoices{dyes, at_once, 3, {4, 9, 19}, 70, true};
        const auto space = search::make_space(c, materials);
        for (std::uint64_t n = 0; n < space.size(); ++n) {
            const auto& mix = *space.mixes[n % space.mixes.size()];
            bool same = mix.water == 9;
            for (std::size_t i = 0; i < parts.size(); ++i) same = same && mix.parts[i] == parts[i];
            if (!same) continue;
            std::string out;
            for (const auto& e : search::on_the_edge(c, space, n)) out += e + "\n";
            return out;
        }
        return std::string("no such mix");
    };
    const std::string parts_edge = "as uneven a mix of dyes as allowed (most_parts = 3): allow more parts\n";
    const std::string dyes_edge = "as many dyes in one mix as allowed (at_once = 2): allow more\n";
    const std::vector<std::string> three = {"honey-dye", "russet-dye", "umber-dye"}, two = {"honey-dye", "russet-dye"};
    CHECK(told(three, 2, {3, 1, 0}) == parts_edge + dyes_edge);
    CHECK(told(three, 2, {2, 1, 0}) == dyes_edge);
    CHECK(told(three, 2, {1, 0, 0}).empty());
    CHECK(told(two, 2, {3, 1}) == parts_edge);  // there is no third dye to take
    CHECK(told(three, 3, {1, 1, 0}).empty());
}
