#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/program.hpp"
#include "support/sanitized.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

std::string bytes_of(const std::string& name) {
    std::ifstream in(folder() + "/" + name, std::ios::binary);
    std::stringstream s;
    s << in.rdbuf();
    return s.str();
}

/// Prints `name`.html of the test folder in Debian's browser and tells what pdfinfo says of the file.
std::string printed(const std::string& name) {
    const std::string base = folder() + "/" + name, profile = folder() + "/profile";
    const std::string browser =
        "chromium --headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
        "--disable-component-update --disable-sync --user-data-dir='" +
        profile + "' --no-pdf-header-footer --print-to-pdf='" + base + ".pdf' 'file://" + base + ".html' >'" + base +
        ".log' 2>&1";
    if (std::system(browser.c_str()) != 0) return "the browser failed: " + bytes_of(name + ".log");
    if (std::system(("pdfinfo '" + base + ".pdf' >'" + base + ".info' 2>&1").c_str()) != 0)
        return "no PDF: " + bytes_of(name + ".info");
    return bytes_of(name + ".info");
}

/// Four finishes with names and recipes too long for their room, one of them with twelve steps, that do not hold.
std::string worst_scene() {
    std::string text =
        "format = 1\ntitle = \"<script>alert('x')</script> & the shelves, ladders and counter of a reading room in "
        "\\\"cherry\\\", for the "
        "house by the river, with all that goes with it and more\"\n[look]\nlights = [\"D65\", \"A\"]\n[wood]\nuse = "
        "\"cherry\"\n";
    const char* names[] = {
        "two dyes over each other, amber shellac, oil between, and three coats of waterborne rubbed out to an eggshell",
        "</text></svg><img src=x onerror=alert(1)>", "Überzugslackoberflächenbehandlungsverfahrensbeschreibung",
        "twelve steps"};
    for (const char* name : names) {
        text += "[[finish]]\nname = \"" + std::string(name) + "\"\n";
        for (int k = 0; k < 4; ++k)
            text +=
                "[[finish.step]]\nmix = [ { use = \"honey-dye\", parts = 4 }, { use = \"russet-dye\", parts = 1 }, { "
                "use = "
                "\"umber-dye\", "
                "parts = 2 }, { use = \"water\", parts = 45 } ]\nwet_g_per_m2 = 65\n[[finish.step]]\nuse = "
                "\"boiled-linseed\"\nmethod = "
                "\"wipe\"\nafter_days = 1\n[[finish.step]]\nuse = \"waterborne-acrylic\"\nmethod = \"brush\"\ncoats = "
                "2\nsheen_gu60 = "
                "30\nafter_days = 1\n";
    }
    return text;
}

}  // namespace

TEST_CASE("sheet writes a PNG and an HTML file, prints the finishes and the cautions") {
    fresh_folder();
    const auto r = run("sheet " FORETONE_SCENES "/stool-maple.toml --date '2 March'");
    CHECK(r.status == 0);
    for (const char* due : {"Piano stool, hard maple", "dye, shellac, waterborne", "satin, 30 gloss units", "as A",
                            "rests on: memory", "sign the real board", "out/stool-maple-sheet-a4.png", "food-toy"}) {
        INFO(due);
        CHECK(r.out.find(due) != std::string::npos);
    }
    CHECK(bytes_of("out/stool-maple-sheet-a4.png").substr(1, 3) == "PNG");
    CHECK(bytes_of("out/stool-maple-sheet-a4.html").find(">2 March</text>") != std::string::npos);
    CHECK(bytes_of("out/stool-maple-sheet-a4.html").find("<script") == std::string::npos);
    const auto first = bytes_of("out/stool-maple-sheet-a4.html");
    run("sheet " FORETONE_SCENES "/stool-maple.toml --date '2 March'");
    CHECK(bytes_of("out/stool-maple-sheet-a4.html") == first);
    CHECK(
        json::parse(run("sheet " FORETONE_SCENES "/stool-maple.toml --finish 'clear only' --paper letter --json -").out)
            .at("finishes")
            .size() == 1);
    CHECK(exists("out/stool-maple-sheet-letter.html"));
}

TEST_CASE("a sheet prints to exactly one page of its paper, and the worst one too") {
    fresh_folder();
    write("worst.toml", worst_scene());
    const std::pair<const char*, const char*> papers[] = {{"a4", "594.96 x 841.92 pts"}, {"letter", "612 x 792 pts"}};
    for (const auto& [paper, points] : papers)
        for (const std::string scene : {"worst", "library-oak"}) {
            if (sanitized() && (scene == "worst") != (std::string(paper) == "a4"))
                continue;  // each scene and each paper once there
            const std::string file = scene == "worst" ? "worst.toml" : FORETONE_SCENES "/library-oak.toml";
            REQUIRE(run("sheet " + file + " --quiet --out . --paper " + paper).status == 0);
            const auto info = printed(scene + "-sheet-" + paper);
            INFO(scene << " on " << paper << ": " << info);
            CHECK(info.find("Pages:           1\n") != std::string::npos);
            CHECK(info.find(points) != std::string::npos);
            CHECK(info.find("JavaScript:      no") != std::string::npos);
        }
}

TEST_CASE("sheet refuses what it cannot show, and writes nothing") {
    fresh_folder();
    std::string six = "format = 1\n[wood]\nuse = \"ash\"\n";
    for (const char* name : {"one", "two", "three", "four", "five", "six"})
        six += std::string("[[finish]]\nname = \"") + name + "\"\n[[finish.step]]\nuse = \"oil-varnish\"\n";
    write("six.toml", six);
    write("none.toml", "format = 1\n[wood]\nuse = \"ash\"\n");
    write("empty.toml", "");
    const auto many = run("sheet six.toml");
    CHECK(many.status == 1);
    CHECK(many.err.find("error: six.toml: 6 finishes do not go on one sheet") == 0);
    CHECK(many.err.find("[finish-too-many]") != std::string::npos);
    const auto unknown = run("sheet six.toml --finish thre");
    CHECK(unknown.status == 1);
    CHECK(unknown.err.find("Valid: one, two, three") != std::string::npos);
    CHECK(run("sheet none.toml").status == 1);
    CHECK(run("sheet none.toml").err.find("finish") != std::string::npos);
    CHECK(run("sheet empty.toml").status == 1);
    CHECK(run("sheet nowhere.toml").status == 1);
    CHECK(run("sheet six.toml --paper a5").status == 2);
    CHECK_FALSE(exists("out"));
    CHECK(run("sheet six.toml --finish one --finish six --quiet").status == 0);
    CHECK(exists("out/six-sheet-a4.png"));
}

TEST_CASE("sheet says what must not be signed") {
    fresh_folder();
    const auto r = run("sheet " FORETONE_SCENES "/linseed-then-waterborne.toml");
    CHECK(r.status == 0);
    CHECK(r.out.find("do not sign: A WILL NOT HOLD") != std::string::npos);
    CHECK(bytes_of("out/linseed-then-waterborne-sheet-a4.html").find("none of these") == std::string::npos);
}
