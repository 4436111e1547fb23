/// Stack files: what is read, and what each bad one is told.

#include <catch2/catch.hpp>

#include "foretone/scene/problem.hpp"
#include "foretone/scene/stack_file.hpp"
#include "support/replaced.hpp"

using namespace foretone;
using foretone::test::replaced;

namespace {

const std::string good_stack =
    "wavelengths_nm = [450, 550]\n[light]\nangle_deg = 8\n[[layer]]\nn = 1.5\nabsorption_per_mm = [1, 2]\nthickness_mm "
    "= 0.1\n[base]\nreflectance = 0.5\n";

void expect_stack(const std::string& text, const std::string& id, const std::string& says) {
    INFO(text);
    try {
        scene::read_stack_text(text, "stack.toml");
        FAIL("not refused");
    } catch (const scene::InputError& e) {
        INFO(e.what());
        bool matched = false;
        for (const auto& p : e.problems) matched = matched || (p.id == id && p.text.find(says) != std::string::npos);
        CHECK(matched);
    }
}

}  // namespace

TEST_CASE("a stack file reads constants and arrays") {
    const auto s = scene::read_stack_text(good_stack, "stack.toml");
    CHECK(s.wavelengths_nm == std::vector<double>{450, 550});
    CHECK(s.light.angle_deg == 8);
    CHECK(s.stack.layers.at(0).absorption_per_mm == std::vector<double>{1, 2});
    CHECK(s.stack.base.reflectance == std::vector<double>{0.5, 0.5});
    const auto range =
        scene::read_stack_text("start_nm = 400\nend_nm = 700\nstep_nm = 10\n[base]\nreflectance = 0.5\n", "s.toml");
    CHECK(range.wavelengths_nm.size() == 31);
    CHECK(range.wavelengths_nm.back() == 700);
}

TEST_CASE("each bad stack is told why") {
    expect_stack(replaced(good_stack, "[1, 2]", "[1, -2]"), "value-range", "absorption_per_mm at 550 nm = -2");
    expect_stack(replaced(good_stack, "[1, 2]", "[1, 2, 3]"), "array-length", "3 values for 2 wavelengths");
    expect_stack(replaced(good_stack, "[1, 2]", "[1, nan]"), "value-not-finite", "finite");
    expect_stack(replaced(good_stack, "n = 1.5", "n = 0.9"), "value-range", "outside 1 to 3");
    expect_stack(replaced(good_stack, "n = 1.5", "n = 1.5\nalbedo = 1.2"), "key-conflict", "albedo above 1");
    expect_stack(replaced(good_stack, "n = 1.5\n", ""), "key-missing", "needs n");
    expect_stack(replaced(good_stack, "0.1", "-0.1"), "value-range", "thickness_mm");
    expect_stack(
        replaced(good_stack, "[base]",
                 "[[layer]]\nn = 1.5\nthickness_mm = inf\nscattering_per_mm = 1\n[[layer]]\nn = 1.5\nthickness_mm = "
                 "1\n[base]"),
        "half-space-above", "only be the last");
    expect_stack(replaced(good_stack, "thickness_mm = 0.1", "thickness_mm = 0.1\nanisotropy = 1.5"), "value-range",
                 "anisotropy");
    expect_stack(replaced(good_stack, "reflectance = 0.5", "reflectance = 1.5"), "value-range", "reflectance");
    expect_stack(replaced(good_stack, "reflectance = 0.5", "reflectance = 0.5\nblack = true"), "key-conflict",
                 "one of");
    expect_stack(replaced(good_stack, "angle_deg = 8", "angle_deg = 95"), "value-range", "degrees");
    expect_stack(replaced(good_stack, "angle_deg = 8", "angle_deg = 8\ndiffuse = true"), "key-conflict", "either");
    expect_stack(replaced(good_stack, "[450, 550]", "[550, 450]"), "spectrum-order", "must rise");
    expect_stack(replaced(good_stack, "wavelengths_nm = [450, 550]\n", ""), "key-missing", "wavelengths are missing");
    expect_stack(replaced(good_stack, "thickness_mm = 0.1", "thicknes_mm = 0.1"), "key-unknown", "thickness_mm");
    expect_stack("wavelengths_nm = [550]\n", "key-missing", "nothing here");
}
