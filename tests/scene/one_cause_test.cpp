// One slip, one message: what only follows from it is not told beside it.

#include <catch2/catch.hpp>

#include "foretone/scene/scene.hpp"
#include "support/demo.hpp"

namespace foretone::scene {
namespace {

std::vector<Problem> found_in(const std::string& text) {
    try {
        read_scene_text("format = 1\ntitle = \"t\"\n" + text, "s.toml", ".", test::library());
    } catch (const InputError& e) {
        return e.problems;
    }
    return {};
}

const std::string maple_wood = "[wood]\nuse = \"hard-maple\"\n";
const std::string house_can = "[material.house]\nkind = \"film\"\nlike = \"oil-varnish\"\ngardner = 10\nn = 1.5\n";
const std::string used_twice =
    "[[finish]]\nname = \"a\"\n[[finish.step]]\nuse = \"house\"\n[[finish]]\nname = \"b\"\n"
    "[[finish.step]]\nuse = \"house\"\n";

std::string exchanged(std::string text, const std::string& from, const std::string& to) {
    return text.replace(text.find(from), from.size(), to);
}

}  // namespace

TEST_CASE("one slip in a scene is one message, at its place, with what was meant") {
    struct Slip {
        std::string text, id, says;
    };
    const Slip slips[] = {
        {maple_wood + exchanged(house_can, "oil-varnish", "oil-varnsh") + used_twice, "material-unknown",
         "Did you mean oil-varnish"},
        {maple_wood + exchanged(house_can, "kind", "knd") + used_twice, "key-missing",
         "'knd' stands there: write kind"},
        {maple_wood + exchanged(house_can, "\"film\"", "\"flim\"") + used_twice, "value-choice", "Did you mean film?"},
        {maple_wood + exchanged(house_can, "[material.", "[materials.") + used_twice, "value-type",
         "is [material.NAME], without s"},
        {maple_wood + house_can + exchanged(exchanged(used_twice, "[[finish]]\nname = \"b\"\n", ""), "name", "nam"),
         "key-unknown", "name"},
        {maple_wood + "[[finish]]\nname = \"a\"\n[[finish.stp]]\nuse = \"tung\"\n", "key-unknown", "step"},
        {maple_wood + "[[finsh]]\nname = \"a\"\n[[finish.step]]\nuse = \"tung\"\n", "key-unknown",
         "Did you mean finish?"},
        {exchanged(maple_wood, "hard-maple", "hard-mapel") + house_can + used_twice, "material-unknown",
         "Did you mean hard-maple"}};
    for (const auto& slip : slips) {
        INFO(slip.text);
        const auto found = found_in(slip.text);
        std::string all;
        for (const auto& p : found) all += p.place.text() + ": " + p.text + " [" + p.id + "]\n";
        INFO(all);
        REQUIRE(found.size() == 1);
        CHECK(found[0].id == slip.id);
        CHECK(found[0].text.find(slip.says) != std::string::npos);
        CHECK(found[0].place.line > 0);
    }
}

TEST_CASE("the same slip in several places is told once, with the other lines") {
    const auto found = found_in(maple_wood +
                                "[[finish]]\nname = \"a\"\n[[finish.step]]\nuse = \"tug\"\n[[finish.step]]\n"
                                "use = \"tug\"\n[[finish.step]]\nuse = \"tug\"\n");
    REQUIRE(found.size() == 1);
    CHECK(found[0].place.line == 8);
    CHECK(found[0].text.find("(also in lines 10 and 12)") != std::string::npos);
}

TEST_CASE("two slips are two messages") {
    CHECK(found_in(maple_wood + "[[finish]]\nname = \"a\"\n[[finish.step]]\nuse = \"tug\"\ncotas = 2\n").size() == 2);
    // An unknown key that is nothing like what is missing hides nothing.
    CHECK(found_in(maple_wood + "[[finish]]\ncolour = \"a\"\n[[finish.step]]\nuse = \"tung\"\n").size() == 2);
}

}  // namespace foretone::scene
