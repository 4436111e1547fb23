#include "foretone/material/grain.hpp"

#include <catch2/catch.hpp>
#include <set>

#include "foretone/material/figures.hpp"

using namespace foretone::material;

TEST_CASE("the plain grain is whole: every figure has a value in its range, a spread, and says it is practice") {
    auto grain = plain_grain();
    std::set<std::string> keys;
    for (const auto& f : grain_figures(grain)) {
        INFO(f.key);
        CHECK(keys.insert(f.key).second);
        REQUIRE(f.figure);
        CHECK(f.figure->value >= f.low);
        CHECK(f.figure->value <= f.high);
        CHECK(f.sd() > 0);
        CHECK(f.from().mark == Mark::practice);
        CHECK_FALSE(f.from().source.empty());
    }
    CHECK(keys.size() == 36);
    CHECK(grain.pores_from.mark == Mark::practice);
}

TEST_CASE("the figures of a grain are those of its wood under grain., and move no mean color") {
    Material m{"x", Kind::wood, "x", "", blank(Kind::wood), {}};
    const auto without = figures(m).size();
    std::get<Wood>(m.data).grain = plain_grain();
    std::size_t grains = 0;
    for (const auto& f : figures(m))
        if (f.key.starts_with("grain.")) {
            ++grains;
            CHECK_FALSE(f.optical);
        }
    CHECK(grains == 36);
    CHECK(figures(m).size() == without + grains);
}

TEST_CASE("a grain from memory does not weaken what the color rests on") {
    Material m{"x", Kind::wood, "x", "", blank(Kind::wood), {}};
    auto& wood = std::get<Wood>(m.data);
    for (const auto& f : figures(m)) f.from().mark = Mark::measured;
    wood.grain = plain_grain();
    wood.grain->ring_mm.from.mark = Mark::memory;
    CHECK(weakest(m) == Mark::measured);
}

TEST_CASE("each way the pores lie has one word") {
    std::set<std::string_view> words(pore_words.begin(), pore_words.end());
    CHECK(words.size() == pore_words.size());
    CHECK(pore_words[static_cast<std::size_t>(Pores::ring)] == "ring-porous");
    CHECK(pore_words[static_cast<std::size_t>(Pores::resin)] == "resin-canals");
    CHECK(pore_words[static_cast<std::size_t>(Pores::none)] == "none");
}
