/// Changing a scene's text: seeded edits against a fresh reading, and every way a key can stand.

#include "foretone/scene/edit.hpp"

#include <random>

#include "scene/faults.hpp"

using namespace foretone;
using namespace foretone::test;
using foretone::scene::SceneText;
using foretone::scene::WrittenTable;

namespace {

SceneText text_of(const std::string& text) { return SceneText(text, "e.toml"); }
scene::Written words(const char* text) { return {std::string(text)}; }

const std::string two_finishes =
    "format = 1\n[wood]\nuse = \"ash\"\n\n# first\n[[finish]]\nname = \"a\"\n"
    "[[finish.step]]\nuse = \"tung\"\n[[finish.step]]\nuse = \"oil-varnish\"\ncoats = 2\n\n"
    "# second\n[[finish]]\nname = \"b\"\n[[finish.step]]\nuse = \"paste-wax\"\n";

std::vector<scene::Problem> refused_edit(const std::string& text, const std::function<void(SceneText&)>& edit) {
    SceneText s(text, "e.toml");
    const auto found = faults_of([&] { edit(s); });
    CHECK(s.text() == text);  // nothing half changed
    return found;
}
void edit_place(const std::string& text, const std::function<void(SceneText&)>& edit, const std::string& says) {
    INFO(text);
    const auto found = refused_edit(text, edit);
    REQUIRE(found.size() == 1);
    CHECK(found[0].id == "edit-place");
    CHECK(found[0].place.file == "e.toml");
    CHECK(found[0].text.find(says) != std::string::npos);
}

/// Finishes as names and steps, from the text as anyone reads it.
std::vector<std::pair<std::string, std::vector<std::string>>> reading_of(const std::string& text) {
    std::vector<std::pair<std::string, std::vector<std::string>>> out;
    for (const auto& f : scene_from(text).finishes) {
        out.push_back({f.name, {}});
        for (const auto& s : f.steps) out.back().second.push_back(s.mix[0].use);
    }
    return out;
}

}  // namespace

TEST_CASE("a hundred seeded changes keep the text and a list of finishes in step") {
    const char* const materials[] = {"tung", "oil-varnish", "paste-wax", "waterborne-acrylic", "boiled-linseed"};
    std::mt19937 seeded(2);
    auto s = text_of(two_finishes);
    auto model = reading_of(two_finishes);
    for (int i = 0; i < 100; ++i) {
        const std::size_t f = seeded() % model.size();
        auto& steps = model[f].second;
        const std::string use = materials[seeded() % 5];
        const auto choice = seeded() % 7;
        if (choice == 0) {
            const std::size_t place = seeded() % (steps.size() + 1);
            s.add_step(f, place, {{"use", {use}}});
            steps.insert(steps.begin() + static_cast<std::ptrdiff_t>(place), use);
        } else if (choice == 1 && steps.size() > 1) {
            const std::size_t place = seeded() % steps.size();
            s.remove_step(f, place);
            steps.erase(steps.begin() + static_cast<std::ptrdiff_t>(place));
        } else if (choice == 2) {
            const std::size_t from = seeded() % steps.size(), to = seeded() % steps.size();
            s.move_step(f, from, to);
            const auto moved = steps[from];
            steps.erase(steps.begin() + static_cast<std::ptrdiff_t>(from));
            steps.insert(steps.begin() + static_cast<std::ptrdiff_t>(to), moved);
        } else if (choice == 3 && model.size() < 6) {
            const std::string name = "n" + std::to_string(i);
            s.copy_finish(f, name);
            model.push_back({name, steps});
        } else if (choice == 4 && model.size() > 1) {
            s.remove_finish(f);
            model.erase(model.begin() + static_cast<std::ptrdiff_t>(f));
        } else if (choice == 5) {
            const std::size_t place = seeded() % steps.size();
            s.set(f, place, "use", {use});
            steps[place] = use;
        } else if (choice == 6 && model.size() < 6) {
            const std::string name = "m" + std::to_string(i);
            s.add_finish(name, {{{"use", {use}}}});
            model.push_back({name, {use}});
        }
        INFO("after change " << i << ", of sort " << choice << ":\n" << s.text());
        REQUIRE(reading_of(s.text()) == model);
    }
}

