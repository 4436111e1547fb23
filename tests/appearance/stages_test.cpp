#include <catch2/catch.hpp>

#include "foretone/appearance/stages.hpp"
#include "schedule/small_materials.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;
using optics::Geometry;

namespace {

schedule::Step use(const std::string& id, int coats) {
    schedule::Step s;
    s.mix = {{id, schedule::Amount::parts, 1}};
    s.coats = coats;
    return s;
}

std::vector<std::string> words(const Stages& s) {
    std::vector<std::string> out;
    for (const auto& stage : s.stages) out.emplace_back(word(stage.kind));
    return out;
}

}  // namespace

TEST_CASE("a dye is seen damp and dry, a film coat by coat, and the last stage is the finished one") {
    const schedule::Finish finish{"test", {use("stock", 1), use("varnish", 3)}};
    const auto s = stages(small_materials(), "wood", finish, Geometry::g45_0, two_flux_solver());
    CHECK(words(s) == std::vector<std::string>{"bare", "damp", "dry", "coated", "coated", "finished"});
    CHECK(s.stages[4].after_step == 2);
    CHECK(s.stages[4].coat == 2);
    CHECK(s.stages[5].film_um > s.stages[4].film_um);
    REQUIRE(s.notes.size() == 1);  // the amount of dye was not said
    CHECK(s.notes[0].substr(0, 7) == "step 1:");
}

TEST_CASE("the step at fault is told") {
    const schedule::Finish finish{"test", {use("varnish", 1), use("nothing", 1)}};
    int step = -5;
    CHECK_THROWS_AS(stages(small_materials(), "wood", finish, Geometry::g45_0, two_flux_solver(), &step),
                    schedule::Fault);
    CHECK(step == 1);
}
