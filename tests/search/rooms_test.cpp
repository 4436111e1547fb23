// Recipes of stains, glazes and toners: what a space of them holds, and in what order they go on.

#include <catch2/catch.hpp>

#include "foretone/search/edge.hpp"
#include "foretone/search/space.hpp"
#include "support/whole_library.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

search::CoatChoices choice(std::vector<std::string> use) {
    search::CoatChoices c;
    c.use = std::move(use);
    return c;
}

search::Choices every_room() {
    search::Choices c;
    c.stain = choice({"walnut-stain", "honey-stain"});
    c.sealer = choice({"vinyl-sealer"});
    c.glaze = choice({"umber-glaze"});
    c.glaze->remainder = {0.05, 0.1, 0.2};
    c.toner = choice({"amber-toner", "brown-toner"});
    c.toner->passes = {1, 2};
    c.toner->toner_strength = {0.5, 1};
    c.topcoat = choice({"nitrocellulose-lacquer"});
    c.most_steps = 5;
    return c;
}

}  // namespace

TEST_CASE("a space of stains, glazes and toners holds every recipe once") {
    // stains 2 + none, sealer 1 + none, glazes 3 + none, toners 2 · 2 · 2 + none, one topcoat: counted by hand.
    const auto space = search::make_space(every_room(), whole_library());
    CHECK(space.size() == 3 * 2 * 4 * 9);
    auto few = every_room();
    few.most_steps = 2;
    CHECK(search::make_space(few, whole_library()).size() == 1 + 2 + 1 + 3 + 8);
    auto always = every_room();
    always.glaze->always = true;
    CHECK(search::make_space(always, whole_library()).size() == 3 * 2 * 3 * 9);
}

TEST_CASE("stain goes on first, then seal, glaze, toner, topcoat") {
    const auto space = search::make_space(every_room(), whole_library());
    const auto longest = search::recipe(space, space.size() - 1);
    REQUIRE(longest.steps.size() == 5);
    const std::vector<material::Kind> due = {material::Kind::stain, material::Kind::film, material::Kind::glaze,
                                             material::Kind::toner, material::Kind::film};
    for (std::size_t s = 0; s < due.size(); ++s)
        CHECK(whole_library().at(longest.steps[s].mix.front().use).kind == due[s]);
    CHECK(longest.steps[2].remainder);
    CHECK(longest.steps[3].passes);
    CHECK(longest.steps[3].toner_strength);
    CHECK_FALSE(longest.steps[0].passes);
    CHECK(search::effort(space, space.size() - 1).colorants == 3);
}

TEST_CASE("a recipe at the end of a range says which range to widen") {
    const auto choices = every_room();
    const auto space = search::make_space(choices, whole_library());
    const auto edges = search::on_the_edge(choices, space, space.size() - 1);
    std::string all;
    for (const auto& e : edges) all += e + "\n";
    INFO(all);
    CHECK(all.find("remainder") != std::string::npos);
    CHECK(all.find("passes") != std::string::npos);
}
