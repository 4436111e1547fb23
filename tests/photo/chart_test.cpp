// The printed chart: its plan, found in pictures at a slant and among other things, its fields seen, its camera fitted.

#include "foretone/photo/chart.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/color/srgb.hpp"
#include "foretone/layout/chart_page.hpp"
#include "foretone/photo/pixels.hpp"
#include "support/tolerance.hpp"

namespace {

using namespace foretone;
using namespace foretone::test;
using photo::Corners;
using photo::Homography;
using photo::Point2;

const light::Image& page() {
    static const auto image = layout::chart_page();
    return image;
}

// The page photographed: its corners at `corners`, the rest of the picture `around`; in that brightness, left to right.
photo::Pixels photographed(int width, int height, const Corners& corners, const light::Code& around, double left = 0.8,
                           double right = 0.8) {
    std::vector<std::uint8_t> codes;
    const auto& p = page();
    const auto back = photo::from_rectangle(p.width, p.height, corners).inverse();
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            std::array<double, 3> sum{};
            for (int k = 0; k < 4; ++k) {
                const auto at = back.at(x + (k % 2 + 0.5) / 2, y + (k / 2 + 0.5) / 2);
                const bool on = at && (*at)[0] >= 0 && (*at)[1] >= 0 && (*at)[0] < p.width && (*at)[1] < p.height;
                const auto code = on ? p.at(int((*at)[0]), int((*at)[1])) : around;
                for (std::size_t c = 0; c < 3; ++c) sum[c] += color::srgb_decode(code[c] / 255.0) / 4;
            }
            const double lit = left + (right - left) * x / width;
            for (const double v : sum)
                codes.push_back(std::uint8_t(std::lround(255 * color::srgb_encode(std::min(1.0, lit * v)))));
        }
    }
    return photo::pixels_of_srgb(width, height, 3, codes.data(), codes.size());
}

const Corners slanted = {Point2{150, 90}, {520, 60}, {560, 350}, {120, 330}};
constexpr light::Code bench{120, 110, 100};

double worst_place(const Homography& found, const Corners& corners) {
    const auto due = photo::from_rectangle(photo::chart_width_mm, photo::chart_height_mm, corners);
    double worst = 0;
    for (const auto& f : photo::chart_fields()) {
        const auto a = found.at(f.x_mm, f.y_mm), b = due.at(f.x_mm, f.y_mm);
        REQUIRE(a);
        REQUIRE(b);
        worst = worst_of(worst, std::hypot((*a)[0] - (*b)[0], (*a)[1] - (*b)[1]));
    }
    return worst;
}

std::string fault_in(const photo::Pixels& p) {
    try {
        photo::find_chart(p);
    } catch (const photo::PhotoFault& f) {
        return f.id;
    }
    return "none";
}

std::vector<std::optional<color::Lab>> plan() {
    std::vector<std::optional<color::Lab>> out;
    for (const auto& f : photo::chart_fields()) out.emplace_back(f.lab);
    return out;
}

}  // namespace

TEST_CASE("the chart's fields have names of their own, are shown as planned, and keep off marks and each other") {
    const auto& fields = photo::chart_fields();
    REQUIRE(fields.size() == 40);
    CHECK(fields.front().name == "A1");
    CHECK(fields.back().name == "E8");
    for (std::size_t a = 0; a < fields.size(); ++a) {
        const auto shown =
            page().at(int(fields[a].x_mm * layout::chart_dpi / 25.4), int(fields[a].y_mm * layout::chart_dpi / 25.4));
        CHECK(shown == fields[a].code);
        for (std::size_t b = a + 1; b < fields.size(); ++b) {
            CHECK(fields[a].name != fields[b].name);
            CHECK(std::max(std::abs(fields[a].x_mm - fields[b].x_mm), std::abs(fields[a].y_mm - fields[b].y_mm)) >
                  photo::field_mm);
            CHECK(fields[a].code != fields[b].code);
        }
        for (const auto& mark : photo::chart_marks())
            CHECK(std::hypot(fields[a].x_mm - mark.x_mm, fields[a].y_mm - mark.y_mm) >
                  photo::field_mm / 2 * std::sqrt(2.0) + mark.outer);
    }
}

