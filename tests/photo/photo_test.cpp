// The user's own board: photographs staged from spectra, finished, and held against the same board worked out directly.

#include "foretone/photo/photo.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "appearance/finishes.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/photo/photo_file.hpp"
#include "foretone/layout/photo_page.hpp"
#include "support/pictures/photo_scene.hpp"
#include "../../src/photo/photo_curve.hpp"
#include "support/sanitized.hpp"
#include "support/tolerance.hpp"

namespace {

using namespace foretone;
using namespace foretone::test;
using light::Box;
using photo::PhotoBoard;

color::Lab lab(const color::Xyz& c) { return color::to_lab(c, color::srgb_white); }

schedule::Finish finish(const std::string& name) {
    for (const auto& f : finishes()) {
        if (f.name == name) return f;
    }
    throw std::runtime_error("no finish " + name);
}

// Of every pixel of the bare board (no glint, no edge): ΔE00 of the picture to the board worked out directly; and of
// the means.
struct Apart {
    double mean = 0, median = 0, p95 = 0;
};

Apart apart(const Staged& s, const PhotoBoard& board, const photo::FinishedPhoto& photo,
            const appearance::ToneTable& table) {
    std::vector<double> off;
    color::Xyz got, want;
    for (int y = s.board.y + 3; y < s.board.y + s.board.height - 3; ++y) {
        for (int x = s.board.x + 3; x < s.board.x + s.board.width - 3; ++x) {
            const bool glint =
                std::abs(x - s.as.width / 2) < s.as.width / 12 && std::abs(y - s.as.height * 3 / 5) < s.as.width / 12;
            if (glint || board.weight(x, y) < 0.99F) continue;
            const auto due = direct(s, table, x, y);
            const auto code = photo.image.at(x, y);
            const auto shown = color::srgb_to_xyz({code[0] / 255.0, code[1] / 255.0, code[2] / 255.0});
            const auto screen = color::srgb_to_xyz(color::to_display(due, color::srgb_white).rgb);
            off.push_back(color::delta_e_00(lab(shown), lab(screen)));
            got = {got.x + shown.x, got.y + shown.y, got.z + shown.z};
            want = {want.x + screen.x, want.y + screen.y, want.z + screen.z};
        }
    }
    REQUIRE(off.size() > 1000);
    const double n = double(off.size());
    std::sort(off.begin(), off.end());
    return {color::delta_e_00(lab({got.x / n, got.y / n, got.z / n}), lab({want.x / n, want.y / n, want.z / n})),
            off[off.size() / 2], off[off.size() * 95 / 100]};
}

struct Case {
    Staged staged;
    photo::Correction correction;
};

Case staged_case(const Staging& as) {
    Case c{staged(as), {}};
    c.correction = photo::by_card(c.staged.pixels, {c.staged.card, as.card});
    return c;
}

photo::PhotoFault fault_of(const photo::Pixels& pixels, const photo::Card& card) {
    try {
        photo::by_card(pixels, card);
    } catch (const photo::PhotoFault& f) {
        return f;
    }
    return {"", "not refused"};
}

photo::Pixels plain(int width, int height, std::array<double, 3> share) {
    photo::Pixels p;
    p.width = width;
    p.height = height;
    for (int i = 0; i < width * height; ++i)
        for (const double v : share) p.rgb.push_back(std::uint16_t(std::lround(65535 * v)));
    return p;
}

}  // namespace

TEST_CASE("a staged photograph, finished, is the board worked out directly") {
    auto woods = std::vector<std::string>{"cherry", "ash", "walnut", "pine"};
    if (sanitized()) woods = {"cherry"};
    // Clear coats and oils follow from the shade alone; with dye, how much a spot drinks is guessed from how dark it
    // is.
    for (const auto& wood : woods) {
        const auto c = staged_case({.wood = wood, .width = 320, .height = 240});
        const auto bare = tones(wood, {"bare", {}}, "D65");
        const PhotoBoard board(c.staged.pixels, c.correction, bare, wood_of(wood), &c.staged.card);
        auto shades = c.staged.maps.shade;
        std::nth_element(shades.begin(), shades.begin() + std::ptrdiff_t(shades.size() / 2), shades.end());
        CHECK_THAT(board.shade(), Near(double(shades[shades.size() / 2]), 0.1));
        CHECK(board.chroma_offset() < 0.5);
        for (const auto& f : finishes()) {
            const auto table = tones(wood, f, "D65");
            const auto photo = board.finished(table);
            const auto off = apart(c.staged, board, photo, table);
            CAPTURE(wood, f.name, off.mean, off.median, off.p95);
            const bool dyed = f.name.find("dye") != std::string::npos;
            CHECK(off.mean < (dyed ? 0.6 : 0.3));
            CHECK(off.median < (dyed ? 2.0 : 0.6));
        }
    }
}