TEST_CASE("a finish's text and what is left without any make up the whole") {
    auto s = text_of(two_finishes);
    CHECK(s.without_finishes() + s.finish_text(0) + "\n" + s.finish_text(1) ==
          "format = 1\n[wood]\nuse = \"ash\"\n\n\n" + s.finish_text(0) + "\n" + s.finish_text(1));
    CHECK(s.finish_text(1) == "# second\n[[finish]]\nname = \"b\"\n[[finish.step]]\nuse = \"paste-wax\"\n");
    CHECK(text_of(two_finishes.substr(0, two_finishes.size() - 1)).finish_text(1) == s.finish_text(1));
    edit_place(
        two_finishes, [](SceneText& t) { t.finish_text(2); }, "no such finish");
}

TEST_CASE("a key at the top goes before the first table, wherever that is") {
    auto s = text_of("format = 1\n\n[wood]\nuse = \"ash\"\n");
    s.set("title", words("x"));
    CHECK(s.text() == "format = 1\n\ntitle = \"x\"\n[wood]\nuse = \"ash\"\n");
    auto none = text_of("format = 1");
    none.set("title", words("x"));
    CHECK(none.text() == "format = 1\ntitle = \"x\"\n");
    auto empty = text_of("");
    empty.set("format", {1.0});
    CHECK(empty.text() == "format = 1\n");
}

TEST_CASE("a key is taken out of an inline table from any place in it, with one comma") {
    const std::string head = "format = 1\n[[finish]]\nname = \"x\"\n[[finish.step]]\nmix = [ { ";
    const auto left = [&](const std::string& keys, const std::string& key) {
        auto s = text_of(head + keys + " } ]\n");
        s.set_part(0, 0, 0, "ml", {3.0});
        const auto at = s.text().find("{ ") + 2;
        (void)key;
        return s.text().substr(at, s.text().rfind(" } ]") - at);
    };
    CHECK(left("use = \"a\"", "use") == "use = \"a\", ml = 3");
    CHECK(left("use = \"a\", ml = 5, g = 2", "ml") == "use = \"a\", ml = 3, g = 2");
    auto empty = text_of("format = 1\n[[finish]]\nname = \"x\"\n[[finish.step]]\nmix = [ {} ]\n");
    empty.set_part(0, 0, 0, "use", words("tung"));
    CHECK(empty.text().find("mix = [ { use = \"tung\" } ]") != std::string::npos);
}

TEST_CASE("a key is taken out of an inline finish with its comma, first, middle and last") {
    const auto left = [](const std::string& keys, const std::string& key) {
        auto s = text_of("format = 1\nfinish = [ { " + keys + " } ]\n");
        s.remove(0, key);
        const auto at = s.text().find("[ { ") + 4;
        return s.text().substr(at, s.text().rfind(" } ]") - at);
    };
    CHECK(left("a = 1, b = 2, c = 3", "a") == "b = 2, c = 3");
    CHECK(left("a = 1, b = 2, c = 3", "b") == "a = 1, c = 3");
    CHECK(left("a = 1, b = 2, c = 3", "c") == "a = 1, b = 2");
    CHECK(left("a = 1 , b = 2", "a") == "b = 2");
    CHECK(left("a = 1, b = 2", "z") == "a = 1, b = 2");
}

TEST_CASE("keys and texts are quoted only where TOML asks for it") {
    CHECK(scene::toml_text(words("a\tb")) == "\"a\\tb\"");
    CHECK(scene::toml_text(words("\x7f")) == "\"\\u007f\"");
    CHECK(scene::toml_text(words("\x1f")) == "\"\\u001f\"");
    CHECK(scene::toml_text({2.0}) == "2");
    CHECK(scene::toml_text({false}) == "false");
    CHECK(scene::toml_text({std::vector<scene::Written>{{1.0}, {2.5}}}) == "[1, 2.5]");
    CHECK(scene::toml_text({std::vector<scene::Written>{}}) == "[]");
    auto s = text_of("format = 1\n");
    s.set("two words", words("x"));
    s.set("", words("y"));
    CHECK(s.text() == "format = 1\n\"two words\" = \"x\"\n\"\" = \"y\"\n");
}

