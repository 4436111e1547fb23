/// Stack files: what each key becomes, and every fault at its place.

#include <cmath>

#include "foretone/scene/stack_file.hpp"
#include "scene/faults.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string at_550 = "wavelengths_nm = [550]\n";
const std::string black_base = "[base]\nblack = true\n";
const std::string slab = "[[layer]]\nn = 1.5\nthickness_mm = 0.2\n";

scene::StackFile stack_from(const std::string& text) { return scene::read_stack_text(text, "stack.toml"); }
void refuses_stack(const std::string& text, const std::string& id, const std::string& words, const std::string& says) {
    INFO(text);
    const auto at = place_in(text, words);
    holds_fault(faults_of([&] { stack_from(text); }), id, at.line, at.column, says);
}

}  // namespace

TEST_CASE("a layer's keys become its coefficients; what is not stated is nothing") {
    const auto s = stack_from(
        "wavelengths_nm = [450, 550, 650]\n[[layer]]\nn = 1.52\nabsorption_per_mm = 0.4\n"
        "scattering_per_mm = [3, 2, 1]\nanisotropy = -0.5\nthickness_mm = 0.3\n" +
        slab + black_base);
    REQUIRE(s.stack.layers.size() == 2);
    const auto &a = s.stack.layers[0], &b = s.stack.layers[1];
    CHECK(a.n == 1.52);
    CHECK(a.absorption_per_mm == std::vector<double>{0.4, 0.4, 0.4});
    CHECK(a.scattering_per_mm == std::vector<double>{3, 2, 1});
    CHECK(a.anisotropy == -0.5);
    CHECK(a.thickness_mm == 0.3);
    CHECK(b.n == 1.5);
    CHECK(b.thickness_mm == 0.2);
    CHECK(b.absorption_per_mm == std::vector<double>{0, 0, 0});
    CHECK(b.scattering_per_mm.empty());
    CHECK(b.anisotropy == 0);
    CHECK(s.stack.wavelengths == 3);
}

TEST_CASE("light comes straight from above, at an angle, or from everywhere") {
    CHECK(stack_from(at_550 + slab).light.angle_deg == 0);
    CHECK_FALSE(stack_from(at_550 + slab).light.diffuse);
    CHECK(stack_from(at_550 + "[light]\nangle_deg = 60\n" + slab).light.angle_deg == 60);
    CHECK(stack_from(at_550 + "[light]\ndiffuse = true\n" + slab).light.diffuse);
    CHECK_FALSE(stack_from(at_550 + "[light]\ndiffuse = false\n" + slab).light.diffuse);
    refuses_stack(at_550 + "[light]\nangle_deg = 90\n" + slab, "value-range", "90\n", "0 to 89.9 degrees");
    refuses_stack(at_550 + "[light]\ndiffuse = 1\n" + slab, "value-type", "1\n[[", "must be true or false");
    refuses_stack(at_550 + "[light]\ncolor = 1\n" + slab, "key-unknown", "color", "in [light]");
    refuses_stack(at_550 + "[light]\nangle_deg = 5\ndiffuse = true\n" + slab, "key-conflict", "[light]", "either");
}

TEST_CASE("a base reflects, is black, or is open; unsaid it is open") {
    using Kind = optics::Base::Kind;
    CHECK(stack_from(at_550 + slab).stack.base.kind == Kind::open);
    CHECK(stack_from(at_550 + slab + "[base]\nopen = true\n").stack.base.kind == Kind::open);
    CHECK(stack_from(at_550 + slab + black_base).stack.base.kind == Kind::black);
    const auto s = stack_from(at_550 + "[base]\nreflectance = 1\n");
    CHECK(s.stack.base.kind == Kind::lambertian);
    CHECK(s.stack.base.reflectance == std::vector<double>{1});
    refuses_stack(at_550 + slab + "[base]\nblack = false\n", "value-type", "false", "black can only be true");
    refuses_stack(at_550 + slab + "[base]\nopen = 1\n", "value-type", "1\n", "open can only be true");
    refuses_stack(at_550 + slab + "[base]\n", "key-conflict", "[base]", "is one of reflectance");
    refuses_stack(at_550 + slab + "[base]\nblack = true\nopen = true\n", "key-conflict", "[base]", "is one of");
    refuses_stack(at_550 + slab + "[base]\nreflectance = -0.1\n", "value-range", "-0.1", "0 to 1");
    refuses_stack("base = 5\n" + at_550 + slab, "value-type", "5\nwave", "a table is due");
}

