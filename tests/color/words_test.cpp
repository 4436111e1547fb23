#include <catch2/catch.hpp>

#include <algorithm>

#include "color/seeded.hpp"
#include "foretone/color/words.hpp"

using namespace foretone::color;
using foretone::test::Seeded;

TEST_CASE("each direction has its word") {
    const Lab oak{65, 7, 20};
    CHECK(describe(oak, {68, 7, 20}) == "lighter");
    CHECK(describe(oak, {62, 7, 20}) == "darker");
    CHECK(describe({65, 0, 0}, {65, 3, 0}) == "redder, more saturated");
    CHECK(describe({65, 3, 0}, {65, 0, 0}) == "greener, less saturated");
    CHECK(describe({65, 0, 0}, {65, 0, 3}) == "yellower, more saturated");
    CHECK(describe({65, 0, 3}, {65, 0, 0}) == "bluer, less saturated");
}

TEST_CASE("the size of a step is said by its thresholds") {
    const Lab oak{65, 7, 20};
    CHECK(describe(oak, {66, 7, 20}) == "slightly lighter");
    CHECK(describe(oak, {65 + word_plain, 7, 20}) == "lighter");
    CHECK(describe(oak, {65 - word_much, 7, 20}) == "much darker");
    CHECK(describe(oak, {55, 10, 21}) == "much darker, redder, slightly yellower, more saturated");
}

TEST_CASE("a hue turn at equal chroma says nothing of saturation") {
    CHECK(describe({65, 7, 20}, {65, 11, 18.11}) == "redder, bluer");
}

TEST_CASE("what cannot be seen is not said, and what is spread thin is") {
    const Lab oak{65, 7, 20};
    CHECK(describe(oak, oak) == "no visible difference");
    CHECK(describe(oak, {65.3, 7.1, 20.1}) == "no visible difference");
    const Lab grey{50, 0, 0}, near{50.45, 0.45, 0.1};
    REQUIRE(delta_e_00(grey, near) >= visible_de00);
    CHECK(describe(grey, near) == "barely different");
}

TEST_CASE("the way back uses the opposite words") {
    Seeded seed(8);
    const auto swapped = [](std::string s) {
        const char* pairs[][2] = {
            {"lighter", "darker"}, {"redder", "greener"}, {"yellower", "bluer"}, {"more saturated", "less saturated"}};
        std::string out;
        while (!s.empty()) {
            bool found = false;
            for (const auto& p : pairs) {
                for (const int i : {0, 1}) {
                    const std::string word = p[i];
                    if (!found && s.rfind(word, 0) == 0) {
                        out += p[1 - i];
                        s.erase(0, word.size());
                        found = true;
                    }
                }
            }
            if (!found) {
                out += s.front();
                s.erase(0, 1);
            }
        }
        return out;
    };
    int wrong = 0;
    for (int i = 0; i < 1000; ++i) {
        const Lab p = seed.lab(), q{p.l + seed.uniform(-6, 6), p.a + seed.uniform(-6, 6), p.b + seed.uniform(-6, 6)};
        if (describe(q, p) != swapped(describe(p, q))) ++wrong;
    }
    CHECK(wrong == 0);
}
