#include "foretone/material/companions.hpp"

#include <catch2/catch.hpp>
#include <set>

#include "foretone/material/figures.hpp"

using namespace foretone::material;

TEST_CASE("every companion is a figure of its kind, and none is its own") {
    for (const auto& row : kinds()) {
        Material m{"x", row.kind, "x", "", blank(row.kind), {}};
        std::set<std::string> keys;
        for (const auto& f : all_figures(m)) keys.insert(f.key.substr(0, f.key.find('.')));
        for (const auto& pair : companions(m.data)) {
            INFO(row.word << ": " << pair.key << " with " << pair.with);
            CHECK(keys.count(std::string(pair.key)) == 1);
            CHECK(keys.count(std::string(pair.with)) == 1);
            CHECK(pair.key != pair.with);
            CHECK(pair.why.size() > 20);
        }
    }
}

TEST_CASE("what is given at one wavelength goes with how it changes with the wavelength") {
    for (const auto& row : kinds()) {
        Material m{"x", row.kind, "x", "", blank(row.kind), {}};
        for (const auto& f : all_figures(m)) {
            if (f.key.find("_exponent") == std::string::npos) continue;
            INFO(row.word << ": " << f.key);
            bool paired = false;
            for (const auto& pair : companions(m.data)) paired = paired || pair.with == f.key;
            CHECK(paired);
        }
    }
}

TEST_CASE("no pair is named twice") {
    for (const auto& row : kinds()) {
        std::set<std::pair<std::string_view, std::string_view>> seen;
        for (const auto& pair : companions(blank(row.kind))) CHECK(seen.insert({pair.key, pair.with}).second);
    }
}