TEST_CASE("the lamp of the photograph is taken out by the card, and wholly where it is named") {
    const auto c = staged_case({.wood = "cherry", .light = "A", .noise = 1.5, .width = 320, .height = 240});
    const auto coat = tones("cherry", finish("waterborne"), "D65");
    const auto& wood = wood_of("cherry");
    const PhotoBoard unnamed(c.staged.pixels, c.correction, tones("cherry", {"bare", {}}, "D65"), wood, &c.staged.card);
    const PhotoBoard named(c.staged.pixels, c.correction, tones("cherry", {"bare", {}}, "A"), wood, &c.staged.card);
    const auto far = apart(c.staged, unnamed, unnamed.finished(coat), coat),
               near = apart(c.staged, named, named.finished(coat), coat);
    CAPTURE(far.mean, near.mean);
    CHECK(near.mean < 0.3);
    CHECK(far.mean < 3.5);  // a white made neutral is not a lamp's spectrum made daylight's
    CHECK(far.mean > near.mean);
}

TEST_CASE("the card comes out neutral, to one code, under any lamp and after any finish") {
    for (const auto* light : {"D65", "A", "LED-4000"}) {
        for (const double reflectance : {0.90, 0.18}) {
            const auto c = staged_case({.wood = "hard-maple",
                                        .light = light,
                                        .exposure = reflectance == 0.9 ? 0.8 : 0.2,
                                        .card = reflectance,
                                        .noise = 1,
                                        .width = 240,
                                        .height = 180});
            const PhotoBoard board(c.staged.pixels, c.correction, tones("hard-maple", {"bare", {}}, light),
                                   wood_of("hard-maple"), &c.staged.card);
            const double due = 255 * color::srgb_encode(reflectance);
            const photo::FinishedPhoto photos[] = {board.before(),
                                                   board.finished(tones("hard-maple", finish("oil varnish"), "D65"))};
            for (const auto& photo : photos) {
                std::array<double, 3> sum{};
                const auto& b = c.staged.card;
                for (int y = b.y; y < b.y + b.height; ++y)
                    for (int x = b.x; x < b.x + b.width; ++x)
                        for (std::size_t k = 0; k < 3; ++k) sum[k] += photo.image.at(x, y)[k];
                for (std::size_t k = 0; k < 3; ++k) {
                    CAPTURE(light, reflectance, k);
                    CHECK_THAT(sum[k] / (double(b.width) * b.height), Near(due, 1.0));
                }
            }
        }
    }
}

TEST_CASE("bench, clamp and card are left as they are; glint and dark grain survive the finish") {
    const auto c = staged_case({.wood = "ash", .width = 320, .height = 240});
    const auto& s = c.staged;
    const PhotoBoard board(s.pixels, c.correction, tones("ash", {"bare", {}}, "D65"), wood_of("ash"), &s.card);
    const auto before = board.before(), after = board.finished(tones("ash", finish("oil varnish"), "D65"));
    const Box inside_clamp{s.clamp.x + 3, s.clamp.y + 3, s.clamp.width - 6, s.clamp.height - 6};
    for (const Box& box : {Box{2, s.as.height - 12, s.as.width - 4, 8}, inside_clamp, s.card}) {
        int changed = 0;
        for (int y = box.y; y < box.y + box.height; ++y)
            for (int x = box.x; x < box.x + box.width; ++x) changed += before.image.at(x, y) != after.image.at(x, y);
        CHECK(changed == 0);
    }
    const auto light = [](const photo::FinishedPhoto& p, int x, int y) {
        const auto code = p.image.at(x, y);
        return color::srgb_to_xyz({code[0] / 255.0, code[1] / 255.0, code[2] / 255.0}).y / 100;
    };
    // The glint adds half of white at its middle: 0.5 of it lies above ash, whose palest wood is not above 0.75.
    const int gx = s.as.width / 2, gy = s.as.height * 3 / 5;
    CHECK(light(after, gx, gy) > 0.2);
    std::vector<double> a, b;
    for (int y = s.board.y + 8; y < s.board.y + s.board.height - 8; ++y) {
        for (int x = s.board.x + 8; x < s.board.x + s.board.width - 8; ++x) {
            if (board.weight(x, y) < 0.99F) continue;
            b.push_back(light(before, x, y));
            a.push_back(light(after, x, y));
        }
    }
    const auto spread = [](std::vector<double>& v) {  // darkest percent against the middle
        std::sort(v.begin(), v.end());
        return v[v.size() / 100] / v[v.size() / 2];
    };
    const double bare = spread(b), finished = spread(a);
    CAPTURE(bare, finished);
    CHECK(finished <
          bare);  // pores and latewood stand out more under a coat (coated latewood darkens proportionally more)
    CHECK(finished > 0.2 * bare);
}

