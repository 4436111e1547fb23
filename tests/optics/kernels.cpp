// The vectorised loops: the same bytes on every instruction set, and the figures of the plain functions.

#include "../../src/optics/kernels.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <vector>

#include "../../src/optics/grazing_rule.hpp"
#include "foretone/optics/calibration.hpp"
#include "foretone/optics/quadrature.hpp"
#include "random.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;
using kernels::Isa;

namespace {

constexpr std::size_t row_length = 83;  // not a whole number of vectors

std::vector<double> random_row(Random& random, double low, double high) {
    std::vector<double> row(row_length);
    for (double& v : row) v = random.log_uniform(low, high);
    row[3] = 0;
    return row;
}

/// The instruction sets this machine can run.
std::vector<Isa> runnable() {
    std::vector<Isa> all{Isa::baseline, Isa::avx2, Isa::avx512};
    all.resize(static_cast<std::size_t>(foretone::base::widest_isa()) + 1);
    return all;
}

struct Outcome {
    std::vector<double> a, b, c;
};

bool same_bytes(const Outcome& x, const Outcome& y) {
    const auto same = [](const std::vector<double>& p, const std::vector<double>& q) {
        if (p.size() != q.size()) return false;
        return p.empty() || std::memcmp(p.data(), q.data(), p.size() * sizeof(double)) == 0;
    };
    return same(x.a, y.a) && same(x.b, y.b) && same(x.c, y.c);
}

/// One node of weight 1 through three films, every interface different.
const ClearFilms::Step steps[] = {{0, -1.6, 0.03, 0.01}, {1, -2.9, 0.2, 0.05}, {0, -40.0, 0.0, 0.0}};

Outcome films(Isa isa, const std::vector<double>& first, const std::vector<double>& second, std::size_t step_count,
              bool panel) {
    const double* depths[] = {first.data(), second.data()};
    const ClearFilms::Node node{1, 0.1, 0.02, 0, step_count};
    Outcome out{std::vector<double>(row_length), std::vector<double>(row_length), std::vector<double>(row_length)};
    std::vector<double> scratch(6 * row_length);
    const kernels::Paths paths{&node, 1, steps};
    if (panel)
        kernels::film_panel(isa, paths, depths, row_length, out.a.data(), out.b.data(), out.c.data(), scratch.data());
    else
        kernels::film_reflectance(isa, paths, depths, row_length, out.a.data(), scratch.data());
    return out;
}

Outcome laid(Isa isa, const std::vector<double>& k, const std::vector<double>& s, double d) {
    Outcome out{std::vector<double>(row_length, 0.6), std::vector<double>(row_length, 0.25), {}};
    kernels::slab_over(isa, k.data(), s.data(), 0.3, d, row_length, out.a.data(), out.b.data());
    return out;
}

}  // namespace

TEST_CASE("every instruction set gives the same bytes") {
    Random random(21);
    const auto first = random_row(random, 1e-6, 100), second = random_row(random, 1e-6, 100);
    for (const Isa isa : runnable()) {
        CAPTURE(static_cast<int>(isa));
        for (std::size_t n = 1; n <= 3; ++n) {
            CHECK(same_bytes(films(isa, first, second, n, false), films(Isa::baseline, first, second, n, false)));
            CHECK(same_bytes(films(isa, first, second, n, true), films(Isa::baseline, first, second, n, true)));
        }
        CHECK(same_bytes(laid(isa, first, second, 0.2), laid(Isa::baseline, first, second, 0.2)));
    }
}

TEST_CASE("the kernels' exponential is good to 5e-14 of its value, exactly 1 at 0, and 0 to all purposes far down") {
    // A single film of one node, weight 1, nothing at its far side: exactly exp(−2 depth/µ).
    const ClearFilms::Node node{1, 1, 1, 0, 1};
    const ClearFilms::Step step{0, -0.5, 0, 0};  // 2^(−depth)
    Random random(22);
    double worst = 0;
    for (int round = 0; round < 200; ++round) {
        std::vector<double> depth = random_row(random, 1e-9, 1000), out(row_length), scratch(6 * row_length);
        depth[4] = 1e14;
        const double* rows[] = {depth.data()};
        kernels::film_reflectance(foretone::base::widest_isa(), {&node, 1, &step}, rows, row_length, out.data(),
                                  scratch.data());
        REQUIRE(out[3] == 1);
        REQUIRE(out[4] < 1e-300);
        for (std::size_t k = 0; k < row_length; ++k) {
            if (k != 4) worst = worst_of(worst, std::abs(out[k] / std::exp2(-depth[k]) - 1));
        }
    }
    CHECK_THAT(worst, Near(0, 5e-14));
}

