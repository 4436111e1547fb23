/// How a fault is said: its place, its neighbours, its numbers.

#include "scene/faults.hpp"

using namespace foretone;
using foretone::scene::InputError;
using foretone::scene::Place;

TEST_CASE("a place is told as far as it is known") {
    CHECK(Place{"a.toml", 12, 3}.text() == "a.toml:12:3");
    CHECK(Place{"a.toml"}.text() == "a.toml");
    CHECK(Place{}.text().empty());
}

TEST_CASE("an error tells every problem on a line of its own: place, words, id") {
    const InputError e({{"one-id", {"a.toml", 2, 1}, "first"}, {"other-id", {"b.csv"}, "second"}});
    CHECK(std::string(e.what()) == "a.toml:2:1: first [one-id]\nb.csv: second [other-id]");
    CHECK(std::string(InputError("x", {"f", 1, 2}, "t").what()) == "f:1:2: t [x]");
}

TEST_CASE("collected problems are thrown together, and none is no error") {
    scene::Problems problems;
    CHECK(problems.empty());
    CHECK_NOTHROW(problems.raise());
    problems.add("a", {"f", 1, 1}, "x");
    problems.add("b", {"f", 2, 1}, "y");
    CHECK_FALSE(problems.empty());
    const auto found = foretone::test::faults_of([&] { problems.raise(); });
    REQUIRE(found.size() == 2);
    CHECK(found[0].id == "a");
    CHECK(found[1].place.line == 2);
}

TEST_CASE("the nearest choice is the one with the fewest letters to change, a part of a word before all") {
    const std::vector<std::string> woods = {"hard-maple", "soft-maple", "birch", "beech", "teak"};
    using Words = std::vector<std::string>;
    CHECK(scene::nearest("hard-mapel", woods, 1) == Words{"hard-maple"});
    CHECK(scene::nearest("maple", woods) == Words{"hard-maple", "soft-maple"});  // both hold the word
    CHECK(scene::nearest("beach", woods, 1) == Words{"beech"});
    CHECK(scene::nearest("qqqqqqqqqqqq", woods).empty());
    CHECK(scene::nearest("beech", woods).front() == "beech");
    CHECK(scene::nearest("be", woods, 2).size() <= 2);
    CHECK(scene::nearest("", {}).empty());
}

TEST_CASE("a few choices are told whole, of many the nearest, and of many that are far none") {
    const std::vector<std::string> few = {"wipe", "brush", "spray"};
    CHECK(scene::suggestion("sprey", few) == " Valid: wipe, brush or spray.");
    std::vector<std::string> many;
    for (char c = 'a'; c <= 't'; ++c) many.push_back(std::string(8, c));
    CHECK(scene::suggestion("aaaaaaab", many) == " Did you mean aaaaaaaa?");
    CHECK(scene::suggestion("zzzzzzzz", many).empty());
    many.resize(16);
    CHECK(scene::suggestion("zzzzzzzz", many).find(" Valid: aaaaaaaa, ") == 0);  // no more than 16 are worth a line
    many.resize(8);
    CHECK(scene::suggestion("aaaaaaab", many).find(" Valid: ") == 0);
    many.resize(9, "iiiiiiii");
    many.back() = "iiiiiiii";
    CHECK(scene::suggestion("aaaaaaab", many) == " Did you mean aaaaaaaa?");
}

TEST_CASE("lists of words end in or") {
    CHECK(scene::either({}).empty());
    CHECK(scene::either({"a"}) == "a");
    CHECK(scene::either({"a", "b"}) == "a or b");
    CHECK(scene::either({"a", "b", "c"}) == "a, b or c");
}

TEST_CASE("what is wrong in the syntax is told at its line and column") {
    using foretone::test::scene_faults;
    const auto open = scene_faults("format = 1\ntitle = \"never closed\n");
    REQUIRE(open.size() == 1);
    CHECK(open[0].id == "toml-syntax");
    CHECK(open[0].place.line == 2);
    const auto key = scene_faults("format = 1\n\n  = 5\n");
    REQUIRE(key.size() == 1);
    CHECK(key[0].place.line == 3);
    CHECK(key[0].place.column == 3);
    CHECK(scene_faults(std::string("format = 1\n\xff\xfe = 2\n")).at(0).id == "toml-syntax");
}

TEST_CASE("a key beside the known ones is told in the words of its table, one of another unit as such") {
    using foretone::test::refuses;
    const std::string good =
        "format = 1\n[wood]\nuse = \"ash\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = "
        "\"tung\"\n";
    refuses(good + "cut_kg = 2\n", "unit-unknown", "cut_kg", "the unit must be one of cut_lb");
    refuses(good + "coatss = 2\n", "key-unknown", "coatss", "in [[finish.step]]. Did you mean coats");
    refuses(good + std::string(200, 'k') + " = 2\n", "key-unknown", std::string(200, 'k'),
            "'" + std::string(60, 'k') + "'");
    refuses("wood_kind = 2\n" + good, "key-unknown", "wood_kind", "in the scene.");  // no key of the scene has a unit
}

TEST_CASE("a percentage where a fraction is due is told as one, other numbers only by their range") {
    const std::string own =
        "format = 1\n[wood]\nuse = \"ash\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = "
        "\"tung\"\n[material.mine]\nkind = \"film\"\nstay = ";
    using foretone::test::refuses;
    refuses(own + "45\n", "value-range", "45\n", "a fraction is due (45 % is 0.45)");
    refuses(own + "100\n", "value-range", "100\n", "(100 % is 1)");
    for (const char* beyond : {"101\n", "-3\n"}) {
        const auto found = foretone::test::scene_faults(own + beyond);
        REQUIRE(found.size() == 1);
        CHECK(found[0].text.find("fraction") == std::string::npos);
        CHECK(found[0].text.find("outside 0 to 1") != std::string::npos);
    }
}
