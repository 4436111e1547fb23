/// The longest recipes: dye, stain, oil, sealer, glaze, toner and topcoat, with tints.

#include <catch2/catch.hpp>

#include "foretone/scene/library.hpp"
#include "foretone/search/engine.hpp"
#include "support/whole_library.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

search::CoatChoices only(const std::string& id) {
    search::CoatChoices c;
    c.use = {id};
    return c;
}

}  // namespace

TEST_CASE("recipes of seven steps and of the most colorants are kept like any other") {
    search::Best best(2);
    const int most = static_cast<int>(search::most_stocks + 2 * search::rooms);
    CHECK(best.limit(search::longest_recipe, most) == std::numeric_limits<double>::infinity());
    best.offer(search::longest_recipe, most, {0.5, 7});
    best.offer(1, 0, {1.5, 3});
    REQUIRE(best.closest(10).size() == 2);
    CHECK(best.closest(10).front().number == 7);
    search::Best other(2);
    other.merge(best);
    CHECK(other.front() == best.front());
    CHECK(other.front().size() == 2);
}

TEST_CASE("a space with every room is examined to its longest recipe") {
    const auto& materials = whole_library();
    search::Choices c;
    c.most_steps = search::longest_recipe;
    c.dye = search::DyeChoices{{"honey-dye"}, 1, 1, {60}, 70, false};
    c.stain = only("walnut-stain"), c.oil = only("tung"), c.sealer = only("vinyl-sealer"),
    c.glaze = only("umber-glaze"), c.toner = only("brown-toner"), c.topcoat = only("nitrocellulose-lacquer");
    c.topcoat->tint = {"solvent-red-24"}, c.topcoat->tint_percent = {0.1};
    const auto space = search::make_space(c, materials);
    REQUIRE(space.size() == 128);  // six rooms that may be left out, and two ways to the topcoat
    const auto solver = appearance::two_flux_solver();
    const std::vector<color::Weights> weights = {
        color::make_weights(library().illuminant("D65"), library().observer("2deg"))};
    const search::Engine engine(space, {materials, "white-oak", optics::Geometry::g45_0, solver},
                                search::aim_at(spectral::Spectrum::constant(0.15), {"D65"}, weights));
    search::Best best(200);
    CHECK(engine.examine(0, space.ways.size(), best, [] { return true; }) == space.ways.size());
    CHECK(best.closest(1000).size() == space.size());
    CHECK(search::effort(space, space.size() - 1).steps == search::longest_recipe);
}
