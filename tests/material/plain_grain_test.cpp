/// The grain of a wood that does not state its own.

#include <catch2/catch.hpp>

#include <set>

#include "foretone/material/figures.hpp"

using foretone::material::Mark;

TEST_CASE("a plain grain has every figure within its range, marked practice, with a source and a spread") {
    auto grain = foretone::material::plain_grain();
    const auto all = foretone::material::grain_figures(grain);
    CHECK(all.size() == 36);  // spectra/README.md lists as many, besides the kind of pores
    for (const auto& f : all) {
        INFO(f.key << " = " << f.figure->value);
        CHECK((f.figure->value >= f.low && f.figure->value <= f.high));
        CHECK(f.figure->sd > 0);
        CHECK(f.figure->from.mark == Mark::practice);
        CHECK_FALSE(f.figure->from.source.empty());
        CHECK_FALSE(f.optical);
    }
    CHECK(grain.pores == foretone::material::Pores::diffuse);
    CHECK(grain.pores_from.mark == Mark::practice);
}

TEST_CASE("a plain grain is plain: no ribbon, no specks, pores all through the ring, end grain drinks more than face") {
    const auto g = foretone::material::plain_grain();
    CHECK(g.ribbon_deg.value == 0);
    CHECK(g.speck_per_dm2.value == 0);
    CHECK(g.pore_zone.value == 1);
    CHECK(g.late_abrupt.value < 0.5);
    CHECK(g.end_uptake.value > 1);
    CHECK(g.pore_uptake.value > 1);
    CHECK(g.pore_shade.value > 0);  // an open pore is dark
    CHECK(g.small_pore_um.value <= g.pore_um.value);
}

TEST_CASE("how pores lie has a word each, and units of grain keys are those in their names") {
    const std::set<std::string_view> words(foretone::material::pore_words.begin(),
                                           foretone::material::pore_words.end());
    CHECK(words.size() == 5);
    CHECK(foretone::material::pore_words[static_cast<std::size_t>(foretone::material::Pores::ring)] == "ring-porous");
    CHECK(foretone::material::pore_words[static_cast<std::size_t>(foretone::material::Pores::none)] == "none");
    auto grain = foretone::material::plain_grain();
    const std::pair<const char*, const char*> endings[] = {{"_per_mm2", "1/mm2"}, {"_per_dm2", "1/dm2"},
                                                           {"_per_mm", "1/mm"},   {"_mm", "mm"},
                                                           {"_um", "um"},         {"_deg", "deg"}};
    for (const auto& f : foretone::material::grain_figures(grain)) {
        INFO(f.key);
        std::string due;
        for (const auto& [ending, unit] : endings)
            if (due.empty() && f.key.ends_with(ending)) due = unit;
        CHECK(f.unit == due);
    }
}
