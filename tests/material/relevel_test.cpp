#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/material/relevel.hpp"
#include "support/standards.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

material::Wood ramp() {
    material::Wood w;
    for (std::size_t i = 0; i < spectral::grid_size; ++i)
        w.reflectance.values[i] = 0.2 + 0.5 * static_cast<double>(i) / 80;
    return w;
}

}  // namespace

TEST_CASE("a wood brought to a Lab value has that value") {
    const auto weights = color::make_weights(light("D65"), observer("10deg"));
    for (const color::Lab target :
         {color::Lab{80, 5, 19}, color::Lab{46, 8, 15}, color::Lab{60, 12, 24}, color::Lab{30, 6, 9}}) {
        auto wood = ramp();
        REQUIRE(material::relevel(wood, target, weights));
        const auto lab = color::to_lab(color::xyz(wood.reflectance.values, weights), weights.white);
        CHECK_THAT(color::delta_e_ab(lab, target), Near(0, quadrature));
        for (const double r : wood.reflectance.values) CHECK((r > 0.005 && r < 0.98));
    }
}

TEST_CASE("a color no wood can have is refused and the wood is left as it was") {
    const auto weights = color::make_weights(light("D65"), observer("10deg"));
    auto wood = ramp();
    CHECK_FALSE(material::relevel(wood, {50, -60, -90}, weights));
    CHECK_FALSE(material::relevel(wood, {99.9, 40, 60}, weights));
    CHECK(wood.reflectance.values == ramp().reflectance.values);
}

TEST_CASE("a wood brought to the color it has stays as it is") {
    const auto weights = color::make_weights(light("D65"), observer("2deg"));
    auto wood = ramp();
    const auto own = color::to_lab(color::xyz(wood.reflectance.values, weights), weights.white);
    REQUIRE(material::relevel(wood, own, weights));
    double worst = 0;
    for (std::size_t i = 0; i < spectral::grid_size; ++i) {
        const double d = std::abs(wood.reflectance.values[i] - ramp().reflectance.values[i]);
        worst = d <= worst ? worst : d;
    }
    CHECK_THAT(worst, Near(0, quadrature));
}

TEST_CASE("there and back by way of another color is the shape it was") {
    const auto weights = color::make_weights(light("D65"), observer("10deg"));
    auto wood = ramp();
    const auto own = color::to_lab(color::xyz(wood.reflectance.values, weights), weights.white);
    REQUIRE(material::relevel(wood, {60, 10, 22}, weights));
    REQUIRE(material::relevel(wood, own, weights));
    double worst = 0;
    for (std::size_t i = 0; i < spectral::grid_size; ++i) {
        const double d = std::abs(wood.reflectance.values[i] - ramp().reflectance.values[i]);
        worst = d <= worst ? worst : d;
    }
    CHECK_THAT(worst, Near(0, 1e-5));  // both ways solved to a color within 1e-6
}

TEST_CASE("a paler goal of the same chroma and hue is paler at every wavelength") {
    const auto weights = color::make_weights(light("D65"), observer("10deg"));
    auto dark = ramp(), pale = ramp();
    REQUIRE(material::relevel(dark, {55, 9, 21}, weights));
    REQUIRE(material::relevel(pale, {70, 9, 21}, weights));
    for (std::size_t i = 8; i < 71; ++i) CHECK(pale.reflectance.values[i] > dark.reflectance.values[i]);
}