TEST_CASE("a JPEG with halved color, turned, and noisy gives the same mean color") {
    const auto s = staged({.wood = "cherry", .noise = 2, .width = 320, .height = 240});
    const auto photo = photo::read_photo(jpeg_of(s.codes, {.quality = 90, .full_color = false}));
    const photo::Card card{s.card, 0.9};
    const auto bare = tones("cherry", {"bare", {}}, "D65"), coat = tones("cherry", finish("linseed"), "D65");
    const auto one =
        PhotoBoard(photo.pixels, photo::by_card(photo.pixels, card), bare, wood_of("cherry"), &card.box).finished(coat);
    const auto two =
        PhotoBoard(s.pixels, photo::by_card(s.pixels, card), bare, wood_of("cherry"), &card.box).finished(coat);
    CHECK(color::delta_e_00(lab(one.mean), lab(two.mean)) < 0.3);
}

TEST_CASE("no line runs along the edge of a finished board: its pixels lie between bench and wood") {
    const auto s =
        staged({.wood = "hard-maple", .bench = 0.25, .width = 328, .height = 248});  // the board begins on odd rows
    const auto photo = photo::read_photo(jpeg_of(s.codes, {.quality = 90, .full_color = false}));
    const photo::Card card{s.card, 0.9};
    const PhotoBoard board(photo.pixels, photo::by_card(photo.pixels, card), tones("hard-maple", {"bare", {}}, "D65"),
                           wood_of("hard-maple"), &card.box);
    const auto after = board.finished(tones("hard-maple", finish("oil varnish"), "D65"));
    const auto row = [&](int y) {  // its mean light, off card and clamp
        color::Xyz sum;
        const int first = s.as.width / 2, end = s.as.width * 3 / 4;
        for (int x = first; x < end; ++x) {
            const auto code = after.image.at(x, y);
            const auto c = color::srgb_to_xyz({code[0] / 255.0, code[1] / 255.0, code[2] / 255.0});
            sum = {sum.x + c.x / (end - first), sum.y + c.y / (end - first), sum.z + c.z / (end - first)};
        }
        return sum;
    };
    // Beside the clamp the bench stays bench: its color is not that of bench and clamp mixed.
    const auto before = board.before();
    for (int y = s.clamp.y - 8; y < s.clamp.y - 1; ++y) {
        const int x = s.board.x + s.board.width + 2;
        const auto a = before.image.at(x, y), b = after.image.at(x, y);
        CAPTURE(y, int(a[1]), int(b[1]));
        CHECK(std::abs(int(a[1]) - int(b[1])) < 8);
    }
    const int top = s.board.y, bottom = s.board.y + s.board.height - 1;
    for (const auto& [edge, inward] : {std::pair{top, 1}, {bottom, -1}}) {
        const auto bench = row(edge - 6 * inward), wood = row(edge + 6 * inward);
        for (int y = edge - 3 * inward; y != edge + 4 * inward; y += inward) {
            const auto c = row(y);
            CAPTURE(y, c.x, c.y, c.z, bench.y, wood.y);
            CHECK(c.x < std::max(bench.x, wood.x) + 1.5);  // of 100: noise of the file, and the grain along a row
            CHECK(c.y < std::max(bench.y, wood.y) + 1.5);
            CHECK(c.y > std::min(bench.y, wood.y) - 1.5);
        }
    }
}