TEST_CASE("wavelengths are a rising list, or a start, an end and a step that reaches it") {
    CHECK(stack_from("start_nm = 400\nend_nm = 405\nstep_nm = 2\n" + slab).wavelengths_nm ==
          std::vector<double>{400, 402, 404});
    CHECK(stack_from("start_nm = 550\nend_nm = 550\nstep_nm = 5\n" + slab).wavelengths_nm == std::vector<double>{550});
    CHECK(stack_from("start_nm = 400\nend_nm = 400.3\nstep_nm = 0.1\n" + slab).wavelengths_nm.size() == 4);
    refuses_stack("start_nm = 500\nend_nm = 400\nstep_nm = 5\n" + slab, "value-range", "start_nm", "no list");
    refuses_stack("start_nm = 400\nend_nm = 700\nstep_nm = 0.01\n" + slab, "value-range", "start_nm", "1 to 10000");
    refuses_stack("start_nm = 400\nend_nm = 700\n" + slab, "key-missing", "start_nm", "the wavelengths are missing");
    refuses_stack("wavelengths_nm = []\n" + slab, "value-empty", "wavelengths_nm", "is empty");
    refuses_stack("wavelengths_nm = [500, 500]\n" + slab, "spectrum-order", "wavelengths_nm", "500 follows 500");
    refuses_stack("wavelengths_nm = 550\n" + slab, "value-type", "550\n", "a list of numbers is due");
    refuses_stack("start_nm = 99\nend_nm = 700\nstep_nm = 1\n" + slab, "value-range", "99\n", "outside 100 to");
}

TEST_CASE("only the last layer may have no end") {
    const std::string endless = "[[layer]]\nn = 1.5\nscattering_per_mm = 2\nthickness_mm = inf\n";
    CHECK(std::isinf(stack_from(at_550 + slab + endless).stack.layers[1].thickness_mm));
    refuses_stack(at_550 + endless + slab, "half-space-above", "inf", "only be the last layer");
    refuses_stack(at_550 + "[[layer]]\nn = 1.5\nthickness_mm = -inf\n", "value-not-finite", "-inf", "finite");
    refuses_stack(at_550 + "[[layer]]\nn = 1.5\nthickness_mm = 0\n", "value-range", "0\n", "mm");
}

TEST_CASE("layers that cannot be are told at their place") {
    refuses_stack(at_550 + "[[layer]]\nthickness_mm = 1\n", "key-missing", "[[layer]]", "needs n");
    refuses_stack(at_550 + "[[layer]]\nn = 1.5\n", "key-missing", "[[layer]]", "needs thickness_mm");
    refuses_stack(at_550 + "[[layer]]\nn = 3.1\nthickness_mm = 1\n", "value-range", "3.1", "1 to 3");
    refuses_stack(at_550 + slab + "albedo = 0.5\n", "key-conflict", "albedo",
                  "absorption_per_mm and scattering_per_mm");
    refuses_stack(at_550 + slab + "anisotropy = 1\n", "value-range", "1\n", "-0.99 to 0.99");
    refuses_stack(at_550 + slab + "absorption_per_mm = [1, 2]\n", "array-length", "[1, 2]",
                  "2 values for 1 wavelengths");
    refuses_stack(at_550 + slab + "scattering_per_mm = [\"1\"]\n", "value-unit", "\"1\"",
                  "scattering_per_mm at 550 nm");
    refuses_stack(at_550 + slab + "absorption_per_mm = 1e8\n", "value-range", "1e8", "outside 0 to");
    refuses_stack("layer = 5\n" + at_550 + black_base, "value-type", "5\n", "a layer is a table");
    refuses_stack("layer = [ 5 ]\n" + at_550 + black_base, "value-type", "5 ]", "a layer is a table");
    refuses_stack("solver = \"angular\"\n" + at_550 + slab, "key-unknown", "solver", "in the stack");
}
