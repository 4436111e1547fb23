#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/schedule/deposit.hpp"
#include "schedule/small_materials.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::schedule;
using namespace foretone::test;

namespace {

Step use(const std::string& id) {
    Step s;
    s.mix = {{id, Amount::parts, 1}};
    return s;
}

}  // namespace

TEST_CASE("dry build is wet build times volume solids") {
    auto step = use("varnish");
    step.wet_um = 80;
    CHECK_THAT(deposit(step, small_materials()).binder_um, Near(40, identity));
}

TEST_CASE("wet film said as thickness, weight and coverage is the same film") {
    auto um = use("varnish"), g = use("varnish"), c = use("varnish");
    um.wet_um = 100;
    g.wet_g_per_m2 = 100;  // density 1
    c.coverage_m2_per_l = 10;
    const auto materials = small_materials();
    CHECK_THAT(deposit(g, materials).wet_um, Near(deposit(um, materials).wet_um, closed_form));
    CHECK_THAT(deposit(c, materials).wet_um, Near(100, closed_form));
}

TEST_CASE("the usual wet film of the method is taken when none is said") {
    CHECK(deposit(use("varnish"), small_materials()).wet_um == 100);  // a film is brushed
    CHECK(deposit(use("oil"), small_materials()).wet_um == 40);       // an oil is wiped
    auto sprayed = use("varnish");
    sprayed.method = material::Method::spray;
    CHECK_THROWS_AS(deposit(sprayed, small_materials()), Fault);  // these materials know no usual sprayed film
}

TEST_CASE("a wiped dye without an amount is taken at 70 g per square metre, and that is said") {
    const auto d = deposit(use("stock"), small_materials());
    CHECK_THAT(d.wet_um, Near(70 / 1.02, closed_form));  // 20 g of powder in the litre: 1.02 g/mL
    REQUIRE(d.notes.size() == 1);
}

TEST_CASE("dye on a square metre absorbs mass times absorptivity") {
    auto step = use("stock");
    step.wet_um = 50;
    // 20 g/L · 50 mL/m² = 1 g/m² of a dye with 5 m²/g decadic.
    CHECK_THAT(deposit(step, small_materials()).dye_absorbance[3], Near(5 * std::log(10.0), closed_form));
}

TEST_CASE("a step of what soaks in is seen damp, a film is not") {
    CHECK(deposit(use("stock"), small_materials()).soaks());
    CHECK(deposit(use("oil"), small_materials()).soaks());
    CHECK_FALSE(deposit(use("varnish"), small_materials()).soaks());
}

TEST_CASE("a coat thinner than 1 or thicker than 500 um is refused") {
    auto step = use("varnish");
    step.coverage_m2_per_l = 1.5;
    try {
        deposit(step, small_materials());
        FAIL("not refused");
    } catch (const Fault& f) {
        CHECK(f.id == "wet-range");
        CHECK(std::string(f.what()).find("666.667 µm (26.2 mil)") != std::string::npos);
    }
}

TEST_CASE("a neat oil wets the wood as what it is") {
    const auto d = deposit(use("oil"), small_materials());
    CHECK(d.liquid_depth_um == d.binder_depth_um);
    CHECK(d.liquid_n == d.binder_n);
    CHECK(d.liquid_fill == 1);
}
