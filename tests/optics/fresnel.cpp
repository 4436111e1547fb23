// Fresnel reflectance of one interface, for rays and for diffuse light.

#include "foretone/optics/fresnel.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "foretone/optics/quadrature.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;

namespace {

double at_degrees(double angle, double n) {
    return fresnel(std::cos(angle * std::numbers::pi / 180), 1, n).unpolarised();
}

/// ∫ 2µ R(µ) dµ over the hemisphere of index `from`, the totally reflected part in closed form.
double diffuse_numeric(double from, double to) {
    const double edge = from > to ? std::sqrt(1 - to * to / (from * from)) : 0.0;
    // The escaping part in the cosine of the rarer side, where the integrand has no square root at the end.
    const double rare = std::min(from, to);
    const Nodes g = gauss_legendre(200, 0, 1);
    double sum = edge * edge;
    for (std::size_t i = 0; i < g.x.size(); ++i) {
        // A square more nodes towards grazing, where the reflectance of nearly equal indices is all there is.
        const double mu = g.x[i] * g.x[i], beta2 = rare * rare * (1 - mu * mu);
        sum += 2 * g.x[i] * g.w[i] * 2 * mu * rare * rare / (from * from) *
               fresnel_invariant(beta2, from, to).unpolarised();
    }
    return sum;
}

/// Two parallel interfaces of a clear plate, all internal reflections.
double plate(double a, double b) { return a + (1 - a) * (1 - a) * b / (1 - a * b); }

}  // namespace

TEST_CASE("Fresnel reflectance at normal incidence is ((n − 1)/(n + 1))²") {
    for (const double n : {1.0001, 1.1, 1.33, 1.5, 2.5}) {
        const Reflectance r = fresnel(1, 1, n);
        CHECK_THAT(r.s, Near(std::pow((n - 1) / (n + 1), 2), identity));
        CHECK_THAT(r.p, Near(r.s, identity));
    }
}

TEST_CASE("at Brewster's angle nothing is reflected in the plane of incidence") {
    const double n = 1.5, mu = 1 / std::sqrt(1 + n * n);  // tan θ = n
    CHECK_THAT(fresnel(mu, 1, n).p, Near(0, identity));
    CHECK(fresnel(mu, 1, n).s > 0.1);
}

TEST_CASE("beyond the critical angle all is reflected and the refracted cosine is 0") {
    CHECK(fresnel(0.5, 1.5, 1).unpolarised() == 1);
    CHECK(refracted_cosine(0.5, 1.5, 1) == 0);
    CHECK(fresnel(0, 1, 1.5).unpolarised() == 1);
}

TEST_CASE("an interface between equal indices reflects nothing, and nearly equal ones keep their digits") {
    CHECK(fresnel(0.3, 1.5, 1.5).unpolarised() == 0);
    const double step = 1e-9;  // small-step limit: ((n' − n)/2n)² at normal incidence
    const double expected = std::pow(step / (2 * 1.5 + step), 2);
    CHECK_THAT(fresnel(1, 1.5, 1.5 + step).s / expected, Near(1, 1e-6));  // 1.5 + step itself is rounded to 1e-16
}

TEST_CASE("reflectance is the same from both sides of an interface along one path") {
    for (const double mu : {0.05, 0.3, 0.7, 0.99}) {
        const double inside = refracted_cosine(mu, 1, 1.53);
        CHECK_THAT(fresnel(inside, 1.53, 1).s, Near(fresnel(mu, 1, 1.53).s, identity));
        CHECK_THAT(fresnel(inside, 1.53, 1).p, Near(fresnel(mu, 1, 1.53).p, identity));
    }
}

