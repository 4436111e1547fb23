#include "foretone/scene/edit.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <functional>

#include "foretone/scene/scene.hpp"
#include "foretone/scene/text_file.hpp"
#include "support/replaced.hpp"

using namespace foretone::scene;
using foretone::test::replaced;

namespace {

const std::string stool = R"(# At the very top.
format = 1
title = "Stool" # said aside

[look]
lights = ["D65", "A"]

[wood]
use = "hard-maple"   # from the yard

# The plain one.
[[finish]]
name = "clear only"
  [[finish.step]]
  use = "waterborne-acrylic"
  coats = 3 # thin ones
  method = "brush"

# The bold one.
[[finish]]
name = "dyed"
  # first
  [[finish.step]]
  mix = [ { use = "honey-dye", parts = 4 }, { use = "water", parts = 45 } ] # weak
  wet_g_per_m2 = 65
  # then
  [[finish.step]]
  use = "orange-shellac"
  cut_lb = 1.5

[prices]
currency = "EUR"
)";

SceneText edited() { return SceneText(stool, "stool.toml"); }

std::string id_of(const std::function<void()>& f) {
    try {
        f();
    } catch (const InputError& e) {
        return e.problems.front().id;
    }
    return "";
}

}  // namespace

TEST_CASE("a value is replaced where it stands and nothing else moves") {
    auto s = edited();
    s.set(0, 0, "coats", {2.0});
    CHECK(s.text() == replaced(stool, "coats = 3 # thin", "coats = 2 # thin"));
    s = edited();
    s.set("title", {std::string("A \"fine\" stool\n")});
    CHECK(s.text() == replaced(stool, "\"Stool\"", R"("A \"fine\" stool\n")"));
    s = edited();
    s.set("wood", "use", {std::string("ash")});
    CHECK(s.text() == replaced(stool, "\"hard-maple\"", "\"ash\""));
    s = edited();
    s.set_part(1, 0, 1, "parts", {22.5});
    CHECK(s.text() == replaced(stool, "parts = 45", "parts = 22.5"));
    s = edited();
    s.set("look", "lights", {std::vector<Written>{{std::string("LED-4000")}}});
    CHECK(s.text() == replaced(stool, "[\"D65\", \"A\"]", "[\"LED-4000\"]"));
}

TEST_CASE("a key that is not there goes below the others of its table, as far in as they are") {
    auto s = edited();
    s.set(1, 1, "coats", {2.0});
    CHECK(s.text() == replaced(stool, "  cut_lb = 1.5\n", "  cut_lb = 1.5\n  coats = 2\n"));
    s = edited();
    s.set(0, "wet_place", {true});
    CHECK(s.text() == replaced(stool, "name = \"clear only\"\n", "name = \"clear only\"\nwet_place = true\n"));
    s = edited();
    s.set_part(1, 0, 1, "g", {2.0});
    CHECK(s.text() == replaced(stool, "parts = 45 }", "parts = 45, g = 2 }"));
    s = edited();
    s.set("target", "finish", {std::string("dyed")});
    CHECK(s.text() == replaced(stool, "# The plain one.\n", "[target]\nfinish = \"dyed\"\n\n# The plain one.\n"));
}

TEST_CASE("a key at the top goes below the others there, above what is said of the first table") {
    const auto commented = replaced(stool, "[look]\n", "# How it is seen.\n\n# Two lights.\n[look]\n");
    SceneText s(commented, "stool.toml");
    s.set("notes", {std::string("one\ntwo")});
    CHECK(s.text() == replaced(commented, "# said aside\n", "# said aside\nnotes = \"one\\ntwo\"\n"));
    s.remove("notes");
    CHECK(s.text() == commented);
    s.remove("notes");
    CHECK(s.text() == commented);
    SceneText lines(replaced(stool, "# said aside\n", "\nnotes = \"\"\"\n# 1\n\n[two]\"\"\"\n"), "stool.toml");
    CHECK(read_scene_text(lines.text(), "t.toml", ".", foretone::scene::Library()).notes == "# 1\n\n[two]");
    lines.remove("notes");
    CHECK(lines.text().find("[two]") == std::string::npos);
}

TEST_CASE("a key that is new at the top never goes into a text that ends with what looks like a comment") {
    const std::string text =
        "format = 1\nnotes = \"\"\"\nNo gloss.\n# two coats at most\"\"\"\n\n[wood]\nlike = \"cherry\"\n";
    SceneText s(text, "s.toml");
    s.set("title", {std::string("Chest")});
    CHECK(s.text() == replaced(text, "[wood]", "title = \"Chest\"\n[wood]"));
}

TEST_CASE("a key is taken out with its line, in an inline table with its comma") {
    auto s = edited();
    s.remove(0, 0, "coats");
    CHECK(s.text() == replaced(stool, "  coats = 3 # thin ones\n", ""));
    s.remove(0, 0, "coats");
    CHECK(s.text() == replaced(stool, "  coats = 3 # thin ones\n", ""));
    s = edited();
    s.replace("prices", {});
    CHECK(s.text() == replaced(stool, "[prices]\ncurrency = \"EUR\"\n", ""));
}

TEST_CASE("steps are added, taken off and moved with the comments above them") {
    auto s = edited();
    s.add_step(0, 1, {{"use", {std::string("paste-wax")}}, {"coats", {1.0}}});
    CHECK(s.text() == replaced(stool, "  method = \"brush\"\n",
                               "  method = \"brush\"\n  [[finish.step]]\n  use = \"paste-wax\"\n  coats = 1\n"));
    s = edited();
    s.add_step(1, 0, {{"use", {std::string("tung")}}});
    CHECK(s.text() == replaced(stool, "  # first\n", "  [[finish.step]]\n  use = \"tung\"\n  # first\n"));
    s = edited();
    s.remove_step(1, 1);
    CHECK(s.text() == replaced(stool, "  # then\n  [[finish.step]]\n  use = \"orange-shellac\"\n  cut_lb = 1.5\n", ""));
    s = edited();
    s.move_step(1, 1, 0);
    const std::string then = "  # then\n  [[finish.step]]\n  use = \"orange-shellac\"\n  cut_lb = 1.5\n";
    const auto moved = s.text();
    CHECK(moved.find(then + "  # first\n") != std::string::npos);
    CHECK(moved.size() == stool.size());
    s.move_step(1, 0, 1);
    CHECK(s.text() == stool);
}

TEST_CASE("finishes are added after the last, copied under another name and taken out with their comments") {
    auto s = edited();
    s.add_finish("oil", {{{"use", {std::string("tung")}}}});
    CHECK(s.text() == replaced(stool, "  cut_lb = 1.5\n",
                               "  cut_lb = 1.5\n\n[[finish]]\nname = \"oil\"\n  [[finish.step]]\n  use = \"tung\"\n"));
    s = edited();
    s.copy_finish(0, "clear again");
    CHECK(s.text().find("[[finish]]\nname = \"clear again\"\n  [[finish.step]]\n  use = \"waterborne-acrylic\"\n  "
                        "coats = 3 # thin ones\n") != std::string::npos);
    s.remove_finish(2);
    s.remove_finish(0);
    CHECK(s.text().find("# The bold one.\n[[finish]]\nname = \"dyed\"") != std::string::npos);
    CHECK(s.text().find("clear") == std::string::npos);
    CHECK(s.text().find("[prices]\ncurrency") != std::string::npos);
}

TEST_CASE("texts with letters beyond ASCII and Windows line ends are changed in the right place") {
    SceneText s(
        "format = 1\r\n[[finish]]\r\nname = \"Eiche — geräuchert\" # ä\r\n  [[finish.step]]\r\n  mix = [ { use = "
        "\"ä\", parts = 3 } ]\r\n",
        "e.toml");
    s.set_part(0, 0, 0, "parts", {4.0});
    CHECK(s.text().find("{ use = \"ä\", parts = 4 } ]\r\n") != std::string::npos);
    s.set(0, "name", {std::string("Öl")});
    CHECK(s.text().find("name = \"Öl\" # ä\r\n") != std::string::npos);
}

TEST_CASE("a text is written so that it reads back the same, whatever is in it") {
    const std::string hostile = "</script>\"\\\n\t\x01 ' = [x] # \xC3\xA4";
    SceneText s("format = 1\n[[finish]]\nname = \"x\"\n", "h.toml");
    s.set(0, "name", {hostile});
    SceneText again(s.text(), "h.toml");
    again.set(0, "name", {std::string("x")});
    CHECK(again.text() == "format = 1\n[[finish]]\nname = \"x\"\n");
    CHECK(toml_text({0.1 + 0.2}) == "0.30000000000000004");
    CHECK(toml_text({std::vector<Written>{{WrittenTable{{"use", {std::string("a")}}, {"rest", {true}}}}}}) ==
          "[ { use = \"a\", rest = true } ]");
}

TEST_CASE("what is not there, or is written so that it cannot be changed in place, is refused with an id") {
    CHECK(id_of([] { edited().set(7, "name", {std::string("x")}); }) == "edit-place");
    CHECK(id_of([] { edited().set(0, 4, "coats", {1.0}); }) == "edit-place");
    CHECK(id_of([] { edited().add_step(0, 9, {}); }) == "edit-place");
    CHECK(id_of([] {
              SceneText("format = 1\nfinish = [ { name = \"x\", step = [ { use = \"tung\" } ] } ]\n", "i.toml")
                  .remove_step(0, 0);
          }) == "edit-place");
    CHECK(id_of([] { SceneText("format = ", "i.toml").set("title", {std::string("x")}); }) == "toml-syntax");
}

TEST_CASE("every demo scene keeps its colors when a step is added and taken off again") {
    const Library library;
    for (const auto& item : std::filesystem::directory_iterator(FORETONE_SCENES)) {
        if (item.path().extension() != ".toml") continue;
        INFO(item.path().filename().string());
        const auto text = read_text(item.path());
        SceneText s(text, "scene.toml");
        const auto before = read_scene_text(text, "scene.toml", item.path().parent_path(), library);
        for (std::size_t i = 0; i < before.finishes.size(); ++i) {
            const auto steps = before.finishes[i].steps.size();
            s.add_step(i, steps, {{"use", {std::string("paste-wax")}}});
            const auto more = read_scene_text(s.text(), "scene.toml", item.path().parent_path(), library);
            CHECK(more.finishes[i].steps.size() == steps + 1);
            s.remove_step(i, steps);
        }
        CHECK(s.text() == text);
    }
}
