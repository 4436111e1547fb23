// What a shop calls a material is answered by the library's entries that it means; what a Lab lacks is told at once.

#include "foretone/scene/trade_words.hpp"

#include <catch2/catch.hpp>

#include "foretone/scene/scene.hpp"
#include "support/whole_library.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::string told_by_scene(const std::string& wood, const std::string& use) {
    try {
        scene::read_scene_text(
            "format = 1\n[wood]\n" + wood + "\n[[finish]]\nname = \"f\"\n[[finish.step]]\nuse = \"" + use + "\"\n",
            "s.toml", ".", library());
    } catch (const scene::InputError& e) {
        std::string out;
        for (const auto& p : e.problems) out += p.id + ": " + p.text + "\n";
        return out;
    }
    return "read";
}

}  // namespace

TEST_CASE("every entry that a trade word stands for is in the library, and no word is an entry itself") {
    const auto& ids = library().ids();
    std::size_t words = 0;
    for (const char* word : {"danish oil",
                             "oil",
                             "blo",
                             "tung oil",
                             "hardwax",
                             "wax",
                             "poly",
                             "wiping varnish",
                             "spar varnish",
                             "lacquer",
                             "precat",
                             "conversion varnish",
                             "2k",
                             "uv",
                             "waterborne",
                             "shellac",
                             "sanding sealer",
                             "wash coat",
                             "milk paint",
                             "denatured alcohol",
                             "white spirit",
                             "thinner",
                             "maple",
                             "oak",
                             "rock maple",
                             "black walnut",
                             "fir",
                             "scots pine",
                             "fuming",
                             "ebonizing",
                             "bleach",
                             "oxalic",
                             "lye",
                             "grain filler",
                             "lime"}) {
        INFO(word);
        const auto meant = scene::meant_by(word);
        CHECK_FALSE(meant.empty());
        CHECK(std::find(ids.begin(), ids.end(), word) == ids.end());
        for (const auto& id : meant) {
            INFO(id);
            CHECK(std::find(ids.begin(), ids.end(), id) != ids.end());
        }
        ++words;
    }
    CHECK(words == 35);
    CHECK(scene::meant_by("no such thing").empty());
    CHECK(scene::meant_by("").empty());
}

TEST_CASE("case, hyphens and blanks of a trade word do not matter") {
    for (const char* word : {"danish oil", "Danish Oil", "danish-oil", "DANISH_OIL", " danish  oil "})
        CHECK(scene::meant_by(word) == std::vector<std::string>{"oil-varnish-blend", "wipe-on-varnish"});
}

TEST_CASE("a scene that names a trade word is told what a shop means by it; a misspelt name still what is near") {
    CHECK(told_by_scene("use = \"ash\"", "danish oil") ==
          "material-unknown: there is no material 'danish oil'. By that a shop mostly means oil-varnish-blend or "
          "wipe-on-varnish. ('foretone materials' lists all)\n");
    CHECK(told_by_scene("use = \"maple\"", "tung").find("mostly means hard-maple or soft-maple") != std::string::npos);
    CHECK(told_by_scene("use = \"ash\"", "orange-shelac").find("Did you mean orange-shellac") != std::string::npos);
    // Only what may be chosen is named.
    CHECK(scene::material_suggestion("danish oil", {"wipe-on-varnish", "a", "b", "c", "d", "e", "f", "g", "h"}) ==
          " By that a shop mostly means wipe-on-varnish.");
}

TEST_CASE("all that a Lab of the wood lacks is one message; what it has is not asked for again") {
    const std::string lab = "like = \"ash\"\nlab = [70, 5, 20]";
    const auto asked = [&](const std::string& more) { return told_by_scene(lab + more, "tung"); };
    const std::string as_shown =
        ", as the instrument shows them: such as light = \"D65\", observer = \"10deg\", "
        "geometry = \"d/8-included\"\n";
    CHECK(asked("") == "key-missing: a Lab value needs its light, observer and geometry" + as_shown);
    CHECK(asked("\nlight = \"D65\"") == "key-missing: a Lab value needs its observer and geometry" + as_shown);
    CHECK(asked("\nlight = \"D65\"\ngeometry = \"45/0\"") == "key-missing: a Lab value needs its observer" + as_shown);
    CHECK(asked("\nobserver = \"2deg\"\ngeometry = \"45/0\"") == "key-missing: a Lab value needs its light" + as_shown);
    CHECK(asked("\nlight = \"D65\"\nobserver = \"2deg\"").find("a reading needs its geometry") != std::string::npos);
    CHECK(asked("\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"") == "read");
}
