// Parts of a picture marked by polygons, and a picture squared up.

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "../../src/photo/photo_area.hpp"
#include "appearance/finishes.hpp"
#include "foretone/photo/photo.hpp"
#include "support/pictures/photo_scene.hpp"
#include "support/tolerance.hpp"

namespace {

using namespace foretone;
using namespace foretone::test;
using photo::Corners;
using photo::PhotoBoard;
using photo::Point2;

schedule::Finish finish_called(const std::string& name) {
    for (const auto& f : finishes())
        if (f.name == name) return f;
    throw std::runtime_error("no finish " + name);
}

photo::Placing with_card(const Staged& s) {
    photo::Placing p;
    p.cards = {{s.card, s.as.card}};
    p.even_light = true;
    p.mm_per_px = s.as.mm_per_px;
    p.threads = 1;
    return p;
}

// A picture of plain codes whose red is the column and green the row, in steps of 100.
photo::Pixels ruled(int width, int height) {
    photo::Pixels p;
    p.width = width;
    p.height = height;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            for (const int v : {100 * x, 100 * y, 1000}) p.rgb.push_back(std::uint16_t(v));
    return p;
}

std::string fault_of_corners(const photo::Pixels& p, const Corners& c) {
    try {
        photo::squared(p, c, 0, 1);
    } catch (const photo::PhotoFault& f) {
        return f.id;
    }
    return "none";
}

// A rectangle in space, seen by a camera of that focal length (pixels) whose axis meets the picture's middle.
Corners seen(double width, double height, double turn, double tilt, double focal, double x0, double y0) {
    Corners out;
    const double at[4][2] = {{-0.5, -0.5}, {0.5, -0.5}, {0.5, 0.5}, {-0.5, 0.5}};
    for (std::size_t k = 0; k < 4; ++k) {
        const double x = at[k][0] * width, y = at[k][1] * height;
        const double x1 = x * std::cos(turn), z1 = x * std::sin(turn);
        const double y2 = y * std::cos(tilt) - z1 * std::sin(tilt), z2 = y * std::sin(tilt) + z1 * std::cos(tilt);
        const double far = 1500 + z2;
        out[k] = {x0 + focal * x1 / far, y0 + focal * y2 / far};
    }
    return out;
}

}  // namespace

TEST_CASE("shares of pixels inside polygons are exact along a row, and neighbours leave no seam") {
    const photo::Area one({{{2.25, 1}, {5.5, 1}, {5.5, 3}, {2.25, 3}}});
    std::vector<float> share;
    one.row(1, 8, share);
    const std::vector<float> due = {0, 0, 0.75F, 1, 1, 0.5F, 0, 0};
    for (std::size_t x = 0; x < due.size(); ++x) CHECK(share[x] == due[x]);
    one.row(3, 8, share);
    for (const float v : share) CHECK(v == 0);
    // A triangle's area is half its base times its height.
    const photo::Area triangle({{{1, 0}, {7, 0}, {4, 8}}});
    double sum = 0;
    for (int y = 0; y < 8; ++y) {
        triangle.row(y, 8, share);
        for (const float v : share) sum += double(v);
    }
    CHECK_THAT(sum, Near(24.0, 0.05));
    const photo::Area two({{{0, 0}, {3.3, 0}, {4.7, 4}, {0, 4}}, {{3.3, 0}, {8, 0}, {8, 4}, {4.7, 4}}});
    for (int y = 0; y < 4; ++y) {
        two.row(y, 8, share);
        for (const float v : share) CHECK(v == 1);
    }
    CHECK(photo::Area().all());
}

TEST_CASE("what lies outside the marked parts keeps its pixel values to the byte, and inside the wood decides") {
    Staging as{.wood = "cherry", .width = 240, .height = 180};
    const auto s = staged(as);
    const auto correction = photo::by_card(s.pixels, {s.card, as.card});
    const auto bare = tones("cherry", {"bare", {}}, "D65");
    auto placing = with_card(s);
    const double x = s.board.x + 50, y = s.board.y + 40;
    placing.boards = {{{x, y}, {x + 60.5, y + 7}, {x + 55, y + 41.25}, {x + 3, y + 30}},
                      {{x + 70, y}, {x + 90, y}, {x + 90, y + 44}, {x + 70, y + 44}}};
    placing.grains = {std::nullopt, 90.0};
    const PhotoBoard board(s.pixels, correction, bare, wood_of("cherry"), placing);
    const auto before = board.before(), after = board.finished(tones("cherry", finish_called("linseed"), "D65"));
    std::vector<float> share;
    const photo::Area area(placing.boards);
    int outside = 0, inside = 0, same = 0;
    for (int v = 0; v < 180; ++v) {
        area.row(v, 240, share);
        for (int u = 0; u < 240; ++u) {
            const bool changed = before.image.at(u, v) != after.image.at(u, v);
            if (share[std::size_t(u)] == 0) outside += changed;
            if (share[std::size_t(u)] == 1 && board.weight(u, v) > 0.99F) {
                ++inside;
                same += !changed;
            }
        }
    }
    CHECK(outside == 0);
    CHECK(inside > 2000);
    CHECK(same < inside / 100);
}

