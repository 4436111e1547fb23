/// Where results go: links, modes, pipes, devices, files of the user's. Nodes of the test's own only.

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <thread>

#include "foretone/format/png.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/text_file.hpp"
#include "scene/faults.hpp"
#include "support/folder.hpp"

using namespace foretone;
using namespace foretone::test;
namespace fs = std::filesystem;

namespace {

const std::string ours = "# written by foretone 0.1.0\n";

void put(const fs::path& path, const std::string& text, const scene::WriteRules& rules = {}) {
    scene::write_all({scene::OutputFile::text(path, text)}, rules);
}

std::string refusal(const fs::path& path, const scene::WriteRules& rules = {}) {
    try {
        put(path, "new", rules);
    } catch (const scene::InputError& e) {
        return e.problems.at(0).id + ": " + e.problems.at(0).text;
    }
    return "written";
}

unsigned mode_of(const fs::path& path) {
    struct stat s {};
    return lstat(path.c_str(), &s) == 0 ? s.st_mode & 07777u : 0;
}

std::ptrdiff_t entries_in(const fs::path& folder) { return std::distance(fs::directory_iterator(folder), {}); }

}  // namespace

TEST_CASE("a link stays a link, and what it leads to is written") {
    const Folder f("writing-links");
    f.write("there/real.toml", ours + "old");
    fs::create_symlink("there/real.toml", f / "one");
    fs::create_symlink("one", f / "two");
    put(f / "two", ours + "new");
    CHECK(fs::is_symlink(f / "one"));
    CHECK(fs::is_symlink(f / "two"));
    CHECK(f.read("there/real.toml") == ours + "new");
    fs::create_symlink("there/later.toml", f / "to-nothing");
    put(f / "to-nothing", "x");
    CHECK(fs::is_symlink(f / "to-nothing"));
    CHECK(f.read("there/later.toml") == "x");
    fs::create_symlink("round", f / "about");
    fs::create_symlink("about", f / "round");
    CHECK(refusal(f / "round").find("links lead in a circle") != std::string::npos);
}

TEST_CASE("the mode of what stood there is kept, and read-only is respected") {
    const Folder f("writing-modes");
    for (const auto mode : {0600u, 0644u, 0660u, 0755u}) {
        f.write("a.toml", ours);
        REQUIRE(chmod((f / "a.toml").c_str(), mode) == 0);
        put(f / "a.toml", ours + "new");
        CHECK(mode_of(f / "a.toml") == mode);
    }
    REQUIRE(chmod((f / "a.toml").c_str(), 0444) == 0);
    CHECK(refusal(f / "a.toml").find("read-only") != std::string::npos);
    CHECK(refusal(f / "a.toml", {{}, true}).find("read-only") != std::string::npos);
    CHECK(f.read("a.toml") == ours + "new");
    CHECK(entries_in(f / "") == 1);
}

TEST_CASE("names planted beside a result are neither followed nor waited for") {
    const Folder f("writing-planted");
    f.write("precious", "precious");
    fs::create_symlink("precious", f / "x.png.part");
    REQUIRE(mkfifo((f / "y.png.part").c_str(), 0600) == 0);
    put(f / "x.png", "x");
    put(f / "y.png", "y");
    CHECK(f.read("precious") == "precious");
    CHECK(f.read("x.png") == "x");
    CHECK(f.read("y.png") == "y");
}

