/// What all verbs have in common: help, wrong usage, bad scenes, quiet, JSON, folders.

#include <regex>

#include "cli/answers.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

/// Verbs that read a scene, with what they need besides.
const std::pair<const char*, const char*> scene_verbs[] = {{"preview", " --no-pictures"},
                                                           {"board", " --size-mm 20x10 --px 8x4"},
                                                           {"coats", " --no-pictures"},
                                                           {"match", " --no-pictures"},
                                                           {"plan", " --area 1m2"},
                                                           {"export", " --palette"},
                                                           {"sheet", ""},
                                                           {"correct", " --measured r.txt"},
                                                           {"mix pot", " --volume 100mL"}};
const char* const all_verbs[] = {"preview", "board", "coats",  "match", "color", "materials", "verify", "optics",
                                 "mix",     "plan",  "export", "sheet", "fit",   "correct",   "chart"};

/// Verbs that are quick on a tiny scene, whole commands.
std::vector<std::string> quick_commands() {
    return {"preview tiny.toml --no-pictures",
            "coats tiny.toml --no-pictures --upto 1",
            "plan tiny.toml --area 1m2",
            "color flat.csv",
            "optics stack.toml",
            "mix cut 2lb/gal",
            "materials --show water",
            "export tiny.toml --palette"};
}

void write_inputs() {
    fresh_folder();
    write("tiny.toml", tiny_scene);
    std::string flat = "wavelength_nm,reflectance\n";
    for (int nm = 380; nm <= 780; nm += 5) flat += std::to_string(nm) + ",0.5\n";
    write("flat.csv", flat);
    write("stack.toml", "wavelengths_nm = [550]\n[base]\nreflectance = 0.5\n");
    write("r.txt", "light: D65\nobserver: 2deg\ngeometry: 45/0\nfirst\t60\t10\t30\n");
}

}  // namespace

TEST_CASE("every verb is listed, and its help names the options that all have") {
    const auto list = run("--help");
    CHECK(list.status == 0);
    for (const std::string verb : all_verbs) {
        INFO(verb);
        CHECK(list.out.find("  " + verb + " ") != std::string::npos);
        const auto help = run(verb + " --help");
        CHECK(help.status == 0);
        CHECK(help.err.empty());
        for (const char* option : {"--json", "--out", "--spectra", "--quiet"})
            CHECK(help.out.find(option) != std::string::npos);
    }
}

TEST_CASE("a verb without what it needs, with an unknown option or one too many is wrong usage") {
    for (const std::string verb : all_verbs) {
        if (verb == "materials" || verb == "verify" || verb == "chart") continue;  // these need nothing
        INFO(verb);
        const auto r = run(verb);
        CHECK(r.status == 2);
        CHECK(r.out.empty());
        CHECK_FALSE(r.err.empty());
    }
    for (const std::string verb : all_verbs) {
        INFO(verb);
        CHECK(run(verb + " a b c --no-such-option").status == 2);
    }
    CHECK(run("coats one.toml two.toml").status == 2);
    refused_with("preview one.toml two.toml", "file-missing", "two.toml: there is no such file");  // it takes several
    CHECK(run("preview one.toml --json").status == 2);
    CHECK(run("preview color").status == 1);  // a file of that name, which is not there
}

TEST_CASE(
    "a scene that is not there, a folder, or broken is refused by every verb that reads one, and nothing written") {
    write_inputs();
    write("broken.toml", "format = 1\n[wood\n");
    write("typo.toml", tiny_scene + "coat = 2\n");
    for (const auto& [verb, more] : scene_verbs) {
        const std::string v = verb;
        refused_with(v + " none.toml" + more, "file-missing", "none.toml: there is no such file");
        if (v != "preview") refused_with(v + " ." + more, "file-directory", "this is a directory");
        refused_with(v + " broken.toml" + more, "toml-syntax", "error: broken.toml:2:");
        refused_with(v + " typo.toml" + more, "key-unknown", "error: typo.toml:10:1: unknown key 'coat'");
        CHECK_FALSE(exists("out"));
    }
    // A folder of scenes is previewed: what is wrong with one is told, and the others are shown.
    const auto folder = run("preview . --no-pictures");
    CHECK(folder.status == 1);
    for (const char* told : {"broken.toml:2:", "typo.toml:10:1: unknown key 'coat'"})
        CHECK(folder.err.find(told) != std::string::npos);
    CHECK(folder.out.find("L*") != std::string::npos);
    write("empty/note.txt", "none");
    refused_with("preview empty", "folder-no-scene", "no scene lies in this folder");
}

