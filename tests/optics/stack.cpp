// What makes a stack computable, and what is said when it is not.

#include "foretone/optics/stack.hpp"

#include <cmath>
#include <limits>
#include <stdexcept>

#include "support/tolerance.hpp"

using namespace foretone::optics;

namespace {

const double endless = std::numeric_limits<double>::infinity();

Stack good() {
    Stack s;
    s.wavelengths = 2;
    s.layers = {{1.5, 0.1, {0.2, 0.3}, {}, 0}, {1.5, 0.1, {0.2, 0.3}, {9, 8}, 0.5}};
    s.base.reflectance = {0.5, 0.6};
    return s;
}

template <class Change>
std::string complaint(Change change) {
    Stack s = good();
    change(s);
    try {
        check(s);
    } catch (const std::invalid_argument& e) {
        return e.what();
    }
    return "nothing";
}

}  // namespace

TEST_CASE("a stack in order passes") {
    CHECK_NOTHROW(check(good()));
    CHECK_NOTHROW(check(Stack{}));
    Stack half_space = good();
    half_space.layers[1].thickness_mm = endless;
    CHECK_NOTHROW(check(half_space));
}

TEST_CASE("each fault is named with its layer, place and value") {
    using Catch::Contains;
    using Catch::Equals;
    CHECK_THAT(complaint([](Stack& s) { s.layers[1].n = 0.9; }), Contains("layer 2") && Contains("index 0.9"));
    CHECK_THAT(complaint([](Stack& s) { s.layers[0].n = 3.5; }), Contains("layer 1") && Contains("1 to 3"));
    CHECK_THAT(complaint([](Stack& s) { s.layers[0].n = std::nan(""); }), Contains("layer 1"));
    CHECK_THAT(complaint([](Stack& s) { s.layers[0].thickness_mm = 0; }), Contains("thickness"));
    CHECK_THAT(complaint([](Stack& s) { s.layers[1].anisotropy = 1; }), Contains("layer 2") && Contains("anisotropy"));
    CHECK_THAT(complaint([](Stack& s) { s.layers[0].absorption_per_mm[1] = -0.25; }),
               Contains("absorption_per_mm") && Contains("wavelength index 1") && Contains("-0.25"));
    CHECK_THAT(complaint([](Stack& s) { s.layers[1].scattering_per_mm[0] = endless; }), Contains("scattering_per_mm"));
    CHECK_THAT(complaint([](Stack& s) { s.layers[1].scattering_per_mm[0] = std::nan(""); }),
               Contains("scattering_per_mm"));
    CHECK_THAT(complaint([](Stack& s) { s.layers[0].absorption_per_mm.pop_back(); }),
               Contains("1 entries for 2 wavelengths"));
    CHECK_THAT(complaint([](Stack& s) { s.layers[0].absorption_per_mm.clear(); }), Contains("0 entries"));
    CHECK_THAT(complaint([](Stack& s) { s.base.reflectance[1] = 1.25; }),
               Contains("base") && Contains("1.25") && Contains("0 to 1"));
    CHECK_THAT(complaint([](Stack& s) { s.base.reflectance.clear(); }), Contains("base"));
    CHECK_THAT(complaint([](Stack& s) { s.layers[0].thickness_mm = endless; }),
               Contains("layer 1") && Contains("above another layer"));
    CHECK_THAT(complaint([](Stack& s) {
                   s.layers[1].thickness_mm = endless;
                   s.layers[1].absorption_per_mm[1] = s.layers[1].scattering_per_mm[1] = 0;
               }),
               Contains("layer 2") && Contains("wavelength index 1"));
    CHECK_THAT(complaint([](Stack& s) {
                   s.base.kind = Base::Kind::black;
                   s.base.reflectance.clear();
               }),
               Equals("nothing"));
}

TEST_CASE("values of the base are from nothing to all, to the last bit, and a negative zero is nothing") {
    for (const double v : {0.0, -0.0, 0.95, 1.0})
        CHECK(complaint([&](Stack& s) { s.base.reflectance[1] = v; }) == "nothing");
    for (const double v : {-0.05, -1e-300, 1 + 1e-15, 1.05})
        CHECK(complaint([&](Stack& s) { s.base.reflectance[1] = v; }) != "nothing");
    CHECK(complaint([](Stack& s) { s.layers[0].absorption_per_mm[0] = -0.05; }) != "nothing");
    CHECK(complaint([](Stack& s) { s.layers[0].absorption_per_mm[0] = -0.0; }) == "nothing");
}
