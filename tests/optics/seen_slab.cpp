// A scattering slab in a beam, seen from one direction: the kernel against the equations integrated otherwise.

#include <algorithm>
#include <cmath>
#include <cstring>
#include <vector>

#include "../../src/optics/kernels.hpp"
#include "embedding.hpp"
#include "random.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;
using kernels::Isa;

namespace {

/// All channels at some wavelengths, in one array so that bytes compare at once.
struct Rows {
    explicit Rows(std::size_t size) : count(size), values(6 * size) {}
    kernels::Channels channels() {
        double* v = values.data();
        return {v, v + 2 * count, v + 4 * count, v + count, v + 3 * count, v + 5 * count};
    }
    void set(std::size_t k, const Grown& g) {
        for (std::size_t i = 0; i < 6; ++i) values[i * count + k] = g[i];
    }
    Grown get(std::size_t k) const {
        Grown g{};
        for (std::size_t i = 0; i < 6; ++i) g[i] = values[i * count + k];
        return g;
    }
    std::size_t count;
    std::vector<double> values;
};

double distance(const Grown& a, const Grown& b) {
    double worst = 0;
    for (std::size_t i = 0; i < a.size(); ++i) worst = worst_of(worst, std::abs(a[i] - b[i]));
    return std::isfinite(worst) ? worst : 1;
}

Grown laid(double absorption, double scattering, double thickness_mm, double beam, double eye, const Grown& below) {
    Rows rows(1);
    rows.set(0, below);
    kernels::slab_over_seen(foretone::base::widest_isa(), {&absorption, &scattering, 0.3, thickness_mm, beam, eye}, 1,
                            rows.channels());
    return rows.get(0);
}

Grown random_below(Random& random) {
    Grown g{};
    for (double& v : g) v = random.uniform(0, 0.9);
    return g;
}

/// Absorption at which the two fluxes decay, per unit of depth, as the beam does: κ = 1/µ.
double resonant_absorption(double scattering, double beam) {
    double low = 0, high = 1;  // of s
    for (int i = 0; i < 200; ++i) {
        const double s = 0.5 * (low + high);
        (s * std::sqrt(two_flux_rates(s, (1 - s) * (1 + s)).decay_over_s) < beam ? low : high) = s;
    }
    return 0.7 * scattering * low * low / ((1 - low) * (1 + low));
}

}  // namespace

TEST_CASE("a slab in a beam meets the two-flux equations integrated in thin layers") {
    Random random(51);
    double worst = 0;
    for (int i = 0; i < 300; ++i) {
        const double absorption = random.chance(0.1) ? 0.0 : random.log_uniform(1e-3, 30);
        const double scattering = random.log_uniform(1e-2, 50);
        const double d = random.log_uniform(1e-3, 0.2), beam = random.uniform(1, 1.6), eye = random.uniform(1, 1.6);
        const Grown below = random_below(random);
        worst = worst_of(worst, distance(laid(absorption, scattering, d, beam, eye, below),
                                         grown(absorption, scattering, 0.3, d, beam, eye, below)));
    }
    CHECK_THAT(worst, Near(0, closed_form));
}

TEST_CASE("where the fluxes decay as fast as the beam nothing happens: the poles are gone") {
    Random random(52);
    double worst = 0;
    for (const double beam : {1.0, 1.13, 1.6}) {
        for (const double eye : {1.0, 1.13, 1.6}) {
            for (const double off : {0.0, 1e-15, -1e-12, 1e-9, 1e-6, -1e-4, 1e-2, 5e-2}) {
                const double absorption = resonant_absorption(10, beam) * (1 + off);
                const Grown below = random_below(random);
                for (const double d : {1e-3, 0.05, 0.5}) {
                    worst = worst_of(worst, distance(laid(absorption, 10, d, beam, eye, below),
                                                     grown(absorption, 10, 0.3, d, beam, eye, below)));
                }
            }
        }
    }
    CHECK_THAT(worst, Near(0, closed_form));
}

TEST_CASE("a slab in a beam gives the same bytes on every instruction set, and the diffuse kernel's figures") {
    constexpr std::size_t count = 83;
    Random random(53);
    std::vector<double> absorption(count), scattering(count);
    for (double& v : absorption) v = random.log_uniform(1e-6, 1e3);
    for (double& v : scattering) v = random.log_uniform(1e-6, 1e3);
    absorption[3] = scattering[3] = scattering[5] = absorption[7] = 0;
    absorption[9] = resonant_absorption(scattering[9], 1.13);
    Rows start(count);
    for (std::size_t k = 0; k < count; ++k) start.set(k, random_below(random));
    const auto run = [&](Isa isa) {
        Rows rows = start;
        kernels::slab_over_seen(isa, {absorption.data(), scattering.data(), 0.3, 0.2, 1.13, 1.0}, count,
                                rows.channels());
        return rows;
    };
    const Rows baseline = run(Isa::baseline);
    for (int isa = 0; isa <= static_cast<int>(foretone::base::widest_isa()); ++isa) {
        CHECK(std::memcmp(run(static_cast<Isa>(isa)).values.data(), baseline.values.data(),
                          6 * count * sizeof(double)) == 0);
    }
    CHECK(distance(baseline.get(3), start.get(3)) == 0);  // neither absorbs nor scatters
    Rows diffuse = start;
    const kernels::Channels c = diffuse.channels();
    kernels::slab_over(foretone::base::widest_isa(), absorption.data(), scattering.data(), 0.3, 0.2, count,
                       c.diffuse_up, c.diffuse_through);
    double worst = 0;
    for (std::size_t k = 0; k < count; ++k) {
        const Grown a = diffuse.get(k), b = baseline.get(k);
        worst = worst_of({worst, std::abs(a[0] - b[0]), std::abs(a[4] - b[4])});
    }
    CHECK_THAT(worst, Near(0, identity));
}

TEST_CASE("a slab without absorption keeps the beam's light") {
    Random random(54);
    double worst = 0;
    for (int i = 0; i < 10000; ++i) {
        const double share = random.uniform(0, 1), diffuse = random.uniform(0, 1);
        const Grown got = laid(0, random.log_uniform(1e-6, 1e4), random.log_uniform(1e-4, 10), random.uniform(1, 50), 1,
                               {diffuse, share, 0.5, 0.5, 1 - diffuse, 1 - share});
        worst = worst_of({worst, std::abs(got[0] + got[4] - 1), std::abs(got[1] + got[5] - 1)});
    }
    CHECK_THAT(worst, Near(0, identity));
}

TEST_CASE("opaque depths leave nothing that is not a number") {
    for (const double absorption : {0.0, 1e-9, 1.0, 1e12}) {
        for (const double scattering : {0.0, 1e-9, 1.0, 1e12}) {
            for (const double d : {1e-12, 1.0, 1e12}) {
                const Grown got = laid(absorption, scattering, d, 1.2, 1, {0.5, 0.5, 0.5, 0.5, 0.5, 0.5});
                bool sane = true;
                for (const double v : got) sane = sane && v >= -1e-12 && v <= 1.1;
                CAPTURE(absorption, scattering, d);
                CHECK(sane);
            }
        }
    }
}