TEST_CASE("every line of a refusal is a place, what is wrong, and an id") {
    write_inputs();
    write("many.toml",
          "format = 2\ntitel = \"x\"\n[look]\nlights = [\"D66\"]\n[wood]\nuse = \"mapel\"\n[[finish]]\nname = "
          "\"x\"\n[[finish.step]]\nuse = \"tunk\"\ncoats = 99\nwet_um = \"90 um\"\n");
    const auto r = run("preview many.toml --no-pictures");
    CHECK(r.status == 1);
    const std::regex form("(error: )?many\\.toml:[0-9]+:[0-9]+: .+ \\[[a-z-]+\\]");
    const auto told = lines_of(r.err);
    CHECK(told.size() == 7);  // one for each of the seven slips
    for (const auto& line : told) {
        INFO(line);
        CHECK(std::regex_match(line, form));
    }
}

TEST_CASE("--quiet prints nothing where all went well") {
    write_inputs();
    for (const auto& command : quick_commands()) {
        INFO(command);
        const auto loud = run(command), quiet = run(command + " --quiet");
        CHECK(loud.status == 0);
        CHECK(quiet.status == 0);
        CHECK_FALSE(loud.out.empty());
        CHECK(quiet.out.empty());
        CHECK(quiet.err.empty());
    }
}

TEST_CASE("JSON on standard output is alone there, and the same bytes as in a file, twice the same") {
    write_inputs();
    for (const auto& command : quick_commands()) {
        INFO(command);
        const auto out = run(command + " --json -");
        CHECK(out.status == 0);
        CHECK_NOTHROW(json::parse(out.out));
        CHECK(out.out.back() == '\n');
        CHECK(run(command + " --json deep/er/answer.json --quiet").status == 0);
        CHECK(run(command + " --json - > answer.json; cmp -s answer.json deep/er/answer.json").status == 0);
    }
}

TEST_CASE("results go to the folder that --out names, made where it is missing") {
    write_inputs();
    CHECK(run("plan tiny.toml --area 1m2 --out a/b --quiet").status == 0);
    CHECK(exists("a/b/tiny-oiled-card.html"));
    CHECK(run("preview tiny.toml --out c --quiet").status == 0);
    CHECK(exists("c/tiny.png"));
    CHECK(run("export tiny.toml --palette --out d --quiet").status == 0);
    CHECK(exists("d/tiny-palette-d65.txt"));
    CHECK_FALSE(exists("out"));
}

TEST_CASE("a place that cannot be written is refused by every verb that writes, and what to do is told") {
    write_inputs();
    write("taken", "a file where the folder should be");
    for (const std::string command : {"preview tiny.toml", "plan tiny.toml --area 1m2", "export tiny.toml --palette",
                                      "coats tiny.toml --upto 1", "sheet tiny.toml"})
        refused_with(command + " --out taken", "out-unwritable", "choose another folder with --out DIR");
    for (const std::string command : {"mix cut 2lb/gal", "color flat.csv", "materials --show water"}) {
        const auto r = run(command + " --json taken/x.json");
        INFO(command);
        CHECK(r.status == 1);
        CHECK(r.err.find("[out-unwritable]") != std::string::npos);
    }
}

TEST_CASE("a library that is none is refused by every verb that uses one") {
    write_inputs();
    for (const std::string command : {"preview tiny.toml", "plan tiny.toml --area 1m2", "color flat.csv", "materials",
                                      "export tiny.toml", "coats tiny.toml"})
        refused_with(command + " --spectra nowhere", "library-folder", "nowhere: this is not a folder");
    write("empty/readme.txt", "x");
    refused_with("preview tiny.toml --spectra empty", "library-empty", "no material file");
    write("few/liquids/spirit.toml",
          "format = 1\nkind = \"liquid\"\nname = \"x\"\n"
          "n = { value = 1.36, sd = 0.01, mark = \"memory\", source = \"x\" }\n"
          "density_g_per_ml = { value = 0.79, sd = 0.01, mark = \"memory\", source = \"x\" }\n"
          "depth_um = { value = 50, sd = 20, mark = \"memory\", source = \"x\" }\n"
          "fill = { value = 0.5, sd = 0.1, mark = \"memory\", source = \"x\" }\n");
    refused_with("preview tiny.toml --spectra few", "material-unknown",
                 "tiny.toml:4:7: there is no material 'hard-maple'");
    refused_with("color flat.csv --spectra few", "observer-unknown", "there is no observer '2deg'");
}

TEST_CASE("the program says its version and refuses verbs that it has not") {
    const auto version = run("--version");
    CHECK(version.status == 0);
    CHECK(std::regex_match(version.out, std::regex("foretone [0-9]+\\.[0-9]+\\.[0-9]+\n")));
    const auto none = run("previw");
    CHECK(none.status == 2);
    CHECK(none.out.empty());
    CHECK(run("-1m2").status == 2);
}
