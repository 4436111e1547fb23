// A job of many pieces that is stopped keeps those that were done.

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "foretone/job/stoppable.hpp"
#include "support/demo.hpp"

using namespace foretone;

namespace {

scene::Scene stool_to_stop() { return scene::read_scene(FORETONE_SCENES "/stool-maple.toml", test::library()); }

// Goes on until it has been told so many times.
struct Stopping {
    std::size_t after;
    std::vector<std::string> told = {};

    job::Going going() {
        return {[this](const std::string& words) { told.push_back(words); }, [this] { return told.size() > after; }};
    }
};

bool says_stopped(const std::vector<scene::Problem>& warnings, const std::string& words) {
    for (const auto& w : warnings)
        if (w.id == "stopped" && w.text.find(words) != std::string::npos) return true;
    return false;
}

}  // namespace

TEST_CASE("Boards that are stopped by hand are those that were drawn, the same as in a whole run", "[job]") {
    job::BoardRequest request;
    request.width_mm = 20;
    request.height_mm = 16;
    request.mm_per_px = 0.5;
    const auto scene = stool_to_stop();
    Stopping none{1000}, two{2}, at_once{0};
    const auto whole = job::boards(scene, test::library(), request, none.going());
    const auto part = job::boards(scene, test::library(), request, two.going());
    REQUIRE(whole.boards.size() == 8);  // bare and three finishes under two lights
    REQUIRE(part.boards.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) CHECK(part.boards[i].image.rgb == whole.boards[i].image.rgb);
    CHECK(none.told.front() == "boards drawn: 0 of 8");
    CHECK(none.told.back() == "boards drawn: 7 of 8");
    CHECK(says_stopped(part.warnings, "2 of 8 boards"));
    CHECK_FALSE(says_stopped(whole.warnings, ""));
    CHECK_THROWS_AS(job::boards(scene, test::library(), request, at_once.going()), job::Stopped);
}

TEST_CASE("An export that is stopped by hand holds the files that were made", "[job]") {
    job::ExportRequest request;
    request.kinds = {job::ExportKind::exr, job::ExportKind::gltf};
    request.width_mm = 20;
    request.height_mm = 16;
    request.mm_per_px = 0.5;
    const auto scene = stool_to_stop();
    Stopping three{3}, at_once{0};
    const auto part = job::export_scene(scene, test::library(), request, "", three.going());
    CHECK(part.files.size() == 3);
    CHECK(says_stopped(part.warnings, "first 3 files"));
    CHECK_THROWS_AS(job::export_scene(scene, test::library(), request, "", at_once.going()), job::Stopped);
}