TEST_CASE("a pipe is written into and stays a pipe") {
    const Folder f("writing-pipe");
    REQUIRE(mkfifo((f / "pipe").c_str(), 0600) == 0);
    std::string got;
    const std::string sent(200'000, 'x');  // more than a pipe holds
    std::thread reader([&] { got = f.read("pipe"); });
    put(f / "pipe", sent);
    reader.join();
    CHECK(got == sent);
    CHECK(fs::is_fifo(f / "pipe"));
}

TEST_CASE("an open file is written where it stands, not opened anew") {
    const Folder f("writing-open");
    const int held = open((f / "log").c_str(), O_WRONLY | O_CREAT, 0600);
    REQUIRE(held >= 0);
    REQUIRE(write(held, "first ", 6) == 6);
    put("/dev/fd/" + std::to_string(held), "second");
    REQUIRE(close(held) == 0);
    CHECK(f.read("log") == "first second");
    CHECK(refusal("/dev/fd/999").find("it is closed") != std::string::npos);
}

TEST_CASE("a full disk is told as such, and nothing is left behind or changed") {
    const Folder f("writing-full");
    CHECK(refusal("/dev/full").find("the disk is full") != std::string::npos);
    f.write("a.toml", ours);
    CHECK_THROWS_WITH(scene::write_all({scene::OutputFile::text(f / "a.toml", ours + "new"),
                                        scene::OutputFile::text("/dev/full", "x")}),
                      Catch::Contains("the disk is full"));
    CHECK(f.read("a.toml") == ours);
    CHECK(entries_in(f / "") == 1);
    CHECK(refusal(f / std::string(300, 'n')).find("the name is too long") != std::string::npos);
    CHECK(refusal(f / "a.toml/below").find("not a folder") != std::string::npos);
}

TEST_CASE("a file that the program has not written is kept unless --replace") {
    const Folder f("writing-theirs");
    f.write("notes.md", "my notes\nof the job\n");
    const auto why = refusal(f / "notes.md");
    CHECK(why.starts_with("out-not-ours: "));
    CHECK(why.find("20 bytes, beginning \"my notes\"") != std::string::npos);
    CHECK(why.find("--replace") != std::string::npos);
    CHECK(f.read("notes.md") == "my notes\nof the job\n");
    CHECK(refusal(f / "notes.md", {{}, true}) == "written");
    CHECK(f.read("notes.md") == "new");
    f.write("picture", std::string("\x1b[31mred", 8));  // no escape reaches the message
    CHECK(refusal(f / "picture").find('\x1b') == std::string::npos);
    f.write("empty", "");
    CHECK(refusal(f / "empty") == "written");
}

TEST_CASE("a file that the run reads is kept, by whatever name it goes") {
    const Folder f("writing-inputs");
    f.write("boards.toml", ours);
    fs::create_symlink("boards.toml", f / "link.toml");
    fs::create_hard_link(f / "boards.toml", f / "hard.toml");
    const scene::WriteRules rules{{f / "boards.toml"}, false};
    for (const char* name : {"boards.toml", "link.toml", "hard.toml", "./boards.toml"}) {
        INFO(name);
        CHECK(refusal(f / name, rules).starts_with("out-is-input: "));
    }
    CHECK(f.read("boards.toml") == ours);
    f.write("other.toml", ours);
    CHECK(refusal(f / "other.toml", rules) == "written");
}

TEST_CASE("files read are remembered as inputs") {
    const Folder f("writing-read");
    scene::read_text(f.write("in.toml", ours));
    CHECK(refusal(f / "in.toml", {scene::files_read(), false}).starts_with("out-is-input"));
}

TEST_CASE("two results do not go to one file") {
    const Folder f("writing-twice");
    f.write("real", "");
    fs::create_symlink("real", f / "link");
    const auto twice = [&](const char* a, const char* b) {
        try {
            scene::write_all({scene::OutputFile::text(f / a, "1"), scene::OutputFile::text(f / b, "2")});
        } catch (const scene::InputError& e) {
            return e.problems.at(0).id;
        }
        return std::string("written");
    };
    CHECK(twice("real", "link") == "out-twice");
    CHECK(twice("new", "./new") == "out-twice");
    CHECK(twice("one", "two") == "written");
}

TEST_CASE("what the program writes it knows again, and nothing else") {
    CHECK(scene::made_here(""));
    CHECK(scene::made_here("{\n  \"tool\": {\n    \"name\": \"foretone\",\n"));
    CHECK(scene::made_here("# written by foretone 0.1.0\nformat = 1\n"));
    const auto png = format::encode_png(light::Image::filled(2, 2, {1, 2, 3}), {150, "Title", "Words"});
    CHECK(scene::made_here({reinterpret_cast<const char*>(png.data()), png.size()}));
    CHECK_FALSE(scene::made_here("format = 1\n# written by foretone 0.1.0\n"));
    CHECK_FALSE(scene::made_here("# Hall bench, previewed with foretone 0.1.0\nformat = 1\n"));
    CHECK_FALSE(scene::made_here("\x89PNG\r\n\x1a\n picture of a phone"));
    CHECK_FALSE(scene::made_here("{\"name\": \"someone\"}"));
    CHECK_FALSE(scene::made_here("wavelength_nm,reflectance\n"));
}
