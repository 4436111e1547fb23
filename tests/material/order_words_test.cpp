/// Facts of the trade: how sure they are, what is known of a material, and the sentences that are printed.

#include <catch2/catch.hpp>

#include <set>

#include "foretone/material/order.hpp"

using foretone::material::Mark;
using foretone::material::Order;
using foretone::material::Sure;

TEST_CASE("how sure a fact is has one word each, reads back, and the weaker of two wins from either side") {
    const Sure all[] = {Sure::published, Sure::practice, Sure::stated, Sure::conflicting};
    std::set<std::string_view> words;
    for (const auto a : all) {
        CHECK(foretone::material::sure_from(foretone::material::word(a)) == a);
        CHECK(words.insert(foretone::material::word(a)).second);
        for (const auto b : all) {
            const auto weaker = foretone::material::weaker(a, b);
            CHECK(weaker == foretone::material::weaker(b, a));
            CHECK(weaker == (a > b ? a : b));
        }
    }
    CHECK(foretone::material::word(Sure::conflicting) == "conflicting");
    CHECK_FALSE(foretone::material::sure_from("memory"));  // a figure's mark, not a fact's
    CHECK_FALSE(foretone::material::sure_from(""));
    CHECK_FALSE(foretone::material::sure_from("Published"));
}

TEST_CASE("a figure is as sure as its mark: printed, practice, or only said") {
    for (const auto mark : {Mark::measured, Mark::published, Mark::computed, Mark::fitted})
        CHECK(foretone::material::sure_of(mark) == Sure::published);
    CHECK(foretone::material::sure_of(Mark::practice) == Sure::practice);
    CHECK(foretone::material::sure_of(Mark::stated) == Sure::stated);
    CHECK(foretone::material::sure_of(Mark::memory) == Sure::stated);
}

TEST_CASE("a rule can judge a material by what lifts it, what it does not hold on to, or its wax; by nothing else") {
    CHECK_FALSE(Order{}.known());
    Order lifted;
    lifted.redissolved_by.emplace();  // an empty list is knowledge too: nothing lifts it
    CHECK(lifted.known());
    Order loose;
    loose.sticks_not_to["wax"] = {true, Sure::practice, "x"};
    CHECK(loose.known());
    Order waxed;
    waxed.holds_wax.emplace();
    CHECK(waxed.known());
    Order only_waits;
    only_waits.cure_days.emplace();
    only_waits.recoat_early_h.emplace();
    only_waits.cautions = {"vapor"};
    CHECK_FALSE(only_waits.known());
}

TEST_CASE("every caution has a sentence of its own, whole and on one line; a word that is none is refused by name") {
    std::set<std::string_view> texts;
    const auto check = [&](std::string_view word) {
        INFO(word);
        const auto text = foretone::material::caution_text(word);
        CHECK(texts.insert(text).second);
        REQUIRE(text.size() > 20);
        CHECK(text.back() == '.');
        CHECK((text.front() >= 'A' && text.front() <= 'Z'));
        CHECK(text.find('\n') == std::string_view::npos);
        CHECK(text.find("  ") == std::string_view::npos);
    };
    for (const auto w : foretone::material::caution_words) check(w);
    for (const auto w : foretone::material::standing_cautions) check(w);
    CHECK(texts.size() == 17);
    CHECK_THROWS_WITH(foretone::material::caution_text("oily-rag"), Catch::Contains("'oily-rag'"));
    CHECK_THROWS_AS(foretone::material::caution_text(""), std::invalid_argument);
}

TEST_CASE("each caution says what its word warns of") {
    const std::pair<const char*, const char*> due[] = {{"oily-rags", "catch fire"},   {"flammable", "no flames"},
                                                       {"vapor", "respirator"},       {"dust", "mask"},
                                                       {"colorant", "dichromates"},   {"isocyanate", "sensitise"},
                                                       {"data-sheet", "comes first"}, {"voc-waste", "local rule"},
                                                       {"food-toy", "EN 71-3"},       {"sample", "one board"},
                                                       {"local-codes", "local codes"}};
    for (const auto& [word, says] : due) {
        INFO(word);
        CHECK(foretone::material::caution_text(word).find(says) != std::string_view::npos);
    }
}

TEST_CASE("of two marks the weaker is what a result rests on, in the order the library's guide prints") {
    // spectra/README.md: measured, published, computed, fitted, practice, memory, from strong to weak; stated between
    // practice and memory.
    const Mark order[] = {Mark::measured, Mark::published, Mark::computed, Mark::fitted,
                          Mark::practice, Mark::stated,    Mark::memory};
    for (std::size_t i = 0; i < 7; ++i)
        for (std::size_t j = 0; j < 7; ++j) {
            CHECK(foretone::material::weaker(order[i], order[j]) == order[std::max(i, j)]);
            static_assert(foretone::material::weaker(Mark::practice, Mark::memory) == Mark::memory);
        }
    CHECK_FALSE(foretone::material::mark_from(""));
    CHECK_FALSE(foretone::material::mark_from("Measured"));
}