TEST_CASE("a short path by itself gives what the general path gives") {
    // One film with an interface after it against the same followed by a film of no depth and no interface, which takes
    // the next longer loop; likewise two against three.
    Random random(23);
    const auto first = random_row(random, 1e-4, 10), second = random_row(random, 1e-4, 10);
    const std::vector<double> none(row_length, 0.0);
    const double* depths[] = {first.data(), second.data(), none.data()};
    const ClearFilms::Step padded[] = {{0, -1.6, 0.03, 0.01}, {1, -2.9, 0.2, 0.05}, {2, -1, 0, 0}, {2, -1, 0, 0}};
    const ClearFilms::Step single[] = {{0, -1.6, 0.03, 0.01}, {2, -1, 0, 0}, {2, -1, 0, 0}};
    const auto run = [&](const ClearFilms::Step* s, std::size_t n) {
        const ClearFilms::Node node{0.7, 0.1, 0.02, 0, n};
        std::vector<double> out(row_length), scratch(6 * row_length);
        kernels::film_reflectance(foretone::base::widest_isa(), {&node, 1, s}, depths, row_length, out.data(),
                                  scratch.data());
        return out;
    };
    const auto one = run(single, 1), one_as_two = run(single, 2), one_as_three = run(single, 3);
    const auto two = run(padded, 2), two_as_three = run(padded, 3);
    double worst = 0;
    for (std::size_t k = 0; k < row_length; ++k) {
        worst = worst_of({worst, std::abs(one[k] - one_as_two[k]), std::abs(one[k] - one_as_three[k])});
        worst = worst_of(worst, std::abs(two[k] - two_as_three[k]));
    }
    CHECK_THAT(worst, Near(0, identity));
}

TEST_CASE("a slab laid by the kernel is the slab added by the plain functions") {
    Random random(24);
    double worst = 0;
    for (int round = 0; round < 300; ++round) {
        const auto k = random_row(random, 1e-9, 1e3), s = random_row(random, 1e-6, 1e3);
        const double d = random.log_uniform(1e-4, 10);
        const Outcome got = laid(foretone::base::widest_isa(), k, s, d);
        for (std::size_t i = 0; i < row_length; ++i) {
            const KubelkaMunk km = from_transport(k[i], s[i], 0.3);
            const Panel expected = add(slab(km.absorption_per_mm, km.scattering_per_mm, d), {0.6, 0, 0.25, 0});
            worst = worst_of({worst, std::abs(got.a[i] - expected.r_above), std::abs(got.b[i] - expected.t_down)});
        }
    }
    CHECK_THAT(worst, Near(0, identity));
}

TEST_CASE("the rules for grazing light keep their stated errors") {
    // Expected: ∫ 2µ^(1+j) exp(−a/µ) dµ by 400 Gauss nodes in µ = s⁴, converged to rounding.
    const Nodes fine = gauss_legendre(400, 0, 1);
    double ten = 0, seven = 0, sum_ten = -1, sum_seven = -1;
    for (const GrazingNode& g : grazing_ten) sum_ten += g.weight;
    for (const GrazingNode& g : grazing_seven) sum_seven += g.weight;
    for (int i = 0; i <= 300; ++i) {
        const double a = i == 0 ? 0.0 : std::pow(10, -6 + 7.7 * i / 300);
        for (int j = 0; j <= 3; ++j) {
            const auto f = [&](double mu) { return std::exp(-a / mu) * std::pow(mu, j); };
            double expected = 0, got_ten = 0, got_seven = 0;
            for (std::size_t n = 0; n < fine.x.size(); ++n) {
                const double s = fine.x[n], mu = s * s * s * s;
                expected += fine.w[n] * 2 * mu * 4 * s * s * s * f(mu);
            }
            for (const GrazingNode& g : grazing_ten) got_ten += g.weight * f(g.mu);
            for (const GrazingNode& g : grazing_seven) got_seven += g.weight * f(g.mu);
            ten = worst_of(ten, std::abs(got_ten - expected));
            seven = worst_of(seven, std::abs(got_seven - expected));
        }
    }
    CHECK_THAT(sum_ten, Near(0, identity));
    CHECK_THAT(sum_seven, Near(0, identity));
    CHECK_THAT(ten, Near(0, 3e-7));
    CHECK_THAT(seven, Near(0, 2.5e-6));
}
