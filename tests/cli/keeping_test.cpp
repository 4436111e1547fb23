/// What the program does not lose: the user's files, and what went to standard output.

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "cli/program.hpp"

using namespace foretone::test;
namespace fs = std::filesystem;

namespace {

const std::string kept_scene =
    "format = 1\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\n";

std::string kept_spectrum() {
    std::string out = "wavelength_nm,reflectance\n";
    for (int nm = 380; nm <= 780; nm += 20) out += std::to_string(nm) + ",0.4\n";
    return out;
}

std::string kept_text(const std::string& name) {
    std::ifstream in(fs::path(folder()) / name, std::ios::binary);
    std::stringstream s;
    s << in.rdbuf();
    return s.str();
}

// The program with its standard output on `descriptor`, -1: closed. Its exit status; what it says is in `kept.err`.
int status_onto(int descriptor, const std::string& arguments) {
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        if (descriptor >= 0) dup2(descriptor, STDOUT_FILENO);
        if (descriptor < 0) close(STDOUT_FILENO);
        const std::string command = "cd '" + folder() + "' && '" + program() + "' " + arguments + " 2>kept.err";
        execl("/bin/sh", "sh", "-c", command.c_str(), static_cast<char*>(nullptr));
        _exit(127);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace

TEST_CASE("a run ends in 0 only if all of its output was written") {
    fresh_folder();
    write("sp.csv", kept_spectrum());
    write("s.toml", kept_scene);
    const int full = open("/dev/full", O_WRONLY);
    REQUIRE(full >= 0);
    int ends[2];
    REQUIRE(pipe(ends) == 0);
    close(ends[0]);
    for (const char* arguments : {"color sp.csv --json -", "color sp.csv", "--help", "materials", "--version",
                                  "preview s.toml --no-pictures"}) {
        INFO(arguments);
        CHECK(status_onto(full, arguments) == 1);
        CHECK(kept_text("kept.err").find("the disk is full") != std::string::npos);
        CHECK(status_onto(ends[1], arguments) == 1);
        CHECK(kept_text("kept.err").find("what reads it has closed") != std::string::npos);
        CHECK(status_onto(-1, arguments) == 1);
        CHECK(kept_text("kept.err").find("it is closed") != std::string::npos);
    }
    CHECK(status_onto(full, "color sp.csv --quiet") == 0);  // nothing was to be written
    CHECK(status_onto(-1, "color sp.csv --quiet --json file.json") == 0);
    CHECK(kept_text("file.json").starts_with("{"));
    close(full);
    close(ends[1]);
}

TEST_CASE("no verb writes over what it reads or what is not its own, unless told to") {
    fresh_folder();
    write("s.toml", kept_scene);
    write("sp.csv", kept_spectrum());
    write("notes.md", "my notes\n");
    const auto refused = [](const std::string& arguments, const std::string& id) {
        INFO(arguments);
        const auto r = run(arguments);
        CHECK(r.status == 1);
        CHECK(r.err.find("[" + id + "]") != std::string::npos);
        CHECK(r.out.empty());
    };
    refused("preview s.toml --no-pictures --json s.toml", "out-is-input");
    refused("color sp.csv --json ./sp.csv", "out-is-input");
    refused("color sp.csv --json notes.md", "out-not-ours");
    refused("materials --json notes.md", "out-not-ours");
    CHECK(kept_text("s.toml") == kept_scene);
    CHECK(kept_text("notes.md") == "my notes\n");
    CHECK(run("color sp.csv --quiet --replace --json notes.md").status == 0);
    CHECK(kept_text("notes.md").starts_with("{"));
    CHECK(run("color sp.csv --quiet --json notes.md").status == 0);  // now it is the program's own
}

TEST_CASE("whatever the program writes it may write again") {
    fresh_folder();
    write("s.toml", kept_scene + "[target]\nfinish = \"x\"\n");
    for (const char* arguments :
         {"preview s.toml --quiet --json p.json", "plan s.toml --area 1m2 --quiet --json q.json",
          "sheet s.toml --quiet --json r.json", "materials --quiet --json m.json",
          "materials --show water --quiet --json n.json", "materials --check --quiet --json o.json",
          "mix cut 2lb/gal --quiet --json c.json", "export s.toml --quiet --size-mm 60x40 --px 60x40 --json e.json",
          "board s.toml --quiet --size-mm 20x20 --json b.json"}) {
        INFO(arguments);
        const auto first = run(arguments), second = run(arguments);
        INFO(first.err << second.err);
        CHECK(first.status == 0);
        CHECK(second.status == 0);
    }
}

TEST_CASE("finishes of like names have pictures of their own") {
    fresh_folder();
    std::string text = "format = 1\n[wood]\nuse = \"hard-maple\"\n";
    for (const char* name : {"a b", "a-b", "a b 3", "дуб", "木"})
        text += "[[finish]]\nname = \"" + std::string(name) + "\"\n[[finish.step]]\nuse = \"oil-varnish\"\n";
    write("s.toml", text);
    REQUIRE(run("preview s.toml --quiet").status == 0);
    std::size_t pictures = 0;
    for (const auto& f : fs::directory_iterator(fs::path(folder()) / "out")) pictures += f.path().extension() == ".png";
    CHECK(pictures == 6);  // five finishes, and the comparison
    CHECK(exists("out/s-a-b.png"));
    CHECK(exists("out/s-дуб.png"));
    CHECK(exists("out/s-木.png"));
    REQUIRE(run("plan s.toml --area 1m2 --quiet --finish 'a b'").status == 0);
    REQUIRE(run("plan s.toml --area 1m2 --quiet --finish 'a-b'").status == 0);
    std::size_t cards = 0;
    for (const auto& f : fs::directory_iterator(fs::path(folder()) / "out")) cards += f.path().extension() == ".html";
    CHECK(cards == 2);
}

TEST_CASE("control characters of arguments reach no terminal") {
    fresh_folder();
    const auto r = run("preview \"$(printf 'a\\033[31m.toml')\"");
    CHECK(r.status == 2);
    CHECK(r.err.find('\x1b') == std::string::npos);
    CHECK(r.err.find("[argument-control]") != std::string::npos);
}

TEST_CASE("no argument takes nan or inf") {
    fresh_folder();
    write("s.toml", kept_scene);
    for (const char* arguments :
         {"match s.toml --budget nan", "match s.toml --budget inf", "board s.toml --mm-per-px nan",
          "mix cut 2lb/gal --resin-density nan", "mix ladder 10g/L --volume 1L --ratio nan",
          "board s.toml --photo x.jpg --card 0,0,9,9 --card-reflectance nan"}) {
        INFO(arguments);
        CHECK(run(arguments).status == 2);
    }
    for (const char* arguments :
         {"plan s.toml --area nanm2", "plan s.toml --area infm2", "plan s.toml --area 1m2 --temp nanC",
          "plan s.toml --area 1m2 --humidity inf%", "plan s.toml --area 1m2 --scale nang",
          "export s.toml --size-mm nanxnan", "board s.toml --px infxinf"}) {
        INFO(arguments);
        const auto r = run(arguments);
        CHECK(r.status != 0);
        CHECK(r.err.find("unexpected") == std::string::npos);
    }
    const auto area = run("plan s.toml --area 5");
    CHECK(area.err.find("--area: ") != std::string::npos);
    CHECK(area.err.find("an area") != std::string::npos);
}

TEST_CASE("a photograph that is no regular file is refused, not waited for") {
    fresh_folder();
    write("s.toml", kept_scene);
    REQUIRE(mkfifo((folder() + "/photo.jpg").c_str(), 0600) == 0);
    const auto r = run("board s.toml --photo photo.jpg --no-card");
    CHECK(r.status == 1);
    CHECK(r.err.find("not a regular file") != std::string::npos);
}

TEST_CASE("a reflectance file's stated scale and quantity are heard") {
    fresh_folder();
    std::string dark = "# scale: percent\nwavelength_nm,reflectance\n", absorbance = "wavelength_nm,absorbance\n";
    for (int nm = 380; nm <= 780; nm += 20) {
        dark += std::to_string(nm) + ",40\n";
        absorbance += std::to_string(nm) + ",0.9\n";
    }
    write("percent.csv", dark);
    write("sp.csv", kept_spectrum());
    write("absorbance.csv", absorbance);
    const auto stated = run("color percent.csv"), fraction = run("color sp.csv");
    CHECK(stated.status == 0);
    CHECK(stated.out == fraction.out);  // 40 % is 0.4
    const auto other = run("color absorbance.csv");
    CHECK(other.status == 1);
    CHECK(other.err.find("[not-reflectance]") != std::string::npos);
}
