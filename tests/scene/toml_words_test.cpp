/// Slips of the pen in a TOML file, each told by what to change.
#include <catch2/catch.hpp>

#include "foretone/scene/scene.hpp"
#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::string slip(const std::string& text) {
    try {
        scene::read_scene_text(text, "s.toml", ".", library());
    } catch (const scene::InputError& e) {
        return e.what();
    }
    return "read";
}

}  // namespace

TEST_CASE("a slip in a scene is told by what to write, not by what a parser expected") {
    const std::string head = "format = 1\n";
    const std::pair<std::string, const char*> slips[] = {
        {head + "[wood]\nuse = cherry\n", "s.toml:3:7: a text stands in quotes: write use = \"cherry\" [toml-syntax]"},
        {head + "[wood]\nuse = \"cherry\n", "a quote is missing"},
        {head + "[look]\nlights = [\"D65\", \"A\"\n[wood]\n", "a list is not closed"},
        {head + "coats = 1,5\n", "write 1.5, not 1,5"},
        {head + "wet_um = 60µm\n", "write wet_um = 60"},
        {head + "wet_um = 60 um\n", "write wet_um = 60"},
        {head + "title = “Chest”\n", "curly quotes"},
        {head + "wood\nuse = \"cherry\"\n", "'=' is missing"},
        {head + "[[finish]\nname = \"a\"\n", "[[finish]] ends with ]]"},
        {head + "[wood\nuse = \"a\"\n", "[wood] ends with ]"},
        {head + "coats = two\n", "write coats = \"two\""},
        {head + "coats = 2\ncoats = 3\n", "'coats' stands here for the second time"},
        {head + "title =\n", "'title' has no value"},
        {"format = 1\ntitle = \"K\xfc"
         "che\"\n",
         "save the file as UTF-8"}};
    for (const auto& [text, due] : slips) {
        INFO(text);
        const auto told = slip(text);
        INFO(told);
        CHECK(told.find(due) != std::string::npos);
        CHECK(told.find("toml-syntax") != std::string::npos);
        for (const char* raw : {"Error while parsing", "value type", "U+0009", "Encountered"})
            CHECK(told.find(raw) == std::string::npos);
    }
}

TEST_CASE("a file that begins sound and breaks anywhere is told in our words") {
    const std::string whole =
        "format = 1\n[look]\nlights = [\"D65\", \"A\"]\n[wood]\nuse = \"ash\"\n[[finish]]\nname = \"x\"\n"
        "[[finish.step]]\nmix = [ { use = \"honey-dye\", parts = 4 }, { use = \"water\", parts = 45 } ]\nwet_g_per_m2 "
        "= 65\n";
    int broken = 0;
    for (std::size_t at = 0; at < whole.size(); ++at) {
        auto text = whole;
        text.erase(at, 1);
        const auto told = slip(text);
        INFO(text);
        INFO(told);
        CHECK(told.find("Error while") == std::string::npos);
        CHECK(told.find("saw '") == std::string::npos);
        broken += told.find("toml-syntax") != std::string::npos;
    }
    CHECK(broken > 30);
}
