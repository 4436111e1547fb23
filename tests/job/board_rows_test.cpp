/// Boards too large to be held.

#include <catch2/catch.hpp>

#include "foretone/job/board_rows.hpp"
#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

TEST_CASE("boards drawn in pieces are the same pictures as boards that are held", "[job]") {
    const auto scene = scene::read_scene_text(
        "format = 1\ntitle = \"t\"\n[wood]\nuse = \"ash\"\n[[finish]]\nname = \"toned\"\n[[finish.step]]\nuse = "
        "\"brown-toner\"\npasses = 1\n",
        "t.toml", ".", library());
    job::BoardRequest request;
    request.lights = {"D65", "A"};
    request.width_mm = 24, request.height_mm = 70, request.mm_per_px = 0.5;
    for (const bool shaded : {false, true}) {
        request.shade_edges = shaded, request.tilt = !shaded;
        const auto held = job::boards(scene, library(), request);
        std::vector<light::Image> images;
        const auto pieces = job::boards(
            scene, library(), request, {},
            [&](const job::NewPicture& p) -> job::TakeRows {
                images.push_back({p.width, p.height, {}});
                const std::size_t which = images.size() - 1;
                return [&images, which](auto rgb) {
                    images[which].rgb.insert(images[which].rgb.end(), rgb.begin(), rgb.end());
                };
            },
            0);
        REQUIRE(held.boards.size() == 4);
        REQUIRE(images.size() == (shaded ? 4 : 8));
        std::size_t at = 0;
        for (std::size_t i = 0; i < 4; ++i) {
            const auto &a = held.boards[i], &b = pieces.boards[i];
            CHECK(a.image.rgb == images[at].rgb);
            CHECK(a.image.width == images[at++].width);
            CHECK(b.image.rgb.empty());
            if (!shaded) CHECK(a.strip.rgb == images[at++].rgb);
            CHECK(a.mean == b.mean);
            CHECK(a.predicted == b.predicted);
            CHECK(a.reduced_share == b.reduced_share);
            REQUIRE(a.contrast.has_value() == b.contrast.has_value());
            if (a.contrast) CHECK_THAT(a.contrast->ratio, Near(b.contrast->ratio, identity));
        }
    }
}
