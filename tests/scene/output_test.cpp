#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "foretone/scene/output.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/text_file.hpp"

using namespace foretone::scene;
namespace fs = std::filesystem;

namespace {

struct OutputFolder {
    fs::path path = fs::temp_directory_path() / "foretone-output-test";
    OutputFolder() {
        fs::remove_all(path);
        fs::create_directories(path);
    }
    ~OutputFolder() { fs::remove_all(path); }
};

std::string output_fault(const fs::path& file) {
    try {
        read_text(file);
    } catch (const InputError& e) {
        return e.problems[0].id;
    }
    return "none";
}

}  // namespace

TEST_CASE("files are written with their folders") {
    OutputFolder f;
    write_all({OutputFile::text(f.path / "a" / "b.txt", "hello"), OutputFile::text(f.path / "c.txt", "there")});
    CHECK(read_text(f.path / "a" / "b.txt") == "hello");
    CHECK(read_text(f.path / "c.txt") == "there");
}

TEST_CASE("if one file cannot be written none is") {
    OutputFolder f;
    fs::create_directories(f.path / "taken.txt" / "inner");
    CHECK_THROWS_AS(
        write_all({OutputFile::text(f.path / "first.txt", "x"), OutputFile::text(f.path / "taken.txt", "y")}),
        InputError);
    CHECK_FALSE(fs::exists(f.path / "first.txt"));
    CHECK(std::distance(fs::directory_iterator(f.path), {}) == 1);  // nothing half-written lies about
    std::ofstream(f.path / "file") << "x";
    CHECK_THROWS_AS(write_all({OutputFile::text(f.path / "file" / "below.txt", "x")}), InputError);
}

TEST_CASE("an older result is kept when a new one fails") {
    OutputFolder f;
    write_all({OutputFile::text(f.path / "a.txt", "old")});
    fs::create_directories(f.path / "b.txt");
    CHECK_THROWS_AS(
        write_all({OutputFile::text(f.path / "a.txt", "new"), OutputFile::text(f.path / "b.txt", "x")}, {{}, true}),
        InputError);
    CHECK(read_text(f.path / "a.txt") == "old");
}

TEST_CASE("directories, binaries, huge and missing files are told apart") {
    OutputFolder f;
    CHECK(output_fault(f.path) == "file-directory");
    CHECK(output_fault(f.path / "none") == "file-missing");
    std::ofstream(f.path / "binary", std::ios::binary) << std::string("abc\0def", 7);
    CHECK(output_fault(f.path / "binary") == "file-binary");
    std::ofstream(f.path / "huge") << std::string(10'000'000, '#');
    CHECK(output_fault(f.path / "huge") == "file-too-large");
    std::ofstream(f.path / "bom") << "\xEF\xBB\xBF"
                                  << "x = 1";
    CHECK(read_text(f.path / "bom") == "x = 1");
}
