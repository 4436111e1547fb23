#include <catch2/catch.hpp>
#include <set>
#include <string>

#include "foretone/material/figures.hpp"
#include "foretone/material/material.hpp"

using namespace foretone;
using namespace foretone::material;

TEST_CASE("each kind has one word and one folder, and both read back") {
    std::set<std::string_view> words, folders;
    for (const auto& row : kinds()) {
        CHECK(facts(row.kind).word == row.word);
        CHECK(kind_from(word(row.kind)) == row.kind);
        CHECK(kind_of_folder(row.folder) == row.kind);
        words.insert(row.word);
        folders.insert(row.folder);
    }
    CHECK(words.size() == kinds().size());
    CHECK(folders.size() == kinds().size());
    CHECK_FALSE(kind_from("varnish").has_value());
    CHECK_FALSE(kind_from("Wood").has_value());
    CHECK_FALSE(kind_of_folder("wood").has_value());
}

TEST_CASE("a kind is either the base, a powder, a bare liquid, or a coat that a list can offer") {
    for (const auto& row : kinds()) {
        INFO(row.word);
        const bool coat = row.first_try != FirstTry::none;
        CHECK(int{row.base} + int{row.powder} + int{row.bare_liquid} + int{coat} == 1);
        CHECK_FALSE((row.sinks && row.closes));
        if (row.dissolves) CHECK(row.powder);  // what dissolves is weighed out as a powder
        if (row.powder) CHECK(row.colorant);   // the only powders are for color
        const auto data = blank(row.kind);
        if (row.closes) CHECK((std::holds_alternative<Binder>(data) || std::holds_alternative<Colored>(data)));
    }
}

TEST_CASE("every kind is read into data that has figures, none of them twice, all within a range") {
    for (const auto& row : kinds()) {
        INFO(row.word);
        Material m{"x", row.kind, "x", "", blank(row.kind), {}};
        std::set<std::string> keys;
        for (const auto& f : all_figures(m)) {
            INFO(f.key);
            CHECK(keys.insert(f.key).second);
            CHECK(f.low < f.high);
            CHECK((f.figure == nullptr) != (f.spectrum == nullptr));
        }
        CHECK_FALSE(keys.empty());
    }
}
