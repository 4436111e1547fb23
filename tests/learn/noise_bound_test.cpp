// The noise of a reading on a grey board, where the color difference is known in closed form.

#include <catch2/catch.hpp>

#include <cmath>

#include "foretone/learn/board_noise.hpp"
#include "learn/hidden.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

// A board of L* 50 and no color, as it is read bare.
material::Materials grey() {
    auto m = whole_library();
    auto& wood = std::get<material::Wood>(m.at("hard-maple").data);
    wood.reflectance.values =
        spectral::Spectrum::constant(std::pow(66.0 / 116.0, 3));  // CIE 15: L* = 116 (Y/Yn)^(1/3) − 16
    return m;
}

learn::BoardNoise noise_of(const material::Materials& m, const schedule::Finish& finish, double spread,
                           const learn::Noise& noise) {
    static const auto solver = appearance::two_flux_solver();
    return learn::board_noise({m, "hard-maple", optics::Geometry::d8_included, solver}, finish, {d65_10deg()}, spread,
                              noise);
}

const schedule::Finish bare{"bare", {}};

schedule::Finish sprayed(int coats) {
    auto film = step_of({{"orange-shellac", schedule::Amount::parts, 1}}, coats);
    film.cut_lb = 1;
    film.method = material::Method::spray;
    return {"sprayed", {film}};
}

}  // namespace

TEST_CASE("a repeat on grey is the root of its three parts' squares, and 95 % of boards lie within 3.4 of a part") {
    // CIE 142-2001 at L* 50 and no chroma: S_L = S_C = S_H = 1 and a' = 1.5 a, so that a repeat of s/√3 in each of L*,
    // a* and b* has ΔE00² = s²/3 (z1² + 2.25 z2² + z3²): mean s²/3 · 4.25. Its 95 % quantile, integrated from the
    // distribution function, is 3.4042 times s/√3.
    const auto m = grey();
    const double s = 0.02;  // small: the formula's weights move with the color
    const auto n = noise_of(m, bare, s, {0, 0, 0});
    CHECK(n.reading_de00 == Approx(s * std::sqrt(4.25 / 3)).epsilon(2e-3));
    CHECK(n.bound_de00 == Approx(3.4042 * s / std::sqrt(3.0)).epsilon(0.02));  // 31 shifted lattices
    CHECK(n.board_de00 == 0);
    CHECK(n.place_de00 == 0);
    CHECK(n.hand_de00 == 0);
    CHECK(n.reading_and_board_de00() == n.reading_de00);
}

TEST_CASE("boards differ by what is stated, seen bare: all of it, as far as a color difference can say") {
    const auto m = grey();
    for (const double de : {0.1, 0.4}) {
        const auto n = noise_of(m, bare, 0, {de, 0, 0});
        // Level, tilt and bend together make ΔE*ab `de` on the bare board; ΔE00 counts a* 1.5 times and no part less,
        // here at L* 50.
        CHECK(n.board_de00 >= 0.97 * de);
        CHECK(n.board_de00 <= 1.5 * de);
        CHECK(noise_of(m, bare, 0, {0, de, 0}).place_de00 == Approx(n.board_de00).epsilon(1e-12));
        CHECK(n.reading_and_board_de00() == n.board_de00);
    }
    const double one = noise_of(m, bare, 0, {0.1, 0, 0}).board_de00;
    CHECK(noise_of(m, bare, 0, {0.2, 0, 0}).board_de00 == Approx(2 * one).epsilon(0.01));
}

TEST_CASE("a hand's noise grows with it, averages over coats as its own half does, and is nothing on bare wood") {
    const auto m = whole_library();
    CHECK(noise_of(m, bare, 0, {0, 0, 0.15}).hand_de00 == 0);
    const double one = noise_of(m, sprayed(1), 0, {0, 0, 0.02}).hand_de00;
    CHECK(one > 0.01);
    CHECK(noise_of(m, sprayed(1), 0, {0, 0, 0.04}).hand_de00 == Approx(2 * one).epsilon(0.05));
    // Of n coats each h thicker, half of the variance is common: the step is laid h·√(½ + 1/2n) thicker.
    for (const int coats : {2, 4}) {
        const double h = 0.02;
        auto thicker = sprayed(coats);
        const double share = h * std::sqrt(0.5 + 0.5 / coats);
        thicker.steps[0].wet_um = schedule::deposit(thicker.steps[0], m).wet_um * (1 + share);
        const auto solver = appearance::two_flux_solver();
        const search::Setting setting{m, "hard-maple", optics::Geometry::d8_included, solver};
        const double moved = color::delta_e_00(lab_of(search::finished(setting, sprayed(coats))),
                                               lab_of(search::finished(setting, thicker)));
        CHECK(noise_of(m, sprayed(coats), 0, {0, 0, h}).hand_de00 == Approx(moved).epsilon(1e-6));
    }
}

TEST_CASE("a film at the end of what can be laid varies all the same") {
    auto most = sprayed(1);
    most.steps[0].wet_um = 499;
    CHECK(noise_of(whole_library(), most, 0, {0, 0, 0.1}).hand_de00 > 0.01);
}

TEST_CASE("sources add as squares: the bound of all is between the largest's and their sum") {
    const auto m = whole_library();
    const double a = noise_of(m, sprayed(2), 0.3, {0, 0, 0}).bound_de00,
                 b = noise_of(m, sprayed(2), 0, {1.0, 0, 0}).bound_de00,
                 both = noise_of(m, sprayed(2), 0.3, {1.0, 0, 0}).bound_de00;
    CHECK(both > std::max(a, b));
    CHECK(both < a + b);
}

TEST_CASE("with one source alone 95 % of boards lie within 1.96 of what it does, in that direction") {
    // The source moves L*, a* and b* together; a board is the prediction plus z times that move, z normal.
    const auto m = whole_library();
    for (const double h : {0.01, 0.02}) {
        const auto n = noise_of(m, sprayed(1), 0, {0, 0, h});
        CHECK(n.bound_de00 / n.hand_de00 == Approx(1.95996).epsilon(0.02));  // 31 shifted lattices
    }
}
