// What a photograph must be to be read: each limit from both sides, with the picture made for it.

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

#include "foretone/measure/photo_patches.hpp"
#include "measure/refusals.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

// 100 x 60 pixels of 0.3, a card of 30 x 30 at 0,0 and a patch of 20 x 20 at 50,20.
struct BoundsPhoto {
    std::vector<float> values = std::vector<float>(3 * 100 * 60, 0.3f);
    measure::Rect card{0, 0, 30, 30}, patch{50, 20, 20, 20};
    measure::CardRules rules;

    BoundsPhoto() { paint(card, 0.8f), paint(patch, 0.4f); }
    void paint(const measure::Rect& r, float v, int channel = -1) {
        for (int y = r.y; y < r.y + r.height; ++y)
            for (int x = r.x; x < r.x + r.width; ++x)
                for (int c = 0; c < 3; ++c)
                    if (channel < 0 || c == channel) values[static_cast<std::size_t>(3 * (y * 100 + x) + c)] = v;
    }
    measure::Readings read() const { return measure::read_patches({100, 60, values}, card, {{"board", patch}}, rules); }
    // The id of what is refused, else of the notes beside that of every photograph.
    std::string outcome() const {
        std::string out;
        try {
            for (const auto& n : read().notes)
                if (n.id != "photo-relative") out += (out.empty() ? "" : " ") + n.id;
        } catch (const measure::Refused& e) {
            return e.id;
        }
        return out;
    }
};

}  // namespace

TEST_CASE("a patch is noted from one in a hundred clipped pixels on, and refused from half of them on") {
    const auto with_rows = [](int rows, int pixels) {  // of 20 pixels a row
        BoundsPhoto p;
        p.paint({p.patch.x, p.patch.y, 20, rows}, 1);
        p.paint({p.patch.x, p.patch.y + rows, pixels, 1}, 0.99f);
        return p.outcome();
    };
    CHECK(with_rows(0, 4).empty());  // 4 of 400
    CHECK(with_rows(0, 5) == "patch-clipped");
    CHECK(with_rows(10, 0) == "patch-clipped");
    CHECK(with_rows(10, 1) == "patch-clipped-whole");
    BoundsPhoto one_channel;  // one channel is enough
    one_channel.paint(one_channel.patch, 0.99f, 2);
    CHECK(one_channel.outcome() == "patch-clipped-whole");
    BoundsPhoto below;
    below.paint(below.patch, 0.98f);
    CHECK(below.outcome().empty());
}

TEST_CASE("a card is neither clipped, dark nor uneven, to the bound") {
    BoundsPhoto clipped;
    clipped.paint({0, 0, 9, 1}, 1);  // 9 of 900
    CHECK(clipped.outcome().find("card-clipped") == std::string::npos);
    clipped.paint({0, 0, 10, 1}, 1);
    CHECK(clipped.outcome() == "card-clipped");
    BoundsPhoto dark;
    dark.paint(dark.card, 0.081f, 1);
    CHECK(dark.outcome().empty());
    dark.paint(dark.card, 0.079f, 1);
    CHECK(dark.outcome() == "card-dark");
    // One of the nine fields is apart by d from the others' level: half the range over the mean is d/2/(level + d/9).
    const auto uneven = [](double share) {
        BoundsPhoto p;
        const double level = 0.5, d = 2 * share * level / (1 - 2 * share / 9);
        p.paint(p.card, 0.5f);
        p.paint({10, 20, 10, 10}, static_cast<float>(level + d));
        return p.outcome();
    };
    CHECK(uneven(0.029).empty());
    CHECK(uneven(0.031) == "light-uneven");
    CHECK(uneven(0.149) == "light-uneven");
    CHECK(uneven(0.151) == "card-uneven");
}

TEST_CASE("card and patch lie within the picture, large enough, and not on one another") {
    BoundsPhoto p;
    p.patch = {30, 0, 20, 20};  // beside the card, edge to edge
    CHECK(p.outcome().empty());
    p.patch.x = 29;
    CHECK(p.outcome() == "patch-on-card");
    p.patch = {80, 40, 20, 20};  // into the last corner
    CHECK(p.outcome().empty());
    p.patch.width = 21;
    CHECK(p.outcome() == "patch-outside");
    p.patch = {50, -1, 20, 20};
    CHECK(p.outcome() == "patch-outside");
    p.patch = {50, 20, std::numeric_limits<int>::max(), 20};
    CHECK(p.outcome() == "patch-outside");
    p.patch = {50, 20, 8, 8};
    CHECK(p.outcome().empty());
    p.patch.height = 7;
    CHECK(p.outcome() == "patch-small");
    p = {};
    p.card = {0, 0, 7, 30};
    CHECK(p.outcome() == "card-small");
    p.card = {0, 31, 30, 30};
    CHECK(p.outcome() == "card-outside");
    p.card = {0, 0, 2, 2}, p.rules.least_side = 1;  // nine fields need three pixels a side, whatever the rules say
    CHECK(p.outcome() == "card-small");
}

TEST_CASE("what is read is the patch over the card times the card's reflectance, channel by channel") {
    BoundsPhoto p;
    p.paint(p.card, 0.5f, 0), p.paint(p.card, 0.8f, 1), p.paint(p.card, 0.25f, 2);
    p.paint(p.patch, 0.25f, 0), p.paint(p.patch, 0.4f, 1), p.paint(p.patch, 0.125f, 2);
    for (const double reflectance : {0.05, 0.5, 0.9, 1.0}) {
        p.rules.reflectance = reflectance;
        const auto r = p.read();
        REQUIRE(r.readings.size() == 1);
        // A neutral of half the card's reflectance: L* = 116 (R/2)^(1/3) − 16 above 0.008856 (CIE 15).
        CHECK_THAT(r.readings[0].lab->l, Near(116 * std::cbrt(reflectance / 2) - 16, 1e-4));
        CHECK_THAT(r.readings[0].lab->a, Near(0, 1e-4));
        CHECK((r.readings[0].relative && r.readings[0].light == "D65" && r.readings[0].observer == "2deg"));
    }
    for (const double reflectance : {0.049, 1.001}) {
        p.rules.reflectance = reflectance;
        CHECK_THROWS_AS(p.read(), std::invalid_argument);
    }
    p.rules.reflectance = 0.9;
    p.values.pop_back();
    CHECK_THROWS_AS(p.read(), std::invalid_argument);
}

TEST_CASE("a card of three pixels a side is read where the rules ask for no more, one of two never is") {
    const auto sized = [](int side, int least) {
        BoundsPhoto p;
        p.card = {0, 0, side, side};
        p.rules.least_side = least;
        return p.outcome();
    };
    CHECK(sized(3, 1) == sized(8, 8));  // nine fields of one pixel
    CHECK(sized(2, 1) == sized(7, 8));  // refused as too small a card is
    CHECK(sized(2, 1) != sized(3, 1));
}
