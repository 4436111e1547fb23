/// Toned edges: a toner sprayed towards the edges of a board, by the account of its own coats.

#include <algorithm>
#include <catch2/catch.hpp>

#include "../../src/job/board_shade.hpp"
#include "foretone/job/board.hpp"
#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string toned_scene =
    "format = 1\ntitle = \"t\"\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"toned\"\n[[finish.step]]\nuse = "
    "\"vinyl-sealer\"\nmethod = \"spray\"\n[[finish.step]]\nuse = \"brown-toner\"\npasses = 2\n[[finish.step]]\nuse = "
    "\"nitrocellulose-lacquer\"\nmethod = \"spray\"\n[[finish]]\nname = \"plain\"\n[[finish.step]]\nuse = "
    "\"nitrocellulose-lacquer\"\nmethod = \"spray\"\n";

job::BoardRequest wide_48(const std::string& finish) {
    job::BoardRequest r;
    r.finishes = {finish};
    r.lights = {"D65"};
    r.width_mm = 96, r.height_mm = 64, r.mm_per_px = 2;
    r.view = light::View::flat;
    r.shade_edges = true;
    return r;
}

job::Boards drawn_shaded(const job::BoardRequest& r) {
    return job::boards(scene::read_scene_text(toned_scene, "t.toml", ".", library()), library(), r);
}

// Mean code of a rectangle of pixels.
double code_of(const light::Image& image, int x0, int y0, int x1, int y1) {
    double sum = 0;
    for (int y = y0; y < y1; ++y)
        for (int x = x0; x < x1; ++x)
            for (int c = 0; c < 3; ++c) sum += image.rgb[static_cast<std::size_t>(3 * (y * image.width + x) + c)];
    return sum / (3.0 * (x1 - x0) * (y1 - y0));
}

}  // namespace

TEST_CASE("toned edges are the schedule's color at the edge and its clear coats in the middle") {
    const auto shaded = drawn_shaded(wide_48("toned")).boards.at(0);
    auto all_over = wide_48("toned");
    all_over.shade_edges = false;
    const auto even = drawn_shaded(all_over).boards.at(0);
    CHECK_FALSE(even.shade);
    REQUIRE(shaded.shade);
    CHECK(color::delta_e_00(shaded.shade->edge, even.predicted) < 1e-9);
    CHECK(shaded.shade->edge.l < shaded.shade->middle.l - 5);
    CHECK_THAT(shaded.shade->de00, Near(color::delta_e_00(shaded.shade->middle, shaded.shade->edge), identity));
    CHECK(even.contrast);
    CHECK(even.uneven_de00);
    CHECK_FALSE(shaded.contrast);
    CHECK_FALSE(shaded.uneven_de00);
    CHECK(shaded.mean.l > shaded.shade->edge.l);
    CHECK(shaded.mean.l < shaded.shade->middle.l);
    // What the pictures are settled on: their mean is the reading of the mean wood.
    CHECK(shaded.de00 < 0.3);
    const auto& image = shaded.image;
    const int w = image.width, h = image.height;
    const double middle = code_of(image, w / 2 - 6, h / 2 - 3, w / 2 + 6, h / 2 + 3),
                 top = code_of(image, w / 2 - 6, 0, w / 2 + 6, 1), left = code_of(image, 0, h / 2 - 3, 1, h / 2 + 3),
                 between = code_of(image, w / 2 - 6, 4, w / 2 + 6, 6);
    CHECK(top < between);
    CHECK(between < middle);
    CHECK(left < middle);
    // At the very edge it is the board toned all over (half a pixel in, the toner has lost under a hundredth).
    CHECK_THAT(top, Near(code_of(even.image, w / 2 - 6, 0, w / 2 + 6, 1), 1.5));
}

TEST_CASE("toned edges without a toner are refused, and beside one a plain finish stays as it is") {
    const auto fault = [](const job::BoardRequest& r) {
        try {
            drawn_shaded(r);
        } catch (const scene::InputError& e) {
            return e.problems.front().id;
        }
        return std::string("none");
    };
    CHECK(fault(wide_48("plain")) == "shade-toner");
    CHECK(fault(wide_48("bare")) == "shade-toner");
    auto both = wide_48("toned");
    both.finishes.push_back("plain");
    const auto b = drawn_shaded(both);
    CHECK(b.boards.at(0).shade);
    CHECK_FALSE(b.boards.at(1).shade);
}

// Three passes of a black toner: the first of nine even steps would be over ΔE00 7 wide.
TEST_CASE("between two boards of a toned edge lies at most dE00 3, under every light, even of a black toner") {
    auto text = toned_scene;
    text.replace(text.find("brown-toner"), 11, "black-toner");
    text.replace(text.find("passes = 2"), 10, "passes = 3");
    const auto scene = scene::read_scene_text(text, "t.toml", ".", library());
    const auto request = wide_48("toned");
    const auto maps = grain::grain(scene.wood_data(), request.cut, request.width(), request.height(), 2, 1, 1);
    std::vector<color::Weights> lights;
    for (const auto* id : {"D65", "A"})
        lights.push_back(color::make_weights(library().illuminant(id), library().observer(scene.look.observer)));
    const auto levels =
        job::shaded_boards(scene, scene.finishes.at(0), request, maps, appearance::two_flux_solver(), lights);
    CAPTURE(levels.size());
    CHECK(levels.size() > 9);
    CHECK(levels.size() < job::most_shades);
    CHECK(job::widest_gap(levels, lights) <= job::shade_gap);
    const auto eighth = std::find_if(levels.begin(), levels.end(), [](const auto& l) { return l.toned == 0.125; });
    REQUIRE(eighth != levels.end());
    CHECK(job::widest_gap({levels.front(), *eighth}, lights) > 7);  // one of nine even steps
    CHECK(levels.front().toned == 0);
    CHECK(levels.back().toned == 1);
    for (std::size_t k = 1; k < levels.size(); ++k) CHECK(levels[k].toned > levels[k - 1].toned);
}
