#include <catch2/catch.hpp>

#include <cmath>

#include "foretone/appearance/spread.hpp"
#include "foretone/material/figures.hpp"
#include "schedule/shelf.hpp"
#include "support/standards.hpp"
#include "support/tolerance.hpp"

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

const std::vector<color::Weights> d65 = {color::make_weights(light("D65"), observer("2deg"))};

}  // namespace

TEST_CASE("a dye is seen damp and dry, a film coat by coat, and the last stage is the finished one") {
    const schedule::Finish finish{"test", {use("stock", 1), use("varnish", 3)}};
    const auto s = stages(small_shelf(), "wood", finish, Geometry::g45_0, two_flux_solver());
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
    CHECK_THROWS_AS(stages(small_shelf(), "wood", finish, Geometry::g45_0, two_flux_solver(), &step), schedule::Fault);
    CHECK(step == 1);
}

TEST_CASE("without spreads on the shelf only the hand's spread is left") {
    const schedule::Finish finish{"test", {use("varnish", 1)}};
    const auto s = spread(small_shelf(), "wood", finish, Geometry::g45_0, two_flux_solver(), d65);
    REQUIRE(s.contributions.size() == 1);
    CHECK(s.contributions[0].what == "step 1 wet film");
    CHECK(s.de00[0][0] == 0);  // bare wood rests on no film
    CHECK(s.de00[1][0] > 0);
}

TEST_CASE("spreads add in squares, largest first") {
    auto shelf = small_shelf();
    auto& wood = std::get<material::Wood>(shelf.at("wood").data);
    wood.reflectance.sd = 0.1;
    wood.surface_k2.sd = 0.05;
    const schedule::Finish finish{"test", {use("varnish", 2)}};
    const auto s = spread(shelf, "wood", finish, Geometry::g45_0, two_flux_solver(), d65);
    REQUIRE(s.contributions.size() == 3);
    double sum = 0;
    for (std::size_t i = 0; i < 3; ++i) {
        sum += s.contributions[i].de00 * s.contributions[i].de00;
        if (i > 0) CHECK(s.contributions[i].de00 <= s.contributions[i - 1].de00);
    }
    CHECK_THAT(s.de00.back()[0], Near(std::sqrt(sum), closed_form));
}

TEST_CASE("a result rests on the weakest mark it uses, and says whose") {
    auto shelf = small_shelf();
    for (auto& [id, m] : shelf)
        for (const auto& f : material::figures(m)) f.from().mark = material::Mark::published;
    const schedule::Finish finish{"test", {use("varnish", 1)}};
    CHECK(spread(shelf, "wood", finish, Geometry::g45_0, two_flux_solver(), d65).rests_on == material::Mark::published);
    std::get<material::Binder>(shelf.at("varnish").data).stay.from.mark = material::Mark::memory;
    std::get<material::Binder>(shelf.at("oil").data).stay.from.mark = material::Mark::memory;  // not used here
    const auto s = spread(shelf, "wood", finish, Geometry::g45_0, two_flux_solver(), d65);
    CHECK(s.rests_on == material::Mark::memory);
    CHECK(s.weakest == std::vector<std::string>{"varnish"});
}
