// What would take hours or all memory is refused first, with the limit and the key to reduce.

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "cli/program.hpp"

namespace foretone::test {
namespace {

const std::string limit_scenes = FORETONE_SCENES;

std::string scene_with(const std::string& look, const std::string& step) {
    return "format = 1\ntitle = \"t\"\n[look]\n" + look + "\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"f\"\n" +
           "[[finish.step]]\n" + step + "\n";
}

std::string many(int count, const std::string& what) {
    std::string out;
    for (int i = 0; i < count; ++i) out += (i ? ", " : "") + what;
    return out;
}

void check_refused(const std::string& arguments, int status, const std::vector<std::string>& words) {
    const auto r = run(arguments);
    INFO(r.err.substr(0, 600));
    CHECK(r.status == status);
    for (const auto& w : words) CHECK(r.err.find(w) != std::string::npos);
    CHECK(r.err.size() < 1000);
    CHECK_FALSE(exists("out"));
}

}  // namespace

TEST_CASE("More lights than a step board has rooms are refused at the first that is too many", "[cli]") {
    fresh_folder();
    std::string lights;
    for (int i = 0; i < 9; ++i) lights += (i ? ", " : "") + ("\"D" + std::to_string(5000 + 100 * i) + "\"");
    write("s.toml", scene_with("lights = [" + lights + "]", "use = \"waterborne-acrylic\""));
    check_refused("preview s.toml", 1, {"s.toml:4:", "9 lights", "at most 8", "[lights-many]"});
}

TEST_CASE("A mix of thousands of parts is refused before any is read", "[cli]") {
    fresh_folder();
    const std::string part = "{ use = \"honey-dye\", parts = 1 }";
    write("s.toml", scene_with("", "mix = [" + many(20000, part) + "]"));
    check_refused("preview s.toml", 1, {"20000 parts", "at most 40", "[parts-many]"});
    write("s.toml", scene_with("", "mix = [" + many(40, part) + "]"));
    CHECK(run("plan s.toml --area 1m2").err.find("parts-many") == std::string::npos);
}

TEST_CASE("An argument longer than any path is refused without being repeated", "[cli]") {
    fresh_folder();
    check_refused("preview " + std::string(100000, 'x'), 2, {"argument 2 has 100000 bytes", "4096", "[argument-long]"});
}

TEST_CASE("Pictures that are each small enough are refused where all of them are too many", "[cli]") {
    fresh_folder();
    // 4 boards under 4 lights of 5400 x 5400 pixels: 467 million.
    check_refused(
        "board '" + limit_scenes + "/stool-maple.toml' --px 5400x5400 --size-mm 300x300 --light D65 A D50 D55", 1,
        {"16 boards of 5400 x 5400", "467 million", "at most 400", "--finish", "[board-size]"});
    // Three lights pass without strips, of seven steps that are 1.2 boards high and their margin.
    check_refused(
        "board '" + limit_scenes + "/stool-maple.toml' --px 5400x5400 --size-mm 300x300 --tilt --light D65 A D50", 1,
        {"and their strips", "[board-size]"});
}

TEST_CASE("Files of an export that together hold gigabytes are refused first", "[cli]") {
    fresh_folder();
    // 3 finishes, 8 lights, 6000 x 6000 pixels of 3 numbers of 4 bytes: 10.4 GB (computed).
    check_refused("export '" + limit_scenes +
                      "/stool-maple.toml' --exr --float --size-mm 1000x1000 --px 6000x6000 --light D65 "
                      "--light A --light D50 --light D55 --light C --light LED-5000 --light LED-4000 --light LED-2700",
                  1, {"24 files", "10.37 GB", "at most 4", "--light", "[export-large]"});
}

TEST_CASE("An amount that cannot be read is told with an example of its own kind", "[cli]") {
    fresh_folder();
    const std::string plan = "plan '" + limit_scenes + "/stool-maple.toml' --area ";
    check_refused(plan + "much", 1, {"write for example 2.5m2", "an area is due"});
    check_refused(plan + "1m2 --humidity much", 1, {"write for example 2.5%", "a share is due"});
    check_refused(plan + "1m2 --temp infC", 1, {"an endless temperature does not exist"});
    check_refused("mix weigh much", 1, {"a number of parts or volume or mass is due"});
    check_refused("mix cut 1e300lb/gal", 1, {"1e+300-lb cut"});
}

}  // namespace foretone::test