TEST_CASE("a table is replaced with its comments kept, an inline one in its line, and made before the finishes") {
    auto s = text_of("format = 1\n# why\n[target]\nfinish = \"a\"\n\n" + two_finishes.substr(11));
    s.replace("target", {{"srgb", words("#aabbcc")}});
    CHECK(s.text().find("# why\n[target]\nsrgb = \"#aabbcc\"\n\n[wood]") != std::string::npos);
    auto in_line = text_of("format = 1\nlook = { observer = \"2deg\" } # eyes\n");
    in_line.replace("look", {{"observer", words("10deg")}});
    CHECK(in_line.text() == "format = 1\nlook = { observer = \"10deg\" } # eyes\n");
    in_line.set("look", "geometry", words("45/0"));
    CHECK(in_line.text() == "format = 1\nlook = { observer = \"10deg\", geometry = \"45/0\" } # eyes\n");
    auto made = text_of(two_finishes);
    made.replace("prices", {{"currency", words("EUR")}});
    CHECK(made.text().find("[prices]\ncurrency = \"EUR\"\n\n# first\n[[finish]]") != std::string::npos);
    made.replace("prices", {});
    CHECK(made.text() == two_finishes);
    made.replace("prices", {});  // taking out what is not there changes nothing
    CHECK(made.text() == two_finishes);
    auto last = text_of("format = 1\n");
    last.replace("wood", {{"use", words("ash")}});
    CHECK(last.text() == "format = 1\n\n[wood]\nuse = \"ash\"\n");
}

TEST_CASE("what is asked for beyond the end, or stands where it cannot be changed, is refused and nothing changes") {
    edit_place(
        two_finishes, [](SceneText& s) { s.set(2, "name", words("x")); }, "no such finish");
    edit_place(
        two_finishes, [](SceneText& s) { s.set(0, 2, "coats", {1.0}); }, "no such step");
    edit_place(
        two_finishes, [](SceneText& s) { s.set_part(0, 0, 0, "ml", {1.0}); }, "no such part of a mix");
    edit_place(
        two_finishes, [](SceneText& s) { s.add_step(0, 3, {}); }, "not so many steps");
    edit_place(
        two_finishes, [](SceneText& s) { s.remove_step(1, 1); }, "no such step");
    edit_place(
        two_finishes, [](SceneText& s) { s.move_step(0, 0, 2); }, "no such step");
    edit_place(
        two_finishes, [](SceneText& s) { s.remove_finish(2); }, "no such finish");
    edit_place(
        two_finishes, [](SceneText& s) { s.copy_finish(2, "x"); }, "no such finish");
    edit_place(
        "format = 1\nlook.observer = \"2deg\"\n", [](SceneText& s) { s.set("look", "geometry", words("x")); },
        "dotted keys");
    edit_place(
        "format = 1\nfinish = [ { name = \"x\", step = [ { use = \"a\" } ] } ]\n",
        [](SceneText& s) { s.add_step(0, 0, {}); }, "a header of their own");
    edit_place(
        "format = 1\n", [](SceneText& s) { s.copy_finish(0, "x"); }, "no such finish");
}

TEST_CASE("a step is added to a finish that has none, and after a last line without an end") {
    auto s = text_of("format = 1\n[[finish]]\nname = \"x\"");
    s.add_step(0, 0, {{"use", words("tung")}});
    CHECK(s.text() == "format = 1\n[[finish]]\nname = \"x\"\n  [[finish.step]]\n  use = \"tung\"\n");
    auto open = text_of(two_finishes.substr(0, two_finishes.size() - 1));
    open.add_step(1, 1, {{"use", words("tung")}});
    CHECK(reading_of(open.text())[1].second == std::vector<std::string>{"paste-wax", "tung"});
}

TEST_CASE("a step moved to where it stands stays, and there and back is where it was") {
    auto s = text_of(two_finishes);
    s.move_step(0, 1, 1);
    CHECK(s.text() == two_finishes);
    s.move_step(0, 0, 1);
    CHECK(s.text() != two_finishes);
    s.move_step(0, 1, 0);
    CHECK(s.text() == two_finishes);
}
