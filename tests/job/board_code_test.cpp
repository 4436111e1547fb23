// The code on a board's back: which slips it notices, and what it is a code of.

#include <catch2/catch.hpp>

#include <set>
#include <string>

#include "foretone/base/text.hpp"
#include "foretone/job/board_code.hpp"
#include "support/demo.hpp"

namespace foretone::job {
namespace {

const std::string code_signs = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";

scene::Scene coded_stool() {
    return scene::read_scene(std::string(FORETONE_SCENES) + "/stool-maple.toml", test::library());
}

std::string code_fault(const scene::Scene& s, const std::string& code) {
    try {
        finish_of_code(s, code);
    } catch (const scene::InputError& e) {
        return e.problems.at(0).id;
    }
    return "";
}

}  // namespace

TEST_CASE("a code is read back in any case, with blanks or without its hyphen") {
    const auto s = coded_stool();
    std::set<std::string> all;
    for (std::size_t i = 0; i < s.finishes.size(); ++i) {
        const auto code = board_code(s.finishes[i]);
        CHECK(code.size() == 6);
        CHECK(all.insert(code).second);
        CHECK(finish_of_code(s, code) == i);
        CHECK(finish_of_code(s, base::lower(code)) == i);
        CHECK(finish_of_code(s, code.substr(0, 2) + " " + code.substr(2, 2) + code.substr(5)) == i);
    }
}

TEST_CASE("every sign misread and every two signs exchanged are noticed") {
    const auto s = coded_stool();
    const auto code = board_code(s.finishes[0]);
    std::string five = code.substr(0, 4) + code.substr(5);
    int slips = 0;
    for (std::size_t i = 0; i < 5; ++i) {
        for (const char other : code_signs) {
            auto wrong = five;
            wrong[i] = other;
            if (wrong != five) {
                CHECK(code_fault(s, wrong) == "code-slip");
                ++slips;
            }
        }
        for (std::size_t j = 0; j < i; ++j) {
            auto wrong = five;
            std::swap(wrong[i], wrong[j]);
            if (wrong != five) CHECK(code_fault(s, wrong) == "code-slip");
        }
    }
    CHECK(slips == 150);  // five places, thirty other signs each
}

TEST_CASE("a recipe changed in any figure has another code, and the old one is told to be of another recipe") {
    auto s = coded_stool();
    const auto before = board_code(s.finishes[0]);
    const auto changed = [&](auto edit) {
        auto f = s.finishes[0];
        edit(f);
        return board_code(f) != before;
    };
    CHECK(changed([](auto& f) { f.name += "x"; }));
    CHECK(changed([](auto& f) { f.wet_place = !f.wet_place; }));
    CHECK(changed([](auto& f) { f.steps[0].coats += 1; }));
    CHECK(changed([](auto& f) { f.steps[0].sand = 180; }));
    CHECK(changed([](auto& f) { f.steps[0].flood_minutes = 180; }));
    CHECK(changed([](auto& f) { f.steps[0].after_days = 180; }));
    CHECK(changed([](auto& f) { f.steps[0].water_pop = true; }));
    CHECK(changed([](auto& f) { f.steps[0].scuff = true; }));
    CHECK(changed([](auto& f) { f.steps.pop_back(); }));
    s.finishes[0].steps[0].coats += 1;
    CHECK(code_fault(s, before) == "code-unknown");
}

TEST_CASE("what is no code is told what one is") {
    const auto s = coded_stool();
    for (const char* no : {"", "K7QM", "K7QM-44", "K7QM-O", "K1QM-4", "K7QM_4"}) {
        INFO(no);
        CHECK(code_fault(s, no) == "code-syntax");
    }
}

}  // namespace foretone::job
