// The search's innermost loops: the same bytes on every instruction set, and the sums they stand for.

#include "../../src/search/chebyshev.hpp"

#include <cmath>
#include <cstring>
#include <random>
#include <vector>

#include "support/tolerance.hpp"

using namespace foretone;
using search::chebyshev::padded;

namespace {

std::vector<base::Isa> runnable() {
    std::vector<base::Isa> all{base::Isa::baseline, base::Isa::avx2, base::Isa::avx512};
    all.resize(static_cast<std::size_t>(base::widest_isa()) + 1);
    return all;
}

std::vector<double> random_row(std::size_t size, double size_of_values) {
    static std::mt19937_64 bits(7);
    std::vector<double> row(size);
    for (double& v : row) v = size_of_values * (static_cast<double>(bits() >> 11) * 0x1p-53 - 0.5);
    return row;
}

std::vector<float> random_places() {
    std::vector<float> x;
    for (const double v : random_row(padded, 2)) x.push_back(static_cast<float>(v));
    x[0] = -1;
    x[1] = 1;
    return x;
}

}  // namespace

TEST_CASE("The recurrence sums cosines: T_k(cos t) is cos kt", "[search][kernel]") {
    for (const std::size_t terms : {std::size_t{2}, std::size_t{3}, std::size_t{16}}) {
        const auto c = random_row(terms * padded, 1);
        const auto x = random_places();
        std::vector<double> r(padded);
        search::chebyshev::reflectance(base::widest_isa(), c.data(), terms, x.data(), r.data());
        for (std::size_t i = 0; i < padded; ++i) {
            double sum = 0;
            for (std::size_t k = 0; k < terms; ++k)
                sum += c[k * padded + i] * std::cos(static_cast<double>(k) * std::acos(static_cast<double>(x[i])));
            CHECK_THAT(r[i], test::Near(sum, test::identity));
        }
    }
}

TEST_CASE("A weighted sum is the sum of products", "[search][kernel]") {
    const auto w = random_row(padded, 1), r = random_row(padded, 1);
    double sum = 0;
    for (std::size_t i = 0; i < padded; ++i) sum += w[i] * r[i];
    CHECK_THAT(search::chebyshev::weighted_sum(base::widest_isa(), w.data(), r.data()),
               test::Near(sum, test::identity));
}

TEST_CASE("Every instruction set gives the search the same bytes", "[search][kernel]") {
    const auto c = random_row(16 * padded, 1), w = random_row(padded, 1);
    const auto x = random_places();
    std::vector<double> plain(padded);
    search::chebyshev::reflectance(base::Isa::baseline, c.data(), 16, x.data(), plain.data());
    const double sum = search::chebyshev::weighted_sum(base::Isa::baseline, w.data(), plain.data());
    for (const auto isa : runnable()) {
        std::vector<double> r(padded);
        search::chebyshev::reflectance(isa, c.data(), 16, x.data(), r.data());
        CHECK(std::memcmp(r.data(), plain.data(), padded * sizeof(double)) == 0);
        const double s = search::chebyshev::weighted_sum(isa, w.data(), r.data());
        CHECK(std::memcmp(&s, &sum, sizeof s) == 0);
    }
}