TEST_CASE("the cases published with Prahl's adding-doubling code are met") {
    for (const Row& row : table("fresnel_cases.csv")) {
        const double from = row.number("n_i"), to = row.number("n_t"), mu = row.number("mu_i");
        const std::string quantity = row.text("quantity");
        CAPTURE(quantity, from, to, mu);
        double got = 0;
        if (quantity == "snell")
            got = refracted_cosine(mu, from, to);
        else if (quantity == "fresnel")
            got = fresnel(mu, from, to).unpolarised();
        else {
            // The published plate adds the mean of both polarisations at each interface, not each polarisation by
            // itself.
            const double glass = row.number("n_glass"), inside = refracted_cosine(mu, from, glass);
            const double a = fresnel(mu, from, glass).unpolarised(), b = fresnel(inside, glass, to).unpolarised();
            got = a >= 1 ? 1.0 : plate(a, b);  // light so flat that it does not enter stays out
        }
        // value_computed is printed to nine decimals.
        CHECK_THAT(got, Near(row.number("value_computed"), 1e-9));
    }
}

TEST_CASE("tabulated reflectances at angles and for diffuse light are met for n from 1.1 to 2.5") {
    double worst = 0;
    std::string where;
    const auto compare = [&](const Row& row, const char* column, double got, double half_digit) {
        const double ratio = std::abs(got - row.number(column)) / half_digit;
        if (worse(ratio, worst)) {
            worst = ratio;
            where = row.text("n") + " " + column;
        }
    };
    for (const Row& row : table("fresnel_diffuse.csv")) {
        const double n = row.number("n");
        // Computed from Fresnel's equations and Walsh's closed form (Ryde 1931), printed to eight significant digits.
        compare(row, "r_normal", fresnel(1, 1, n).unpolarised(), 5.1e-9);
        compare(row, "r_8deg", at_degrees(8, n), 5.1e-9);
        compare(row, "r_45deg", at_degrees(45, n), 5.1e-9);
        compare(row, "r_60deg", at_degrees(60, n), 5.1e-9);
        compare(row, "r_ext_diffuse_Walsh", diffuse_external(n), 5.1e-9);
        compare(row, "r_int_diffuse=1-(1-re)/n^2", diffuse_internal(n), 5.1e-9);
        compare(row, "(1-re)(1-ri)", (1 - diffuse_external(n)) * (1 - diffuse_internal(n)), 5.1e-9);
    }
    CAPTURE(where);
    CHECK_THAT(worst, Near(0, 1));
}

TEST_CASE("Walsh's closed form equals the integral over angle to 1e-9, from both sides") {
    double worst = 0, worst_n = 0;
    for (int i = 0; i <= 150; ++i) {
        const double n = 1.0 + 0.01 * i + (i == 0 ? 1e-3 : 0.0);
        const double off = worst_of(std::abs(diffuse_external(n) - diffuse_numeric(1, n)),
                                    std::abs(diffuse_internal(n) - diffuse_numeric(n, 1)));
        if (worse(off, worst)) {
            worst = off;
            worst_n = n;
        }
    }
    CAPTURE(worst_n);
    CHECK_THAT(worst, Near(0, closed_form));
}

TEST_CASE("near n = 1 the closed form keeps 1e-11, and the straight line below 1.0001 is wrong by less than 1e-8") {
    CHECK(diffuse_external(1) == 0);
    double above = 0, below = 0;
    for (int i = 1; i < 20; ++i) {
        const double low = 1 + 5e-6 * i, high = 1.0001 * (1 + 5e-5 * i);
        below = worst_of(below, std::abs(diffuse_external(low) - diffuse_numeric(1, low)));
        above = worst_of(above, std::abs(diffuse_external(high) - diffuse_numeric(1, high)));
    }
    CHECK_THAT(above, Near(0, 1e-11));
    CHECK_THAT(below, Near(0, 1e-8));
}

TEST_CASE("cosines and indices out of range are refused with their value") {
    CHECK_THROWS_WITH(fresnel(1.5, 1, 1.5), Catch::Contains("1.5"));
    CHECK_THROWS_AS(fresnel(0.5, 0.9, 1.5), std::invalid_argument);
    CHECK_THROWS_AS(refracted_cosine(-0.1, 1, 1.5), std::invalid_argument);
    CHECK_THROWS_AS(diffuse_external(0.99), std::invalid_argument);
}
