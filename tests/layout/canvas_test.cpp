#include <catch2/catch.hpp>

#include <cmath>

#include "foretone/color/srgb.hpp"
#include "foretone/layout/canvas.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using layout::Canvas;
using light::Code;
using layout::Face;
using test::Near;

namespace {

constexpr Code gray{208, 208, 208}, black{0, 0, 0}, brown{194, 148, 106};

/// The smallest box that holds every pixel that is not `ground`; empty: right < left.
struct Ink {
    int left = 1 << 20, right = -1, top = 1 << 20, bottom = -1;
    explicit Ink(const light::Image& image, const Code& ground) {
        for (int y = 0; y < image.height; ++y) {
            for (int x = 0; x < image.width; ++x) {
                if (image.at(x, y) != ground) {
                    left = std::min(left, x);
                    right = std::max(right, x);
                    top = std::min(top, y);
                    bottom = std::max(bottom, y);
                }
            }
        }
    }
};

}  // namespace

TEST_CASE("a filled box has exactly its pixels, and what lies outside is left out") {
    Canvas canvas(40, 30, gray);
    canvas.fill({35, -5, 100, 10}, brown);
    std::size_t brown_pixels = 0;
    for (int y = 0; y < 30; ++y) {
        for (int x = 0; x < 40; ++x) {
            brown_pixels += canvas.image().at(x, y) == brown;
        }
    }
    CHECK(brown_pixels == 5 * 5);
    canvas.fill({50, 50, 5, 5}, black);
    canvas.fill({5, 5, -3, 4}, black);
    CHECK(canvas.image().at(4, 5) == gray);
}

TEST_CASE("mixing is done in linear light, to the nearest code") {
    int worst = 0;
    for (int below = 0; below < 256; below += 5) {
        for (int above = 0; above < 256; above += 3) {
            for (int coverage = 0; coverage < 256; coverage += 17) {
                const double share = coverage / 255.0;
                const double linear =
                    color::srgb_decode(below / 255.0) * (1 - share) + color::srgb_decode(above / 255.0) * share;
                const int expected = int(std::lround(255 * color::srgb_encode(linear)));  // computed from IEC 61966-2-1
                const auto b = std::uint8_t(below), a = std::uint8_t(above);
                worst = std::max(worst, std::abs(layout::blend({b, b, b}, {a, a, a}, coverage)[1] - expected));
            }
        }
    }
    CHECK(worst <= 1);
    for (int v = 0; v < 256; ++v) {
        const auto c = std::uint8_t(v);
        REQUIRE(layout::blend({c, c, c}, {c, c, c}, 77) == Code{c, c, c});
    }
}

TEST_CASE("text stays within its measured width and its ascent and descent, and the pen ends where measured") {
    const std::string text =
        "H\xC3\xA4rte \xCE\x94"
        "E00 = 3.1 \xC2\xB7 70 g/m\xC2\xB2 gjpqy";
    for (const Face face : {Face::regular, Face::bold}) {
        const layout::TextStyle style{face, 18};
        Canvas canvas(500, 60, gray);
        const double end = canvas.text(20.3, 40, text, style, black);
        CHECK_THAT(end, Near(20.3 + layout::text_width(text, style), test::closed_form));
        const Ink ink(canvas.image(), gray);
        CHECK(ink.left >= 20);
        CHECK(ink.right <= int(std::ceil(end)));
        CHECK(ink.top >= 40 - int(std::ceil(layout::text_ascent(style))));
        CHECK(ink.bottom < 40 + int(std::ceil(layout::text_descent(style))));
        CHECK(ink.right - ink.left > 0.9 * layout::text_width(text, style));
    }
}

TEST_CASE("a character the face lacks leaves visible ink, a space leaves none") {
    Canvas canvas(60, 40, gray);
    canvas.text(10, 30, "\xE6\xBC\x86", {Face::regular, 24}, black);
    const Ink box(canvas.image(), gray);
    CHECK(box.right - box.left >= 8);
    Canvas blank(60, 40, gray);
    blank.text(10, 30, " \xE2\x80\x8B\t", {Face::regular, 24}, black);
    CHECK(Ink(blank.image(), gray).right == -1);
}

TEST_CASE("text that leaves the picture is cut at its edge without harm") {
    Canvas canvas(30, 12, gray);
    canvas.text(-20, 3, "Shellac on maple", {Face::bold, 40}, black);
    CHECK(Ink(canvas.image(), gray).right >= 0);
}

TEST_CASE("a cut corner takes half the square at the lower left and nothing else") {
    Canvas canvas(40, 40, gray);
    canvas.fill({10, 10, 20, 20}, brown);
    canvas.cut_corner({10, 10, 20, 20}, 6, gray);
    std::size_t whole = 0, half = 0;
    for (int y = 10; y < 30; ++y) {
        for (int x = 10; x < 30; ++x) {
            const Code c = canvas.image().at(x, y);
            whole += c == gray;
            half += c != gray && c != brown;
        }
    }
    CHECK(whole == 15);  // computed: 0 + 1 + … + 5
    CHECK(half == 6);
    CHECK(canvas.image().at(10, 29) == gray);
    CHECK(canvas.image().at(16, 29) == brown);
}
