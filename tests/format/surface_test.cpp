#include "foretone/format/surface.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "support/pictures/example_surfaces.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/optics/fresnel.hpp"
#include "foretone/optics/gloss.hpp"
#include "support/pictures/renderer.hpp"
#include "support/standards.hpp"
#include "support/tolerance.hpp"

using namespace foretone;

TEST_CASE("the lobe at 45/0 is that of the gloss model without its Fresnel factor", "[renderer]") {
    for (const double alpha : {0.05, 0.1, 0.3, 0.6, 1.0}) {
        INFO("alpha " << alpha);
        CHECK_THAT(format::lobe_45_0(alpha, alpha), test::Near(test::isotropic_lobe(alpha, 1), test::closed_form));
        // Against the optics room's surface, which has its Fresnel reflectance at 22.5°.
        const double f = optics::fresnel(std::cos(3.14159265358979323846 / 8), 1, 1.5).unpolarised();
        CHECK_THAT(f * format::lobe_45_0(alpha, alpha),
                   test::Near(optics::surface_radiance(alpha, 1.5, optics::Geometry::g45_0), test::closed_form));
    }
    CHECK(format::lobe_45_0(0, 0) == 0);
}

TEST_CASE("the azimuths of an anisotropic lobe are averaged to convergence", "[renderer]") {
    for (const double along : {0.1, 0.2, 0.3, 0.5}) {
        double sum = 0;
        for (int i = 0; i < 20000; ++i)
            sum += test::anisotropic_lobe(along, 1, 2 * 3.14159265358979323846 * i / 20000) / 20000;
        CHECK_THAT(format::lobe_45_0(along, 1), test::Near(sum, 1e-6 * sum));
    }
}

TEST_CASE("white is white and loses nothing in three channels", "[renderer]") {
    const auto lights = test::fit_lights();
    const auto white = spectral::Spectrum::constant(1);
    const auto rgb = format::linear_srgb(white, lights);
    for (const double v : rgb) CHECK_THAT(v, test::Near(1, test::closed_form));
    const auto loss = format::loss_of(rgb, white, lights);
    CHECK(loss.d65 < 1e-6);
    CHECK(loss.a < 1e-6);
}

TEST_CASE("a renderer's loss under the lamp is what the spectra and the triples of the lamp say", "[renderer]") {
    const auto lights = test::fit_lights();
    const auto board = test::example_surface(1, 0.9, 0.4).reflectance;
    const auto shown = format::linear_srgb(board, lights);
    const auto loss = format::loss_of(shown, board, lights);
    CHECK(loss.d65 < 1e-3);  // only the fourth digit of D65's chromaticity in IEC 61966-2-1 differs from the table's
    // By hand: XYZ of the lamp to linear sRGB with the matrix printed in IEC 61966-2-1, amendment 1 (XYZ to RGB, 7
    // digits).
    const double m[3][3] = {
        {3.2406255, -1.5372080, -0.4986286}, {-0.9689307, 1.8757561, 0.0415175}, {0.0557101, -0.2040211, 1.0569959}};
    const auto& w = lights.a.white;
    double lit[3];
    for (int i = 0; i < 3; ++i)
        lit[i] = (m[i][0] * w.x + m[i][1] * w.y + m[i][2] * w.z) / 100 * shown[static_cast<std::size_t>(i)];
    const color::Xyz seen{100 * (0.4124 * lit[0] + 0.3576 * lit[1] + 0.1805 * lit[2]),
                          100 * (0.2126 * lit[0] + 0.7152 * lit[1] + 0.0722 * lit[2]),
                          100 * (0.0193 * lit[0] + 0.1192 * lit[1] + 0.9505 * lit[2])};
    const double de = color::delta_e_00(color::to_lab(seen, w), color::to_lab(color::xyz(board, lights.a), w));
    CHECK_THAT(loss.a, test::Near(de, 0.01));  // the printed matrices have four digits
    CHECK(loss.a > 0.1);
}

TEST_CASE("a board becomes a surface: reading at 45/0, covered share, index, roughness, tint", "[renderer]") {
    material::Wood wood;
    wood.reflectance.values = spectral::Spectrum::constant(0.4);
    wood.surface_k1.value = 0.02;
    wood.surface_k2.value = 0.3;
    wood.scattering_per_mm.value = 8;
    wood.n.value = 1.53;
    wood.level_um.value = 20;
    const auto solver = appearance::two_flux_solver();
    const auto bare = format::surface_of({}, wood, solver);
    CHECK(bare.covered == 0);
    CHECK(bare.film_twice == spectral::Spectrum::constant(1));
    appearance::Board board;
    board.coats = {{30, 1.5, spectral::Spectrum::constant(2), {}}, {10, 1.48, spectral::Spectrum::constant(1), {}}};
    board.film_um = 40;
    board.sheen_gu60 = 30;
    const auto s = format::surface_of(board, wood, solver);
    CHECK_THAT(s.covered, test::Near(1 - std::exp(-2.0), test::identity));
    CHECK(s.n == 1.48);
    CHECK(s.alpha == optics::roughness_from_gu60(30, 1.48));
    CHECK_THAT(s.film_twice[40], test::Near(std::exp(-2 * (0.060 + 0.010)), test::identity));
    CHECK(s.reflectance == appearance::render(board, wood, optics::Geometry::g45_0, solver).total());
    board.under_liquid = true;
    CHECK(format::surface_of(board, wood, solver).alpha == 0);
}
