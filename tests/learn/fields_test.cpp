// Smooth unknown curves: their covariance is the prior's, and what few of them are left carries it.

#include "../../src/learn/fields.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;
using learn::field_curves;
using learn::FieldPrior;

namespace {

double covariance_of(const std::vector<spectral::Spectrum>& curves, std::size_t i, std::size_t j) {
    double sum = 0;
    for (const auto& c : curves) sum += c[i] * c[j];
    return sum;
}

double prior_covariance(const FieldPrior& p, std::size_t i, std::size_t j) {
    const double a = (spectral::grid_nm(i) - p.pivot_nm) / p.tilt_nm,
                 b = (spectral::grid_nm(j) - p.pivot_nm) / p.tilt_nm;
    const double apart = (spectral::grid_nm(i) - spectral::grid_nm(j)) / p.smooth_nm;
    return p.level * p.level + p.tilt * p.tilt * a * b + p.bend * p.bend * a * a * b * b +
           p.shape * p.shape * std::exp(-apart * apart / 2);
}

}  // namespace

TEST_CASE("the curves' sum has the covariance of the prior, to what was left out") {
    for (const FieldPrior& p : {FieldPrior{0.3, 0.1, 0.05, 560, 180, 0.2, 40},
                                {0.01, 0.005, 0.003, 560, 180, 0, 40},
                                {0, 0, 0, 560, 180, 0.1, 25},
                                {0.5, 0, 0, 500, 100, 0.05, 80}}) {
        const auto curves = field_curves(p);
        double worst = 0, trace = 0;
        for (std::size_t i = 0; i < spectral::grid_size; ++i) {
            trace += prior_covariance(p, i, i);
            for (std::size_t j = 0; j < spectral::grid_size; ++j)
                worst = worst_of(worst, std::abs(covariance_of(curves, i, j) - prior_covariance(p, i, j)));
        }
        CAPTURE(p.shape, p.smooth_nm, curves.size());
        CHECK(worst < (p.shape > 0 ? 1e-6 * trace * 5 : identity));
    }
}

TEST_CASE("the curves are few, largest first, at right angles, and of one sign whatever the library chooses") {
    const auto curves = field_curves({0.3, 0.1, 0.05, 560, 180, 0.2, 40});
    CHECK(curves.size() > 5);
    CHECK(curves.size() < 30);
    double before = 1e9, worst = 0;
    for (std::size_t k = 0; k < curves.size(); ++k) {
        double size = 0, sum = 0;
        for (const double v : curves[k]) size += v * v, sum += v;
        CHECK(size <= before);
        CHECK(sum >= 0);
        before = size;
        for (std::size_t m = 0; m < k; ++m) {
            double dot = 0;
            for (std::size_t i = 0; i < curves[k].size(); ++i) dot += curves[k][i] * curves[m][i];
            worst = worst_of(worst, std::abs(dot));
        }
    }
    CHECK(worst < closed_form);
}

TEST_CASE("without a shape the curves are level, tilt and bend themselves, and only those that move") {
    const auto three = field_curves({0.2, 0.1, 0.05, 560, 180, 0, 40});
    REQUIRE(three.size() == 3);
    const auto at = [](double nm) {
        return static_cast<std::size_t>((nm - spectral::grid_nm(0)) / spectral::grid_step_nm);
    };
    CHECK(three[0][at(400)] == 0.2);
    CHECK_THAT(three[1][at(740)], Near(0.1, identity));
    CHECK_THAT(three[1][at(380)], Near(-0.1, identity));
    CHECK_THAT(three[2][at(380)], Near(0.05, identity));
    CHECK(three[2][at(560)] == 0);
    CHECK(field_curves({0, 0.1, 0, 560, 180, 0, 40}).size() == 1);
    CHECK(field_curves({}).empty());
}

TEST_CASE("a shift of ln(K/S) moves a reflectance as Kubelka and Munk's half-space does") {
    // K/S = (1 − R)²/2R (Kubelka & Munk 1931).
    double worst = 0, back = 0;
    for (const double r : {0.001, 0.02, 0.2, 0.5, 0.8, 0.97, 0.999})
        for (const double shift : {-3.0, -0.5, 0.0, 0.2, 2.0}) {
            const auto ks = [](double v) { return (1 - v) * (1 - v) / (2 * v); };
            const double moved = learn::shifted(r, shift);
            worst = worst_of(worst, std::abs(ks(moved) / (ks(r) * std::exp(shift)) - 1));
            back = worst_of(back, std::abs(learn::shifted(moved, -shift) - r));
            CHECK((shift == 0 || (moved < r) == (shift > 0)));
        }
    CHECK(worst < closed_form);
    CHECK(back < closed_form);
}