TEST_CASE("a part's own grain direction draws its figure's uptake along it") {
    Staging as{.wood = "pine", .width = 240, .height = 180};
    const auto s = staged(as);
    const auto correction = photo::by_card(s.pixels, {s.card, as.card});
    const auto bare = tones("pine", {"bare", {}}, "D65");
    const auto dyed = tones("pine", finish_called("strong raven dye, varnish"), "D65");
    const auto picture = [&](std::optional<double> grain) {
        auto placing = with_card(s);
        const double x = s.board.x + 50, y = s.board.y + 40;
        placing.boards = {{{x, y}, {x + 90, y}, {x + 90, y + 60}, {x, y + 60}}};
        placing.grains = {grain};
        return PhotoBoard(s.pixels, correction, bare, wood_of("pine"), placing).finished(dyed).image.rgb;
    };
    const auto found = picture({}), lies = picture(0), stands = picture(90), turned = picture(180);
    CHECK(lies == turned);
    CHECK(lies != stands);
    double off_lying = 0, off_standing = 0;
    for (std::size_t k = 0; k < found.size(); ++k) {
        off_lying += std::abs(double(found[k]) - lies[k]);
        off_standing += std::abs(double(found[k]) - stands[k]);
    }
    CHECK(off_lying < 0.5 * off_standing);  // the staged board lies
}

TEST_CASE("a homography meets its four corners, and its inverse undoes it") {
    const Corners c = {Point2{40, 30}, {620, 75}, {560, 410}, {15, 440}};
    const auto h = photo::from_rectangle(300, 200, c), back = h.inverse();
    const Corners rectangle = {Point2{0, 0}, {300, 0}, {300, 200}, {0, 200}};
    for (std::size_t k = 0; k < 4; ++k) {
        const auto p = h.at(rectangle[k][0], rectangle[k][1]);
        REQUIRE(p);
        for (std::size_t i = 0; i < 2; ++i) CHECK_THAT((*p)[i], Near(c[k][i], 1e-9));
    }
    const auto there = h.at(123, 45);
    REQUIRE(there);
    const auto here = back.at((*there)[0], (*there)[1]);
    REQUIRE(here);
    CHECK_THAT((*here)[0], Near(123.0, 1e-9));
    CHECK_THAT((*here)[1], Near(45.0, 1e-9));
    const auto same = back.after(h).at(7, 9);
    REQUIRE(same);
    CHECK_THAT((*same)[0], Near(7.0, 1e-9));
    CHECK_FALSE(h.at(0, -1e6));
}

TEST_CASE("a picture squared up shows what lay between the corners, straight and the right way") {
    const auto whole = ruled(200, 150);
    const Corners c = {Point2{20, 30}, {170, 20}, {180, 130}, {10, 110}};
    const auto s = photo::squared(whole, c, 1.5, 1);
    CHECK_THAT(double(s.pixels.width) / s.pixels.height, Near(1.5, 0.02));
    CHECK(s.pixels.width >= 170);
    CHECK_FALSE(s.sides_assumed);
    const auto to = photo::from_rectangle(s.pixels.width, s.pixels.height, c);
    double worst = 0;
    for (int y = 3; y < s.pixels.height - 3; y += 7)
        for (int x = 3; x < s.pixels.width - 3; x += 7) {
            const auto p = to.at(x + 0.5, y + 0.5);
            REQUIRE(p);
            const auto* v = &s.pixels.rgb[3 * std::size_t(y * s.pixels.width + x)];
            worst = worst_of(worst, std::abs(v[0] - 100 * ((*p)[0] - 0.5)));
            worst = worst_of(worst, std::abs(v[1] - 100 * ((*p)[1] - 0.5)));
            CHECK(v[2] == 1000);
        }
    CHECK(worst <= 0.51);  // rounded to whole values
    CHECK(photo::squared(whole, c, 1.5, 3).pixels.rgb == s.pixels.rgb);
}

TEST_CASE("a rectangle's sides follow from its perspective, or from how it looks where there is none") {
    const photo::Pixels whole = ruled(800, 600);
    for (const double sides : {2.5, 1.0, 0.6}) {
        const auto c = seen(300 * sides, 300, 0.5, 0.4, 900, 400, 300);
        const auto s = photo::squared(whole, c, 0, 1);
        CHECK(s.sides_assumed);
        CHECK_THAT(s.sides, Near(sides, 0.001));
    }
    const Corners plain = {Point2{100, 100}, {400, 100}, {400, 200}, {100, 200}};
    CHECK_THAT(photo::squared(whole, plain, 0, 1).sides, Near(3.0, 1e-9));
}

