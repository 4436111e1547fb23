#include "foretone/material/order.hpp"

#include <catch2/catch.hpp>
#include <set>

using namespace foretone::material;

TEST_CASE("each degree of sureness has one word, and it reads back") {
    std::set<std::string_view> words;
    for (const auto sure : {Sure::published, Sure::practice, Sure::stated, Sure::conflicting}) {
        CHECK(sure_from(word(sure)) == sure);
        words.insert(word(sure));
    }
    CHECK(words.size() == 4);
    CHECK_FALSE(sure_from("certain").has_value());
    CHECK(weaker(Sure::published, Sure::conflicting) == Sure::conflicting);
    CHECK(weaker(Sure::practice, Sure::published) == Sure::practice);
}

TEST_CASE("a stronger mark never makes a weaker fact") {
    auto before = Sure::published;
    for (int i = 0; i <= static_cast<int>(Mark::memory); ++i) {
        const auto now = sure_of(static_cast<Mark>(i));
        CHECK(now >= before);
        before = now;
    }
    CHECK(sure_of(Mark::measured) == Sure::published);
    CHECK(sure_of(Mark::practice) == Sure::practice);
    CHECK(sure_of(Mark::memory) == Sure::stated);
}

TEST_CASE("every caution has a sentence of its own, and no other word has one") {
    std::set<std::string_view> texts;
    for (const auto w : caution_words) texts.insert(caution_text(w));
    for (const auto w : standing_cautions) texts.insert(caution_text(w));
    CHECK(texts.size() == caution_words.size() + standing_cautions.size());
    for (const auto text : texts) {
        CHECK(text.size() > 40);
        CHECK(text.back() == '.');
    }
    CHECK_THROWS_AS(caution_text("safe"), std::invalid_argument);
    CHECK_THROWS_AS(caution_text(""), std::invalid_argument);
}

TEST_CASE("the words that must be there: rags catch fire, hardeners are isocyanates, dichromates are never used") {
    CHECK(caution_text("oily-rags").find("fire") != std::string_view::npos);
    CHECK(caution_text("isocyanate").find("licensed") != std::string_view::npos);
    CHECK(caution_text("colorant").find("Never use dichromates") != std::string_view::npos);
}

TEST_CASE("an order without a fact that a rule can judge by is not known") {
    Order order;
    CHECK_FALSE(order.known());
    order.cure_days = Figure{3, 1, {}};
    order.cautions = {"dust"};
    CHECK_FALSE(order.known());
    order.holds_wax = YesNo{false, Sure::practice, "test"};
    CHECK(order.known());
    Order lifted;
    lifted.redissolved_by = Words{{}, Sure::practice, "test"};  // nothing lifts it: that is a fact too
    CHECK(lifted.known());
}
