#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>

#include <lcms2.h>

#include "color/seeded.hpp"
#include "foretone/color/adaptation.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/color/srgb.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

// Independent arithmetic: LittleCMS 2.14.

using namespace foretone::color;
using namespace foretone::test;

namespace {

const Xyz pcs_white{96.42, 100, 82.49};

cmsCIEXYZ cms(const Xyz& c) { return {c.x, c.y, c.z}; }
cmsCIELab cms(const Lab& c) { return {c.l, c.a, c.b}; }

double cms_delta(const Lab& p, const Lab& q) {
    const cmsCIELab a = cms(p), b = cms(q);
    return cmsCIE2000DeltaE(&a, &b, 1, 1, 1);
}

}  // namespace

TEST_CASE("CIEDE2000 of 1,000 seeded pairs agrees with LittleCMS") {
    Seeded seed(9);
    double worst = 0;
    Lab p_worst, q_worst;
    for (int i = 0; i < 1000; ++i) {
        const Lab p = seed.lab(), q = seed.lab();
        const double off = std::abs(delta_e_00(p, q) - cms_delta(p, q));
        if (worse(off, worst)) {
            worst = off;
            p_worst = p;
            q_worst = q;
        }
    }
    INFO("worst pair " << p_worst.l << ' ' << p_worst.a << ' ' << p_worst.b << " / " << q_worst.l << ' ' << q_worst.a
                       << ' ' << q_worst.b);
    CHECK_THAT(worst, Near(0, closed_form));
}

// Pairs 9–15 sit at nearly opposite hues, where the mean hue jumps by 180 degrees; pair 14 is where libraries are known
// to part.
TEST_CASE("CIEDE2000 of the 34 published pairs agrees with LittleCMS, in both orders") {
    for (const auto& r : table("ciede2000_sharma_2005.csv")) {
        INFO("pair " << r.text("pair"));
        const Lab p{r.number("L1"), r.number("a1"), r.number("b1")}, q{r.number("L2"), r.number("a2"), r.number("b2")};
        CHECK_THAT(delta_e_00(p, q), Near(cms_delta(p, q), closed_form));
        CHECK_THAT(delta_e_00(q, p), Near(cms_delta(q, p), closed_form));
    }
}

TEST_CASE("CIELAB to XYZ and back agrees with LittleCMS for 1,000 seeded colors") {
    Seeded seed(10);
    double worst_xyz = 0, worst_lab = 0;
    const cmsCIEXYZ w = cms(pcs_white);
    for (int i = 0; i < 1000; ++i) {
        Lab p = seed.lab();
        if (i % 4 == 0) p = {p.l / 20, p.a / 20, p.b / 20};  // near black: the straight branch
        const cmsCIELab in = cms(p);
        cmsCIEXYZ theirs;
        cmsLab2XYZ(&w, &theirs, &in);
        const Xyz ours = from_lab(p, pcs_white);
        worst_xyz = worst_of(
            {worst_xyz, std::abs(ours.x - theirs.X), std::abs(ours.y - theirs.Y), std::abs(ours.z - theirs.Z)});
        cmsCIELab back;
        cmsXYZ2Lab(&w, &back, &theirs);
        const Lab lab = to_lab({theirs.X, theirs.Y, theirs.Z}, pcs_white);
        worst_lab = worst_of({worst_lab, std::abs(lab.l - back.L), std::abs(lab.a - back.a), std::abs(lab.b - back.b)});
    }
    CHECK_THAT(worst_xyz, Near(0, closed_form));
    CHECK_THAT(worst_lab, Near(0, closed_form));
}

TEST_CASE("the sRGB primaries adapted to D50 agree with LittleCMS's own sRGB profile") {
    const std::unique_ptr<void, int (*)(void*)> profile(cmsCreate_sRGBProfile(), cmsCloseProfile);
    REQUIRE(profile);
    const std::pair<cmsTagSignature, std::array<double, 3>> primaries[] = {
        {cmsSigRedColorantTag, {1, 0, 0}}, {cmsSigGreenColorantTag, {0, 1, 0}}, {cmsSigBlueColorantTag, {0, 0, 1}}};
    for (const auto& [tag, rgb] : primaries) {
        const auto* theirs = static_cast<const cmsCIEXYZ*>(cmsReadTag(profile.get(), tag));
        REQUIRE(theirs);
        const Xyz ours = adapt(srgb_to_xyz(rgb), srgb_white, {96.42, 100, 82.49}, Cat::bradford);
        CHECK_THAT(ours.x / 100, Near(theirs->X, closed_form));
        CHECK_THAT(ours.y / 100, Near(theirs->Y, closed_form));
        CHECK_THAT(ours.z / 100, Near(theirs->Z, closed_form));
    }
}
