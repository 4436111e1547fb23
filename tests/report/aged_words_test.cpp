/// What light and time make of a finish, in words.

#include "foretone/report/aged_words.hpp"

#include <catch2/catch.hpp>

using namespace foretone;

TEST_CASE("the part that does most of a change is named first, and nothing where nobody sees it") {
    CHECK(report::aged_parts_words({12, 0.1, 0}) == "nearly all of it is the wood");
    CHECK(report::aged_parts_words({0, 2, 0}) == "nearly all of it is the film");
    CHECK(report::aged_parts_words({3, 0.2, 5}) == "most of it is the dye, then the wood");
    CHECK(report::aged_parts_words({0.3, 0.1, 0}) == "no part of it changes to be seen");
}

TEST_CASE("how far pieces may differ is said by the 90 % region of its light") {
    job::SeenAge a;
    for (const double de00 : {0.5, 2.0, 4.0, 9.0}) {
        a.colors.emplace_back();
        a.colors.back().region.de00_90 = de00;
    }
    CHECK(report::aged_spread_words(a, 0) == "boards hardly differ");
    CHECK(report::aged_spread_words(a, 1) == "boards may differ a little");
    CHECK(report::aged_spread_words(a, 2) == "boards may differ plainly");
    CHECK(report::aged_spread_words(a, 3) == "boards may differ a lot");
}
