#include <catch2/catch.hpp>

#include <limits>
#include <random>

#include "foretone/color/srgb.hpp"
#include "foretone/measure/photo_patches.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::measure;
using namespace foretone::test;

namespace {

// A photograph of 120 x 80 pixels: a bench of 0.2, the card at 10,10 (20 x 20), boards of given linear color from x =
// 40, each 20 wide.
class Photo {
public:
    explicit Photo(std::array<double, 3> light = {1, 1, 1}, double noise = 0) : light_(light), noise_(noise) {
        paint({0, 0, 120, 80}, {0.2, 0.2, 0.2});
        paint(card, {0.9, 0.9, 0.9});
    }
    // The i-th board from the left.
    NamedRect board(const std::string& name, int i, std::array<double, 3> linear) {
        const Rect all{40 + 25 * i, 10, 20, 60};
        paint(all, linear);
        return {name, {all.x + 2, all.y + 2, 16, 56}};
    }
    void paint(const Rect& r, std::array<double, 3> linear) {
        for (int y = r.y; y < r.y + r.height; ++y)
            for (int x = r.x; x < r.x + r.width; ++x)
                for (std::size_t c = 0; c < 3; ++c)
                    at(x, y, c) = static_cast<float>(std::min(
                        1.0, linear[c] * light_[c] + noise_ * (static_cast<double>(random_() % 1000) / 500 - 1)));
    }
    float& at(int x, int y, std::size_t c) { return values[3 * static_cast<std::size_t>(y * 120 + x) + c]; }

    PixelView view() const { return {120, 80, values}; }
    std::vector<float> values = std::vector<float>(3 * 120 * 80);
    const Rect card{10, 10, 20, 20};

private:
    std::array<double, 3> light_;
    double noise_;
    std::mt19937 random_{7};
};

color::Lab lab_of(std::array<double, 3> linear) {
    for (double& v : linear) v = color::srgb_encode(v);
    return color::to_lab(color::srgb_to_xyz(linear), color::srgb_white);
}

const std::array<double, 3> maple = {0.60, 0.45, 0.28}, oiled = {0.50, 0.33, 0.16};

std::string fault(Photo& photo, const Rect& card, const std::vector<NamedRect>& patches) {
    try {
        read_patches(photo.view(), card, patches);
    } catch (const Refused& e) {
        return e.id;
    }
    return "none";
}

}  // namespace

TEST_CASE("boards read relative to the card, whatever the exposure and the color of the light") {
    for (const auto& light : {std::array<double, 3>{1, 1, 1}, {0.5, 0.5, 0.5}, {1, 0.8, 0.5}, {0.4, 0.5, 0.7}}) {
        Photo photo(light);
        const auto bare = photo.board("bare", 0, maple), coat = photo.board("oiled", 1, oiled);
        const auto r = read_patches(photo.view(), photo.card, {bare, coat});
        REQUIRE(r.readings.size() == 2);
        CHECK(color::delta_e_00(*r.readings[0].lab, lab_of(maple)) < 1e-3);  // float pixels
        CHECK(color::delta_e_00(*r.readings[1].lab, lab_of(oiled)) < 1e-3);
        for (const auto& one : r.readings) {
            CHECK(one.relative);
            CHECK(one.light == "D65");
            CHECK(one.tags.at("source") == "photograph");
        }
        REQUIRE(r.notes.size() == 1);
        CHECK(r.notes[0].id == "photo-relative");
    }
}

TEST_CASE("noise of pixels averages out in linear light") {
    Photo photo({1, 0.9, 0.7}, 0.05);
    const auto bare = photo.board("bare", 0, maple);
    const auto r = read_patches(photo.view(), photo.card, {bare});
    // 896 and 400 pixels of noise 0.05/√3 leave about 0.1 % and 0.15 %, that is ΔE00 of about 0.1.
    CHECK(color::delta_e_00(*r.readings[0].lab, lab_of(maple)) < 0.5);
}

TEST_CASE("light that changes over the card is told, and refused when it is much") {
    for (const double slope : {0.002, 0.01, 0.04}) {
        Photo photo({0.6, 0.6, 0.6});
        const auto bare = photo.board("bare", 0, maple);
        for (int y = 10; y < 30; ++y)
            for (int x = 10; x < 30; ++x)
                for (std::size_t c = 0; c < 3; ++c) photo.at(x, y, c) *= static_cast<float>(1 + slope * (x - 19.5));
        if (slope > 0.03) {
            CHECK(fault(photo, photo.card, {bare}) == "card-uneven");
            continue;
        }
        const auto r = read_patches(photo.view(), photo.card, {bare});
        CHECK((r.notes.size() == 2 && r.notes[1].id == "light-uneven") == (slope > 0.005));
    }
}

TEST_CASE("a card that cannot serve and patches that cannot be read are refused") {
    Photo photo;
    const auto bare = photo.board("bare", 0, maple);
    CHECK(fault(photo, photo.card, {bare}) == "none");
    CHECK(fault(photo, {110, 10, 20, 20}, {bare}) == "card-outside");
    CHECK(fault(photo, {-1, 10, 20, 20}, {bare}) == "card-outside");
    CHECK(fault(photo, {10, 10, std::numeric_limits<int>::max(), 20}, {bare}) == "card-outside");
    CHECK(fault(photo, {10, 10, 0, 20}, {bare}) == "card-outside");
    CHECK(fault(photo, {10, 10, 20, 4}, {bare}) == "card-small");
    CHECK(fault(photo, photo.card, {}) == "patches-none");
    CHECK(fault(photo, photo.card, {bare, bare}) == "patch-twice");
    CHECK(fault(photo, photo.card, {{"x", {100, 70, 30, 30}}}) == "patch-outside");
    CHECK(fault(photo, photo.card, {{"x", {40, 10, 5, 30}}}) == "patch-small");
    CHECK(fault(photo, photo.card, {{"x", {20, 20, 20, 20}}}) == "patch-on-card");
    photo.paint({90, 10, 20, 20}, {2, 2, 2});
    CHECK(fault(photo, photo.card, {{"glare", {90, 10, 20, 20}}}) == "patch-clipped-whole");
    const auto partly = read_patches(photo.view(), photo.card, {{"half glare", {90, 15, 20, 40}}});
    CHECK(partly.notes.back().id == "patch-clipped");

    Photo bright({1.2, 1.2, 1.2}), dark({0.05, 0.05, 0.05});
    CHECK(fault(bright, bright.card, {bright.board("bare", 0, maple)}) == "card-clipped");
    CHECK(fault(dark, dark.card, {dark.board("bare", 0, maple)}) == "card-dark");
    photo.values.pop_back();
    CHECK_THROWS_AS(read_patches(photo.view(), photo.card, {bare}), std::invalid_argument);
}
