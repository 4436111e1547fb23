#include "foretone/color/closeness.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

using namespace foretone::color;

TEST_CASE("closeness to a target is said by its thresholds, each belonging to the worse verdict") {
    CHECK(closeness(0) == "as good as the target");
    const std::string_view words[] = {"as good as the target", "near the target", "off the target",
                                      "far from the target"};
    for (std::size_t i = 0; i < closeness_de00.size(); ++i) {
        CHECK(closeness(std::nextafter(closeness_de00[i], 0)) == words[i]);
        CHECK(closeness(closeness_de00[i]) == words[i + 1]);
    }
    CHECK(closeness(100) == "far from the target");
}

TEST_CASE("a difference that is not a number is never called near") {
    CHECK(closeness(std::numeric_limits<double>::quiet_NaN()) == "far from the target");
}