TEST_CASE("the chart is found at a slant, upside down and on its side, small, in falling light, on any ground") {
    for (const auto& ground : {bench, light::Code{20, 20, 20}, light::Code{240, 240, 235}}) {
        CHECK(worst_place(photo::find_chart(photographed(640, 480, slanted, ground)), slanted) < 1.5);
        CHECK(worst_place(photo::find_chart(photographed(640, 480, slanted, ground, 0.9, 0.35)), slanted) < 1.5);
    }
    Corners turned = slanted;
    for (int quarter = 0; quarter < 3; ++quarter) {
        std::rotate(turned.begin(), turned.begin() + 1, turned.end());
        CHECK(worst_place(photo::find_chart(photographed(640, 480, turned, bench)), turned) < 1.5);
    }
    const Corners little = {Point2{300, 200}, {490, 205}, {488, 336}, {297, 330}};  // a pixel a millimetre
    CHECK(worst_place(photo::find_chart(photographed(640, 480, little, bench)), little) < 1.5);
}

TEST_CASE("a picture without the chart, or with a part of it or its mirror image, is refused with how to photograph") {
    photo::Pixels plain;
    plain.width = 200;
    plain.height = 150;
    plain.rgb.assign(3 * 200 * 150, 20000);
    CHECK(fault_in(plain) == "chart-missing");
    Corners cut = slanted;
    for (auto& p : cut) p[0] += 150;  // its right edge lies outside
    CHECK(fault_in(photographed(640, 480, cut, bench)) == "chart-missing");
    const Corners mirrored = {slanted[1], slanted[0], slanted[3], slanted[2]};
    CHECK(fault_in(photographed(640, 480, mirrored, bench)) == "chart-missing");
    photo::Pixels none;
    none.width = 1;
    none.height = 1;
    none.rgb = {1, 2, 3};
    CHECK(fault_in(none) == "chart-missing");
    try {
        photo::find_chart(plain);
    } catch (const photo::PhotoFault& f) {
        CHECK(std::string(f.what()).find("Photograph it flat, whole, sharp and in even light") != std::string::npos);
    }
}

TEST_CASE("a plain camera is found plain: its curve straight, its fields as planned, the light's fall as it is") {
    const auto p = photographed(640, 480, slanted, bench, 0.9, 0.7);
    const auto seen = photo::see_fields(p, photo::find_chart(p));
    const auto fit = photo::fit_camera(seen, plan(), 0.3);
    CHECK(fit.used == 40);
    CHECK(fit.left_out_mean < 1);
    CHECK(fit.left_out_mean > 0);
    for (const double x : {0.02, 0.1, 0.5}) {
        const double ln = std::log(x);
        const double l = ln * (fit.camera.curve[0] + ln * (fit.camera.curve[1] + ln * fit.camera.curve[2]));
        const double half = std::log(0.3);
        const double at_half = half * (fit.camera.curve[0] + half * (fit.camera.curve[1] + half * fit.camera.curve[2]));
        CHECK_THAT(l - at_half, Near(ln - half, 0.12));  // straight but for a factor
    }
    // From 0.8 at its left to 0.72 at its right, in ln over half the chart.
    CHECK_THAT(fit.camera.light[0], Near(std::log((0.9 - 0.2 * 535 / 640) / (0.9 - 0.2 * 135 / 640)) / 2, 0.03));
    const auto& f = photo::chart_fields()[18];
    CHECK(color::delta_e_00(fit.camera.lab(seen[18].rgb, f.x_mm, f.y_mm), f.lab) < 1.5);
}

TEST_CASE("what is in glare is left out, too few fields and wrong readings are refused") {
    const auto p = photographed(640, 480, slanted, bench);
    auto seen = photo::see_fields(p, photo::find_chart(p));
    const auto fault = [&](const auto& fields, const auto& truth) {
        try {
            photo::fit_camera(fields, truth, 0.3);
        } catch (const photo::PhotoFault& f) {
            return f.id;
        }
        return std::string("none");
    };
    auto burnt = photo::see_fields(photographed(640, 480, slanted, bench, 2.2, 2.2),
                                   photo::find_chart(photographed(640, 480, slanted, bench)));
    CHECK_FALSE(burnt[0].plain);
    CHECK(burnt[7].plain);
    seen[3].plain = false;
    const auto fit = photo::fit_camera(seen, plan(), 0.3);
    CHECK(fit.used == 39);
    CHECK_FALSE(fit.left_out[3]);
    CHECK(fit.left_out[4]);
    auto few = plan();
    for (std::size_t k = 19; k < few.size(); ++k) few[k].reset();
    few[18].reset();
    CHECK(fault(seen, few) == "chart-few");
    auto other = plan();
    std::reverse(other.begin(), other.end());
    CHECK(fault(seen, other) == "chart-poor");
    CHECK_THROWS_AS(photo::fit_camera(seen, {}, 0.3), std::invalid_argument);
}
