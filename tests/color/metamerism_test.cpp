#include <catch2/catch.hpp>

#include <algorithm>

#include "foretone/color/metamerism.hpp"
#include "support/standards.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::color;
using namespace foretone::test;

namespace {

struct Pair {
    spectral::Spectrum oak, metamer;
};

// An oak reflectance and a metamer of it under D65/10°, computed on the 5 nm grid, printed to six decimals.
Pair pair() {
    const auto rows = table("metamer_pair.csv");
    if (rows.size() != spectral::grid_size) throw std::runtime_error("metamer pair is not on the grid");
    Pair p;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        p.oak[i] = rows[i].number("R_standard(oak, Vrhel #120, clamped ends)");
        p.metamer[i] = rows[i].number("R_metamer");
    }
    return p;
}

std::vector<ViewingLight> viewing(const std::vector<std::string>& ids) {
    std::vector<ViewingLight> v;
    for (const auto& id : ids) v.push_back({id, make_weights(light(id), observer("10deg"))});
    return v;
}

}  // namespace

TEST_CASE("the metameric pair matches under D65 and parts under A") {
    const auto [oak, metamer] = pair();
    const auto u = under_lights(oak, metamer, viewing({"D65", "A", "F11"}));
    REQUIRE(u.lights.size() == 3);
    // Found: ΔE00 0.004 under D65 (the pair is exact for a plain 5 nm sum over 380-780 nm; ours sums at 1 nm over
    // 360-830 nm), 0.69 under A, 2.47 under F11.
    CHECK(u.lights[0].de00 < 0.01);
    CHECK(u.lights[0].special_index < closed_form);
    CHECK(u.lights[1].de00 > 0.6);
    CHECK(u.lights[2].de00 > 2.4);
    CHECK(u.lights[u.worst].light == "F11");

    // The reference method at 1 nm sees the same pair.
    const auto o = observer("10deg");
    const auto lab = [&](const spectral::Spectrum& s, const spectral::Illuminant& l) {
        return to_lab(xyz_by_summation(spectral::from_grid(s), l, o), white_by_summation(l, o));
    };
    for (const auto& l : u.lights) {
        INFO(l.light);
        CHECK_THAT(delta_e_00(lab(oak, light(l.light)), lab(metamer, light(l.light))), Near(l.de00, closed_form));
    }
}

TEST_CASE("equal spectra match under every light") {
    const auto oak = pair().oak;
    for (const auto& l : under_lights(oak, oak, viewing({"D65", "A", "F2", "LED-2700"})).lights) {
        INFO(l.light);
        CHECK(l.de00 == 0);
        CHECK_THAT(l.special_index, Near(0, closed_form));
    }
}

TEST_CASE("the special index does not blame the light for a sample of another depth") {
    // A sample that is the standard times a constant differs under all lights, and by the same factor in X, Y and Z:
    // the multiplicative correction removes it whole.
    const auto oak = pair().oak;
    auto darker = oak;
    for (auto& r : darker.values) r *= 0.8;
    const auto u = under_lights(oak, darker, viewing({"D65", "A", "F11"}));
    for (const auto& l : u.lights) {
        INFO(l.light);
        CHECK(l.de00 > 3);
        CHECK_THAT(l.special_index, Near(0, closed_form));
    }
}

TEST_CASE("the worst light is named, for the difference and for the index") {
    const auto [oak, metamer] = pair();
    const auto u = under_lights(oak, metamer, viewing({"D65", "D50", "A"}));
    CHECK(u.lights[u.worst].light == "A");
    CHECK(u.lights[u.worst_index].light == "A");
    for (const auto& l : u.lights) {
        CHECK(l.de00 <= u.lights[u.worst].de00);
        CHECK(l.special_index <= u.lights[u.worst_index].special_index);
        CHECK(l.de00 == delta_e_00(l.standard, l.sample));
    }
}

TEST_CASE("no light, or a sample that reflects nothing, is refused") {
    using Catch::Contains;
    const auto oak = pair().oak;
    CHECK_THROWS_AS(under_lights(oak, oak, {}), std::invalid_argument);
    CHECK_THROWS_WITH(under_lights(oak, oak, {}), Contains("no light"));
    CHECK_THROWS_WITH(under_lights(oak, spectral::Spectrum{}, viewing({"D65"})),
                      Contains("X of the sample") && Contains("is 0"));
}
