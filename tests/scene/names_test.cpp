/// What results are called: readable, stable, and never two by one name.

#include <catch2/catch.hpp>
#include <algorithm>
#include <random>
#include <set>

#include "foretone/scene/names.hpp"
#include "foretone/scene/scene.hpp"

using namespace foretone::scene;

namespace {

using Words = std::vector<std::string>;

bool all_apart(const Words& words) { return std::set<std::string>(words.begin(), words.end()).size() == words.size(); }

Scene scene_with(const Words& names) {
    Scene s;
    for (const auto& name : names) s.finishes.push_back({name, {}});
    return s;
}

}  // namespace

TEST_CASE("names become file names") {
    CHECK(file_word("Dye, amber Shellac & wax") == "dye-amber-shellac-wax");
    CHECK(file_word("../../etc") == "etc");
    CHECK(file_word(std::string(200, 'a')) == std::string(60, 'a'));
    CHECK(file_word("") == "finish");
    CHECK(file_word("\x1b[31m!") == "31m");
}

TEST_CASE("letters of any script are kept, signs are not") {
    CHECK(file_word("Дуб, масло") == "Дуб-масло");
    CHECK(file_word("胡桃木 – 虫胶") == "胡桃木-虫胶");
    CHECK(file_word("Öl · Wachs“") == "Öl-wachs");
    CHECK(file_word("a\xE2\x80\xAE"
                    "b") == "a-b");            // an override of direction
    CHECK(file_word("\xFF\xFE") == "finish");  // no UTF-8
    // Whole characters up to 60 bytes: 20 of three bytes.
    std::string long_name;
    for (int i = 0; i < 40; ++i) long_name += "木";
    CHECK(file_word(long_name) == long_name.substr(0, 60));
}

TEST_CASE("names that come to one word are told apart, and a name that is its word keeps it") {
    const auto words = file_words({"a b", "a-b", "a b 3", "A.B", "a-b-3"});
    CHECK(words[1] == "a-b");
    CHECK(words[4] == "a-b-3");
    CHECK(words[0].starts_with("a-b-"));
    CHECK(words[3].starts_with("a-b-"));
    CHECK(all_apart(words));
    CHECK(file_words({"Dye, wax", "oil"}) == Words{"dye-wax", "oil"});  // no checksum where none is needed
    CHECK(all_apart(file_words({"!", "?", "…", "finish"})));
    CHECK(file_words({"x", "x", "x"}) == Words{"x", "x-2", "x-3"});
}

TEST_CASE("a name's word does not depend on the order of the others") {
    Words names = {"a b", "a-b", "a b 3", "A B", "a  b", "木", "дуб", "a b!", "match"};
    const auto words = file_words(names, {"match"});
    std::mt19937 seeded(3);
    for (int i = 0; i < 20; ++i) {
        Words shuffled = names;
        std::shuffle(shuffled.begin(), shuffled.end(), seeded);
        const auto again = file_words(shuffled, {"match"});
        for (std::size_t k = 0; k < names.size(); ++k) {
            const auto at = std::find(names.begin(), names.end(), shuffled[k]) - names.begin();
            CHECK(again[k] == words[static_cast<std::size_t>(at)]);
        }
    }
    CHECK(std::count(words.begin(), words.end(), "match") == 0);
}

TEST_CASE("names of every kind at random stay apart") {
    std::mt19937 seeded(11);
    const Words letters = {"a", "b", " ", "-", ".", "3", "A", "ж", "木", "…"};
    std::set<std::string> names;
    while (names.size() < 400) {
        std::string name;
        for (unsigned n = 1 + seeded() % 4; n > 0; --n) name += letters[seeded() % letters.size()];
        names.insert(name);
    }
    CHECK(all_apart(file_words({names.begin(), names.end()})));
}

TEST_CASE("a finish has no word that another result of its scene bears") {
    const auto words =
        finish_words(scene_with({"dye", "dye pair", "match", "Coats", "sheet A4", "dye D65", "dye card"}));
    CHECK(words.at("dye") == "dye");
    CHECK(words.at("bare") == "bare");
    for (const char* taken : {"match", "coats", "sheet-a4", "dye-pair", "dye-d65", "dye-card"})
        for (const auto& [name, word] : words) {
            INFO(name << " is " << word);
            CHECK(word != taken);
        }
}

TEST_CASE("results begin with their scene's own name") {
    CHECK(file_stem("jobs/Stool maple.toml") == "Stool maple");
    CHECK(file_stem("стул.toml") == "стул");
    CHECK(file_stem("-rf.toml") != "-rf");
    CHECK(file_stem("a\x1b[1m.toml").find('\x1b') == std::string::npos);
    CHECK(file_stem(std::string(200, 'x') + "1.toml").size() < 70);
    CHECK(file_stem(std::string(200, 'x') + "1.toml") != file_stem(std::string(200, 'x') + "2.toml"));
}
