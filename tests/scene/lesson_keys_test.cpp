#include <catch2/catch.hpp>

#include "foretone/scene/output.hpp"
#include "foretone/scene/scene.hpp"

using namespace foretone;
using namespace foretone::scene;

namespace {

Scene with_lesson(const std::string& table) {
    return read_scene_text("format = 1\n[wood]\nuse = \"ash\"\n" + table +
                               "[[finish]]\nname = \"a\"\n[[finish.step]]\nuse = \"oil-varnish\"\n",
                           "t.toml", ".", Library());
}

std::string lesson_fault(const std::string& table) {
    try {
        with_lesson(table);
    } catch (const InputError& e) {
        return e.what();
    }
    return "";
}

}  // namespace

TEST_CASE("a scene may ask a lesson's question, and nothing else of it") {
    CHECK_FALSE(with_lesson("").lesson);
    CHECK(with_lesson("[lesson]\n").lesson == "");
    CHECK(with_lesson("[lesson]\nquestion = \"Which?\"\n").lesson == "Which?");
    const auto answer = lesson_fault("[lesson]\nanswer = \"A\"\n");
    CHECK(answer.find("t.toml:5:1") != std::string::npos);
    CHECK(answer.find("question") != std::string::npos);
    CHECK(lesson_fault("[lesson]\nquestion = 3\n").find("[value-type]") != std::string::npos);
}

TEST_CASE("a scene keeps its maker's notes, to 2000 characters") {
    CHECK(with_lesson("").notes.empty());
    const auto noted = [](const std::string& notes) {
        return read_scene_text("format = 1\nnotes = \"\"\"" + notes +
                                   "\"\"\"\n[wood]\nuse = \"ash\"\n[[finish]]\nname = \"a\"\n[[finish.step]]\nuse = "
                                   "\"oil-varnish\"\n",
                               "t.toml", ".", Library())
            .notes;
    };
    CHECK(noted("\nNo gloss.\nBy May.\n\n") == "No gloss.\nBy May.");
    std::string umlauts;
    for (int i = 0; i < 2000; ++i) umlauts += "ü";
    CHECK(noted(umlauts) == umlauts);
    try {
        noted(umlauts + "ü");
        FAIL("2001 characters were read");
    } catch (const InputError& e) {
        CHECK(e.problems.size() == 1);
        CHECK(e.problems.front().id == "text-long");
        CHECK(e.problems.front().place.text() == "t.toml:2:1");
    }
    CHECK_THROWS_AS(noted("\a"), InputError);
}

TEST_CASE("a PDF of this program may be written over, another may not") {
    CHECK(made_here("%PDF-1.4\n%\xb5\xed\xae\xfb\n% foretone\n4 0 obj\n"));
    CHECK_FALSE(made_here("%PDF-1.4\n%\xb5\xed\xae\xfb\n4 0 obj\n"));
}
