/// What is checked before and after a file is parsed: depth, control characters, endless texts.

#include "foretone/scene/stack_file.hpp"
#include "scene/faults.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string guard_scene =
    "format = 1\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\n";

std::string guard_id(const std::string& text) {
    const auto found = scene_faults(text);
    return found.empty() ? "none" : found[0].id;
}

std::string dotted(int parts) {
    std::string out = "a";
    for (int i = 1; i < parts; ++i) out += ".a";
    return out;
}

}  // namespace

TEST_CASE("what is nested too deep is told before the parser goes down there") {
    for (const auto& deep :
         {"a = " + std::string(5000, '['), "x = 1\n" + dotted(40'000) + " = 1\n", "[" + dotted(40'000) + "]\n",
          "a = { " + dotted(40'000) + " = 1 }\n", "a = " + std::string(40, '['), dotted(33) + " = 1\n"}) {
        INFO(deep.substr(0, 30));
        CHECK(guard_id(deep) == "toml-depth");
    }
    const auto found = scene_faults("format = 1\n  a = " + std::string(33, '[') + "\n");
    REQUIRE(found.size() == 1);
    CHECK(found[0].place.line == 2);
    CHECK(found[0].place.column == 39);  // the 33rd bracket
    CHECK(guard_id("a = " + std::string(32, '[') + std::string(32, ']') + "\n") != "toml-depth");
    CHECK(guard_id(dotted(32) + " = 1\n") != "toml-depth");
}

TEST_CASE("brackets and points in texts and comments are no depth") {
    const std::string many(100, '['), points(100, '.');
    CHECK(guard_id("# " + many + points + "\n" + guard_scene) == "none");
    CHECK(guard_id("title = \"" + many + points + "\"\n" + guard_scene) == "none");
    CHECK(guard_id("title = '" + many + points + "'\n" + guard_scene) == "none");
    CHECK(guard_id("title = \"\\\"" + many + "\"\n" + guard_scene) == "none");
}

TEST_CASE("control characters are refused where they are read, with their place") {
    for (const char* bad : {"\\u001b[31m", "\\u0007", "\\u0000", "\\u007f", "\\u009b", "\\u202e", "\\u2066", "\\n"}) {
        INFO(bad);
        const auto found =
            scene_faults("format = 1\ntitle = \"Stool" + std::string(bad) + "\"\n" + guard_scene.substr(11));
        REQUIRE(found.size() == 1);
        CHECK(found[0].id == "text-control");
        CHECK(found[0].place.line == 2);
        CHECK(found[0].text.find("U+") != std::string::npos);
        CHECK(std::all_of(found[0].text.begin(), found[0].text.end(), [](char c) { return c >= ' '; }));
    }
    CHECK(guard_id(guard_scene + "\"a\\u001bb\" = 1\n") == "text-control");
    CHECK(guard_id("title = \"Hocker, Ölbuche 木 — “glatt”\"\n" + guard_scene) == "none");
}

TEST_CASE("an endless name is told at once") {
    const auto with_name = [](std::size_t length) {
        std::string text = guard_scene;
        return text.replace(text.find("\"x\""), 3, "\"" + std::string(length, 'n') + "\"");
    };
    CHECK(guard_id(with_name(300)) == "none");
    CHECK(guard_id(with_name(301)) == "text-long");
    CHECK(guard_id(with_name(300'000)) == "text-long");
    CHECK(guard_id("title = \"" + std::string(301, 't') + "\"\n" + guard_scene) == "text-long");
}

TEST_CASE("no finish hides the bare board") {
    for (const char* name : {"bare", "Bare"}) {
        std::string text = guard_scene;
        text.replace(text.find("\"x\""), 3, "\"" + std::string(name) + "\"");
        const auto found = scene_faults(text);
        REQUIRE(found.size() == 1);
        CHECK(found[0].id == "finish-bare");
        CHECK(found[0].place.line == 5);
    }
}

TEST_CASE("more than can be worked out in seconds is told before it is begun") {
    std::string many = "format = 1\n[wood]\nuse = \"hard-maple\"\n";
    for (int i = 0; i < 101; ++i)
        many += "[[finish]]\nname = \"f" + std::to_string(i) + "\"\n[[finish.step]]\nuse = \"oil-varnish\"\n";
    CHECK(guard_id(many) == "finishes-many");
    CHECK(guard_id(many.substr(0, many.rfind("[[finish]]"))) == "none");
    std::string steps = guard_scene;
    for (int i = 1; i < 40; ++i) steps += "[[finish.step]]\nuse = \"oil-varnish\"\n";
    CHECK(guard_id(steps) == "none");
    CHECK(guard_id(steps + "[[finish.step]]\nuse = \"oil-varnish\"\n") == "steps-many");
    std::string stack = "start_nm = 400\nend_nm = 700\nstep_nm = 0.1\n";  // 3001 wavelengths
    for (int i = 0; i < 34; ++i) stack += "[[layer]]\nn = 1.5\nthickness_mm = 0.1\n";
    stack += "[base]\nblack = true\n";
    const auto found = faults_of([&] { scene::read_stack_text(stack, "s.toml"); });
    REQUIRE(found.size() == 1);
    CHECK(found[0].id == "stack-large");
    CHECK(found[0].text.find("wavelengths_nm") != std::string::npos);
}