TEST_CASE("the same pixels give the same picture for any number of threads") {
    const auto c = staged_case({.wood = "walnut", .noise = 2, .width = 203, .height = 151});
    const auto bare = tones("walnut", {"bare", {}}, "D65"), coat = tones("walnut", finish("oil varnish"), "D65");
    const PhotoBoard one(c.staged.pixels, c.correction, bare, wood_of("walnut"), &c.staged.card, 1);
    const PhotoBoard three(c.staged.pixels, c.correction, bare, wood_of("walnut"), &c.staged.card, 3);
    const auto a = one.finished(coat), b = three.finished(coat);
    CHECK(a.image.rgb == b.image.rgb);
    CHECK(a.mean == b.mean);
}

TEST_CASE("a card that cannot be believed is refused with the figures") {
    auto p = plain(100, 80, {0.6, 0.6, 0.6});
    CHECK(photo::by_card(p, {{10, 10, 40, 40}, 0.9}).stops == Approx(std::log2(0.9 / 0.6)).margin(1e-3));
    const auto outside = fault_of(p, {{80, 10, 40, 40}, 0.9});
    CHECK(outside.id == "card-outside");
    CHECK(std::string(outside.what()).find("100 × 80 pixels") != std::string::npos);
    CHECK(fault_of(p, {{-1, 0, 20, 20}, 0.9}).id == "card-outside");
    CHECK(fault_of(p, {{2147483647, 0, 2147483647, 20}, 0.9}).id == "card-outside");
    CHECK(fault_of(p, {{10, 10, 11, 40}, 0.9}).id == "card-small");
    const auto clipped = fault_of(plain(60, 60, {1, 0.9, 0.8}), {{10, 10, 40, 40}, 0.9});
    CHECK(clipped.id == "card-clipped");
    CHECK(std::string(clipped.what()).find("100.0 % of the card 10,10,40,40 red") != std::string::npos);
    const auto dark = fault_of(plain(60, 60, {0.004, 0.005, 0.004}), {{10, 10, 40, 40}, 0.9});
    CHECK(dark.id == "card-dark");
    CHECK(std::string(dark.what()).find("0.47 % of white") != std::string::npos);
    const auto below = fault_of(plain(60, 60, {0.0101, 0.0099, 0.0101}),
                                {{10, 10, 40, 40}, 0.9});  // one channel over, the whole under
    CHECK(below.id == "card-dark");
    CHECK(std::string(below.what()).find("0.99 % of white: too dark to measure (1 % is wanted)") != std::string::npos);
    CHECK(fault_of(plain(60, 60, {0.5, 0.05, 0.01}), {{10, 10, 40, 40}, 0.9}).id == "card-colored");
    for (int y = 0; y < 80; ++y)
        for (int c = 0; c < 9; ++c)
            p.rgb[std::size_t(3 * (y * 100 + 30) + c)] = 20000;  // a dark line through the card, 3 pixels wide
    CHECK(fault_of(p, {{10, 10, 40, 40}, 0.9}).id == "card-uneven");
    CHECK_THROWS_AS(photo::by_card(p, {{60, 10, 30, 30}, 1.5}), std::invalid_argument);
}

TEST_CASE("a card in poor light is told; a grey one may be as dark as it is") {
    const auto notes = [](double level, double reflectance) {
        return photo::by_card(plain(60, 60, {level, level, level}), {{10, 10, 40, 40}, reflectance}).notes;
    };
    REQUIRE(notes(0.09, 0.9).size() == 1);
    CHECK(notes(0.09, 0.9)[0].id == "card-dim");
    CHECK(notes(0.09, 0.9)[0].text.find("at 9.0 % of white: too dark for good colors (10.0 % is wanted of it)") !=
          std::string::npos);
    CHECK(notes(0.11, 0.9).empty());
    CHECK(notes(0.09, 0.18).empty());
    CHECK(notes(0.015, 0.18).size() == 1);
}

TEST_CASE("uneven light across the card is told, and much of it refused") {
    auto p = plain(120, 60, {0, 0, 0});
    const auto light = [&](double fall) {
        for (std::size_t i = 0; i < p.rgb.size(); ++i)
            p.rgb[i] = std::uint16_t(30000 * (1 - fall * double(i / 3 % 120) / 120));
        return p;
    };
    const photo::Card card{{10, 10, 100, 40}, 0.9};
    CHECK(photo::by_card(light(0.02), card).notes.empty());
    const auto told = photo::by_card(light(0.15), card);
    REQUIRE(told.notes.size() == 1);
    CHECK(told.notes[0].id == "card-gradient");
    CHECK(told.card.gradient == Approx(0.14).margin(0.03));
    CHECK(fault_of(light(0.5), card).id == "card-uneven");
}

