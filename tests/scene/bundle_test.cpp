/// A job in one file: what is in it is read as if it lay beside it, and what is no job is refused before it is
/// unpacked.

#include "foretone/scene/bundle.hpp"

#include <zip.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "foretone/scene/scene.hpp"
#include "foretone/scene/text_file.hpp"
#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

using Entries = std::vector<std::pair<std::string, std::string>>;

// A zip of these files, made by libzip, at `path`.
std::string zip_of(const Entries& files) {
    const auto path = std::filesystem::temp_directory_path() / "foretone-bundle-made.zip";
    std::filesystem::remove(path);
    int error = 0;
    zip_t* zip = zip_open(path.c_str(), ZIP_CREATE | ZIP_TRUNCATE, &error);
    REQUIRE(zip);
    for (const auto& [name, text] : files)
        REQUIRE(zip_file_add(zip, name.c_str(), zip_source_buffer(zip, text.data(), text.size(), 0), 0) >= 0);
    REQUIRE(zip_close(zip) == 0);
    std::ifstream in(path, std::ios::binary);
    std::string out((std::istreambuf_iterator<char>(in)), {});
    std::filesystem::remove(path);
    return out;
}

std::string bundle_refusal(const std::string& bytes, const scene::BundleLimits& limits = {}) {
    try {
        scene::Bundle bundle(bytes, "job.zip", limits);
        for (const auto& name : bundle.names()) bundle.read(name, 1'000'000);
        bundle.scene();
    } catch (const scene::InputError& e) {
        return e.problems.front().id;
    }
    return "";
}

const std::string bundled_scene =
    "format = 1\nmaterials = [\"cans/shop.toml\"]\n[wood]\nreflectance = \"../boards/board.csv\"\nlike = "
    "\"ash\"\ngeometry = \"45/0\"\n"
    "[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"house-varnish\"\n";
const std::string shop =
    "format = 1\n[material.house-varnish]\nkind = \"film\"\nlike = \"oil-varnish\"\ngardner = 12\n";

std::string board_csv() {
    std::string text = "wavelength_nm,reflectance\n";
    for (int nm = 400; nm <= 700; nm += 10)
        text += std::to_string(nm) + ",0." + std::to_string(250 + (nm - 400)) + "\n";
    return text;
}

Entries good_job() { return {{"hall.toml", bundled_scene}, {"shop.toml", shop}, {"board.csv", board_csv()}}; }

}  // namespace

TEST_CASE("a scene in a zip is read with all that lies beside it there, whatever folders it names") {
    const auto folder = std::filesystem::temp_directory_path() / "foretone-bundle";
    std::filesystem::create_directories(folder);
    const auto file = folder / "job.zip";
    std::ofstream(file, std::ios::binary) << zip_of(good_job());
    const auto zipped = scene::read_scene(file, library());
    CHECK(zipped.file == (file / "hall.toml").string());
    CHECK(zipped.materials.contains("house-varnish"));

    // The same files in a folder are the same wood.
    std::filesystem::create_directories(folder / "boards");
    std::filesystem::create_directories(folder / "scenes" / "cans");
    std::ofstream(folder / "scenes" / "hall.toml") << bundled_scene;
    std::ofstream(folder / "scenes" / "cans" / "shop.toml") << shop;
    std::ofstream(folder / "boards" / "board.csv") << board_csv();
    const auto beside = scene::read_scene(folder / "scenes" / "hall.toml", library());
    CHECK(beside.wood_data().reflectance.values == zipped.wood_data().reflectance.values);

    CHECK(scene::lies_in_bundle(file / "board.csv"));
    CHECK_FALSE(scene::lies_in_bundle(folder / "none" / "board.csv"));
    CHECK_FALSE(scene::lies_in_bundle(folder / "scenes" / "hall.toml"));
    CHECK(scene::scene_in(folder / "scenes" / "hall.toml") == folder / "scenes" / "hall.toml");
    CHECK(scene::read_text(file / "shop.toml") == shop);
    try {
        scene::read_text(file / "other.toml");
        FAIL("not refused");
    } catch (const scene::InputError& e) {
        CHECK(e.problems.front().id == "file-missing");
        CHECK(e.problems.front().text.find("shop.toml") != std::string::npos);
    }
    std::filesystem::remove_all(folder);
}