TEST_CASE("four corners that are none are refused") {
    const auto p = ruled(200, 150);
    CHECK(fault_of_corners(p, {Point2{20, 30}, {170, 20}, {180, 130}, {10, 110}}) == "none");
    CHECK(fault_of_corners(p, {Point2{20, 30}, {270, 20}, {180, 130}, {10, 110}}) == "corners-outside");
    CHECK(fault_of_corners(p, {Point2{20, 30}, {30, 30}, {180, 130}, {10, 110}}) == "corners-small");
    CHECK(fault_of_corners(p, {Point2{170, 20}, {20, 30}, {10, 110}, {180, 130}}) == "corners-order");  // mirrored
    CHECK(fault_of_corners(p, {Point2{20, 30}, {180, 130}, {170, 20}, {10, 110}}) == "corners-order");  // crossed
    CHECK(fault_of_corners(p, {Point2{20, 30}, {95, 25}, {170, 20}, {10, 110}}) == "corners-order");    // straight on
    CHECK(fault_of_corners(p, {Point2{std::nan(""), 30}, {170, 20}, {180, 130}, {10, 110}}) == "corners-outside");
}

TEST_CASE("a board photographed at a slant, squared up, is finished as the board seen from above") {
    Staging as{.wood = "cherry", .width = 320, .height = 240};
    as.glint = false;
    const auto s = staged(as);
    // The slanted photograph: the plain one through a homography.
    const Corners corners = {Point2{36, 20}, {300, 4}, {312, 230}, {8, 214}};
    photo::Pixels slanted;
    slanted.width = 320;
    slanted.height = 240;
    slanted.rgb.assign(3 * 320 * 240, 20000);
    const auto back = photo::from_rectangle(320, 240, corners).inverse();
    for (int y = 0; y < 240; ++y)
        for (int x = 0; x < 320; ++x) {
            const auto from = back.at(x + 0.5, y + 0.5);
            if (!from || !((*from)[0] >= 0 && (*from)[1] >= 0 && (*from)[0] < 320 && (*from)[1] < 240)) continue;
            for (std::size_t k = 0; k < 3; ++k)
                slanted.rgb[3 * std::size_t(y * 320 + x) + k] =
                    s.pixels.rgb[3 * (std::size_t((*from)[1]) * 320 + std::size_t((*from)[0])) + k];
        }
    const auto to = photo::from_rectangle(320, 240, corners);
    const auto middle = to.at(s.card.x + s.card.width / 2.0, s.card.y + s.card.height / 2.0);
    REQUIRE(middle);
    const photo::Card card{{int((*middle)[0]) - 8, int((*middle)[1]) - 8, 16, 16}, as.card};
    const auto up = photo::squared(slanted, corners, 320.0 / 240, 1);
    auto placing = with_card(s);
    placing.cards = {card};
    placing.whole = &slanted;
    placing.from_whole = up.from_whole;
    placing.mm_per_px = s.as.mm_per_px * 320 / up.pixels.width;
    const auto bare = tones("cherry", {"bare", {}}, "D65");
    const auto coat = tones("cherry", finish_called("oil varnish"), "D65");
    const PhotoBoard board(up.pixels, photo::by_card(slanted, card), bare, wood_of("cherry"), placing);
    const PhotoBoard plain(s.pixels, photo::by_card(s.pixels, {s.card, as.card}), bare, wood_of("cherry"),
                           with_card(s));
    const auto lab = [](const color::Xyz& c) { return color::to_lab(c, color::srgb_white); };
    CHECK(color::delta_e_00(lab(board.finished(coat).mean), lab(plain.finished(coat).mean)) < 0.3);
    CHECK_THAT(board.wood_share(), Near(plain.wood_share(), 0.02));
    const auto at = up.from_whole.at((*middle)[0], (*middle)[1]);
    REQUIRE(at);
    CHECK(board.weight(int((*at)[0]), int((*at)[1])) == 0);  // the card is left alone
}

TEST_CASE("parts are carried into the squared picture, cut at its edges") {
    const auto whole = ruled(200, 150);
    const auto s = photo::squared(whole, {Point2{20, 20}, {180, 20}, {180, 120}, {20, 120}}, 1.6, 1);
    const double k = s.pixels.width / 160.0;
    const auto cut = photo::carried({{0, 60}, {60, 60}, {60, 80}, {0, 80}}, s);
    double left = 1e9, right = -1e9;
    for (const auto& p : cut) left = std::min(left, p[0]), right = std::max(right, p[0]);
    CHECK_THAT(left, Near(0.0, 1e-9));
    CHECK_THAT(right, Near(40 * k, 1e-6));
    CHECK_THROWS_AS(photo::carried({{0, 0}, {10, 0}, {10, 10}}, s), photo::PhotoFault);
    CHECK_THAT(photo::carried_direction(30, {{50, 50}, {60, 50}, {60, 60}}, s.from_whole), Near(30.0, 1e-6));
}
