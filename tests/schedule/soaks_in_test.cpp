// What soaks into bare wood: a dye or an oil does, and no longer once a film former is in the pot.

#include <catch2/catch.hpp>

#include "foretone/schedule/soaks_in.hpp"

using namespace foretone;

namespace {

const material::Materials three_kinds = [] {
    material::Materials out;
    out["dye"].kind = material::Kind::dye;
    out["oil"].kind = material::Kind::oil;
    out["film"].kind = material::Kind::film;
    return out;
}();

schedule::Step step_using(const std::vector<std::string>& parts) {
    schedule::Step step;
    for (const auto& part : parts) step.mix.push_back({part});
    return step;
}

}  // namespace

TEST_CASE("a dye and an oil soak in, a film former does not, nor a dye in one") {
    CHECK(schedule::soaks_in(step_using({"dye"}), three_kinds));
    CHECK(schedule::soaks_in(step_using({"oil"}), three_kinds));
    CHECK_FALSE(schedule::soaks_in(step_using({"film"}), three_kinds));
    CHECK_FALSE(schedule::soaks_in(step_using({"dye", "film"}), three_kinds));
    CHECK_FALSE(schedule::soaks_in(schedule::Step{}, three_kinds));
}

TEST_CASE("a finish soaks in where one of its steps does") {
    const schedule::Finish dyed{"dyed", {step_using({"dye"}), step_using({"film"})}},
        clear{"clear", {step_using({"film"})}};
    CHECK(schedule::soaks_in(dyed, three_kinds));
    CHECK_FALSE(schedule::soaks_in(clear, three_kinds));
}