TEST_CASE("names that lead out of the zip, folders and names given twice are refused") {
    for (const std::string name : {"../hall.toml", "/etc/passwd", "a/b.toml", "c:x.toml", "..", ".hidden", "a\\b.toml",
                                   "line\nbreak.toml", "dot.", "blank ", "folder/"}) {
        CAPTURE(name);
        CHECK(bundle_refusal(zip_of({{"hall.toml", bundled_scene}, {name, "x"}})) == "bundle-name");
    }
    CHECK(bundle_refusal(zip_of({{std::string(121, 'n'), "x"}})) == "bundle-name");
    // libzip writes no name twice: the second gets the first's by hand, where it stands in both lists.
    auto twice = zip_of({{"hall.toml", bundled_scene}, {"hal2.toml", bundled_scene}});
    for (std::size_t at = 0; (at = twice.find("hal2", at)) != std::string::npos; ++at) twice.replace(at, 4, "hall");
    CHECK_THAT(bundle_refusal(twice), Catch::Equals("bundle-name") || Catch::Equals("bundle-unreadable"));
}

TEST_CASE("a zip with no scene, or with two, is refused naming what it holds") {
    CHECK(bundle_refusal(zip_of({{"shop.toml", shop}})) == "bundle-scene");
    CHECK(bundle_refusal(zip_of({{"a.toml", bundled_scene}, {"b.toml", bundled_scene}})) == "bundle-scene");
    CHECK(bundle_refusal(zip_of(good_job())).empty());
}

TEST_CASE("more, or larger, than a job is refused before it is unpacked") {
    scene::BundleLimits small;
    small.entry = 1000;
    CHECK(bundle_refusal(zip_of({{"zeros.csv", std::string(1001, '0')}}), small) == "bundle-large");
    small.entry = 1'000'000;
    small.bytes = 2000;
    CHECK(bundle_refusal(zip_of({{"a.csv", std::string(1500, '0')}, {"b.csv", std::string(1500, '0')}}), small) ==
          "bundle-large");
    small.entries = 2;
    CHECK(bundle_refusal(zip_of({{"a", "1"}, {"b", "2"}, {"c", "3"}}), small) == "bundle-large");
    // A reader that takes less than the zip allows is not handed more.
    const scene::Bundle zeros(zip_of({{"zeros.csv", std::string(5000, '0')}}), "job.zip");
    CHECK_THROWS_AS(zeros.read("zeros.csv", 4999), scene::InputError);
    CHECK(zeros.read("zeros.csv", 5000).size() == 5000);
}

TEST_CASE("no byte of a zip can be changed or cut off so that reading it does harm") {
    const auto whole = zip_of(good_job());
    for (std::size_t n = 0; n < whole.size(); n += 7) {
        CAPTURE(n);
        bundle_refusal(whole.substr(0, n));
        auto damaged = whole;
        damaged[n] = static_cast<char>(damaged[n] ^ 0x55);
        bundle_refusal(damaged);
    }
    CHECK(bundle_refusal(whole.substr(0, whole.size() - 30)) == "bundle-unreadable");
    CHECK(bundle_refusal("PK\x03\x04") == "bundle-unreadable");
    // What was packed is what is read: a wrong checksum is found out.
    auto stored = zip_of({{"hall.toml", bundled_scene}, {"note.txt", "abc"}});
    const auto at = stored.find("abc");
    REQUIRE(at != std::string::npos);
    stored[at] = 'X';
    CHECK(bundle_refusal(stored) == "bundle-unreadable");
}