TEST_CASE("a picture without the wood is refused; another wood is seen to be another") {
    const auto bare = tones("hard-maple", {"bare", {}}, "D65");
    auto blue = plain(200, 150, {0.1, 0.2, 0.6});
    for (std::size_t i = 0; i < 3 * 200 * 30; ++i) blue.rgb[i] = 50000;  // a card along the top
    const photo::Card card{{10, 5, 40, 20}, 0.9};
    const auto correction = photo::by_card(blue, card);
    try {
        const PhotoBoard board(blue, correction, bare, wood_of("hard-maple"), &card.box);
        FAIL("not refused");
    } catch (const photo::PhotoFault& f) {
        CHECK(f.id == "photo-no-wood");
        CHECK(std::string(f.what()).find("Is it the wood that the scene names") != std::string::npos);
    }
    const auto c = staged_case({.wood = "walnut", .width = 240, .height = 180});
    const PhotoBoard walnut(c.staged.pixels, c.correction, bare, wood_of("hard-maple"), &c.staged.card);
    CHECK(color::delta_e_00(lab(walnut.before().mean), lab(bare.reading(0, 1))) > 20);
    CHECK(walnut.shade() > 1);
}

TEST_CASE("without a card the middle of the picture is the library's wood") {
    const auto s = staged({.wood = "cherry", .light = "A", .width = 240, .height = 180});
    const auto bare = tones("cherry", {"bare", {}}, "D65");
    const auto correction = photo::by_wood(s.pixels, bare.reading(0, 1));
    CHECK_FALSE(correction.promise);
    const PhotoBoard board(s.pixels, correction, bare, wood_of("cherry"));
    CHECK(color::delta_e_00(lab(board.before().mean), lab(bare.reading(0, 1))) < 2);
    CHECK_THROWS_AS(photo::by_wood(plain(50, 50, {0, 0, 0}), bare.reading(0, 1)), photo::PhotoFault);
}

TEST_CASE("the power of a ratio near one is good to 1e-4") {
    double worst = 0, at_r = 0, at_g = 0;
    for (double r = 1 / 1.7; r <= 1.7; r += 0.003) {
        for (double g = 0; g <= 4; g += 0.05) {
            const double off = std::abs(double(photo::power(float(r), float(g))) / std::pow(r, g) - 1);
            if (worse(off, worst)) worst = off, at_r = r, at_g = g;
        }
    }
    CAPTURE(at_r, at_g);
    CHECK(worst < 1e-4);
}

TEST_CASE("a picture made smaller keeps its light; a page holds every panel whole") {
    light::Image checks{400, 300, {}};
    for (int i = 0; i < 400 * 300; ++i) {
        const std::uint8_t v = (i % 400 + i / 400) % 2 == 0 ? 255 : 0;
        checks.rgb.insert(checks.rgb.end(), {v, v, v});
    }
    const auto small = layout::shrunk(checks, 100, 100);
    CHECK(small.width == 100);
    CHECK(small.height == 75);
    CHECK(int(small.at(50, 30)[0]) == 188);  // half the light of white, IEC 61966-2-1
    CHECK(layout::shrunk(checks, 400, 300).rgb == checks.rgb);

    const auto panel = [](std::uint8_t v, const std::string& name) {
        return layout::PhotoPanel{light::Image::filled(200, 150, {v, 0, v}),
                                  name,
                                  {"a caption, and another that is long enough to be broken"}};
    };
    const auto page = layout::photo_page(
        {"scene", "below", {panel(10, "one"), panel(20, "two"), panel(30, "three")}, {"a note"}, "an alarm"});
    for (const int v : {10, 20, 30}) {
        int count = 0;
        for (std::size_t i = 0; i < page.rgb.size(); i += 3)
            count += page.rgb[i] == v && page.rgb[i + 1] == 0 && page.rgb[i + 2] == v;
        CHECK(count == 200 * 150);
    }
    CHECK_THROWS_AS(layout::photo_page({}), std::invalid_argument);
    const auto marked = layout::with_strip(small, "colors are relative");
    CHECK(marked.height > small.height);
    CHECK(std::equal(small.rgb.begin(), small.rgb.end(), marked.rgb.begin()));
}
