#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "color/seeded.hpp"
#include "foretone/color/adaptation.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone::color;
using namespace foretone::test;

namespace {

// The whites named in the head of the table of matrices.
Xyz white(const std::string& id) {
    if (id == "D65") return {0.95047, 1, 1.08883};
    if (id == "D50") return {0.96422, 1, 0.82521};
    return {1.09850, 1, 0.35585};
}

Cat cat(const std::string& name) {
    return name == "Bradford" ? Cat::bradford : name == "CAT02" ? Cat::cat02 : Cat::cat16;
}

}  // namespace

TEST_CASE("adaptation matrices agree with the computed table in every printed digit") {
    // Computed from the published cone matrices (Lam 1985; CIE 159:2004; Li et al. 2017), printed to seven decimals.
    const auto rows = table("chromatic_adaptation_matrices.csv");
    REQUIRE(rows.size() == 9);
    for (const auto& r : rows) {
        const std::string pair = r.text("from_to (whites .95047/1/1.08883, .96422/1/.82521, 1.09850/1/.35585)");
        INFO(r.text("cat") << " " << pair);
        const auto m = adaptation_matrix(cat(r.text("cat")), white(pair.substr(0, 3)), white(pair.substr(5)));
        double worst = 0;
        for (int i = 0; i < 3; ++i) {
            for (int j = 0; j < 3; ++j) {
                const char name[] = {'m', static_cast<char>('1' + i), static_cast<char>('1' + j), 0};
                const double printed = r.number(name);
                worst = worst_of(worst, std::abs(m[j][i] - printed));
            }
        }
        CHECK_THAT(worst, Near(0, 0.5001e-7));  // half a unit of the last digit, and the rounding of a decimal
    }
}

TEST_CASE("adaptation takes white to white, and there and back is nothing") {
    Seeded seed(5);
    for (const Cat c : {Cat::bradford, Cat::cat02, Cat::cat16}) {
        const Xyz w = adapt(white("A"), white("A"), white("D65"), c);
        CHECK_THAT(w.x, Near(0.95047, identity));
        CHECK_THAT(w.y, Near(1, identity));
        CHECK_THAT(w.z, Near(1.08883, identity));
        double worst = 0;
        for (int i = 0; i < 200; ++i) {
            const Xyz p{seed.uniform(0, 1), seed.uniform(0, 1), seed.uniform(0, 1)};
            const Xyz q = adapt(adapt(p, white("A"), white("D65"), c), white("D65"), white("A"), c);
            worst = worst_of({worst, std::abs(q.x - p.x), std::abs(q.y - p.y), std::abs(q.z - p.z)});
        }
        CHECK_THAT(worst, Near(0, identity));
    }
}

TEST_CASE("a white no light can have is refused with its value") {
    using Catch::Contains;
    CHECK_THROWS_AS(adapt({1, 1, 1}, {0, 0, 0}, white("D65")), std::invalid_argument);
    CHECK_THROWS_WITH(adapt({1, 1, 1}, {0, 0, 0}, white("D65")), Contains("`from` is 0, 0, 0"));
    CHECK_THROWS_WITH(adapt({1, 1, 1}, white("D65"), {1, 1, -5}), Contains("`to` is 1, 1, -5"));
}
