// What must hold for every stack, over seeded random ones: energy, reciprocity, division of layers, white furnace.

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "angular_stacks.hpp"
#include "foretone/optics/angular.hpp"
#include "support/sanitized.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;

namespace {

const int stacks = sanitized() ? 150 : 1000;  // the release build draws them all
constexpr AngularOptions coarse{6};

/// The largest of many errors and where it was met.
struct Worst {
    double error = 0;
    int stack = -1;
    void see(double e, int s) {
        if (e <= error) return;
        error = std::isfinite(e) ? e : 1e300;
        stack = s;
    }
};

Stack turned_over(Stack stack) {
    std::reverse(stack.layers.begin(), stack.layers.end());
    return stack;
}

Stack divided(const Stack& stack, Dice& dice) {
    Stack out = stack;
    out.layers.clear();
    for (const Layer& whole : stack.layers) {
        Layer upper = whole, lower = whole;
        upper.thickness_mm = whole.thickness_mm * dice.between(0.001, 0.999);
        lower.thickness_mm = whole.thickness_mm - upper.thickness_mm;
        out.layers.push_back(upper);
        out.layers.push_back(lower);
    }
    return out;
}

Light random_light(Dice& dice) { return {false, dice.between(0, 89)}; }

}  // namespace

TEST_CASE("a stack that does not absorb sends back or lets through all light") {
    Dice dice(1);
    Worst worst;
    for (int i = 0; i < stacks; ++i) {
        const Stack stack = random_stack(dice, Absorbs::nothing);
        for (const Light& light : {Light{true, 0}, random_light(dice)}) {
            const Fluxes f = angular(stack, light, coarse);
            worst.see(std::abs(f.reflectance[0] + f.transmittance[0] - 1), i);
        }
    }
    INFO("stack " << worst.stack);
    CHECK_THAT(worst.error, Near(0, closed_form));
}

TEST_CASE("a stack that absorbs nothing over a white base returns all light, from outside and from inside") {
    Dice dice(2);
    Worst worst, inside;
    for (int i = 0; i < stacks; ++i) {
        Stack stack = random_stack(dice, Absorbs::nothing);
        stack.base = {Base::Kind::lambertian, {1.0}};
        for (const Light& light : {Light{true, 0}, random_light(dice)}) {
            worst.see(std::abs(angular(stack, light, coarse).reflectance[0] - 1), i);
        }
        inside.see(std::abs(angular_inside(stack, coarse)[0] - 1), i);
    }
    INFO("stacks " << worst.stack << " and " << inside.stack);
    CHECK_THAT(worst.error, Near(0, closed_form));
    CHECK_THAT(inside.error, Near(0, closed_form));
}

TEST_CASE("no stack returns more light than it gets, nor less than none") {
    Dice dice(3);
    Worst excess, negative;
    for (int i = 0; i < stacks; ++i) {
        Stack stack = random_stack(dice, Absorbs::anything);
        const int base = dice.below(3);
        if (base == 1) stack.base = {Base::Kind::lambertian, {dice.unit()}};
        if (base == 2) stack.base = {Base::Kind::black, {}};
        for (const Light& light : {Light{true, 0}, random_light(dice)}) {
            const Fluxes f = angular(stack, light, coarse);
            excess.see(f.reflectance[0] + f.transmittance[0] - 1, i);
            negative.see(f.surface[0] - f.reflectance[0], i);
            negative.see(-f.surface[0], i);
            negative.see(-f.transmittance[0], i);
        }
    }
    INFO("stacks " << excess.stack << " and " << negative.stack);
    CHECK_THAT(excess.error, Near(0, closed_form));
    CHECK_THAT(negative.error, Near(0, closed_form));
}

TEST_CASE("a stack in air lets through as much diffuse light from either side") {
    Dice dice(4);
    Worst worst;
    for (int i = 0; i < stacks; ++i) {
        const Stack stack = random_stack(dice, Absorbs::anything);
        const double down = angular(stack, {true, 0}, coarse).transmittance[0];
        const double up = angular(turned_over(stack), {true, 0}, coarse).transmittance[0];
        worst.see(std::abs(down - up), i);
    }
    INFO("stack " << worst.stack);
    CHECK_THAT(worst.error, Near(0, closed_form));
}

TEST_CASE("a layer cut in two at any depth is still the same layer") {
    Dice dice(5);
    Worst worst;
    for (int i = 0; i < stacks; ++i) {
        Stack stack = random_stack(dice, Absorbs::anything);
        if (dice.below(2) == 1) stack.base = {Base::Kind::lambertian, {dice.unit()}};
        const Stack parts = divided(stack, dice);
        const Light light = dice.below(2) == 1 ? Light{true, 0} : random_light(dice);
        const Fluxes whole = angular(stack, light, coarse), cut = angular(parts, light, coarse);
        worst.see(std::abs(whole.reflectance[0] - cut.reflectance[0]), i);
        worst.see(std::abs(whole.transmittance[0] - cut.transmittance[0]), i);
        worst.see(std::abs(whole.surface[0] - cut.surface[0]), i);
        worst.see(std::abs(angular_inside(stack, coarse)[0] - angular_inside(parts, coarse)[0]), i);
        worst.see(
            std::abs(angular(stack, Geometry::g45_0, coarse).body[0] - angular(parts, Geometry::g45_0, coarse).body[0]),
            i);
    }
    INFO("stack " << worst.stack);
    CHECK_THAT(worst.error, Near(0, closed_form));
}
