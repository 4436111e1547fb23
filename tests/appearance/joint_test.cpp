#include "foretone/appearance/joint.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/schedule/suction.hpp"
#include "schedule/small_materials.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;
using Acts = JointFigure::Acts;

namespace {

JointTable three_figures() {
    JointTable t;
    t.title = "invented";
    t.figures = {{"wood", "surface_k2", 0, Acts::value, {}, 0.25},
                 {"wood", "surface_k1", 0, Acts::value, {}, 0.04},
                 {"varnish", "n", 0, Acts::value, {}, 1.5}};
    t.factor = {{0.03}, {0.004, 0.003}, {0.01, -0.02, 0.02}};
    return t;
}

double covariance(const JointTable& t, std::size_t i, std::size_t j) {
    double sum = 0;
    for (std::size_t k = 0; k <= std::min(i, j); ++k) sum += t.factor[i][k] * t.factor[j][k];
    return sum;
}

}  // namespace

TEST_CASE("the factor times its transpose is the covariance it was made of") {
    // Any symmetric matrix of products A Aᵀ is a covariance; A from round numbers.
    const std::vector<std::vector<double>> a = {{1, 0.5, 0}, {-0.3, 2, 0.1}, {0.7, 0.7, 0.7}, {0.4, 1.2, 0.7}};
    std::vector<std::vector<double>> c(4, std::vector<double>(4, 0.0));
    for (std::size_t i = 0; i < 4; ++i)
        for (std::size_t j = 0; j < 4; ++j)
            for (std::size_t k = 0; k < 3; ++k) c[i][j] += a[i][k] * a[j][k];
    const auto f = factor_of(c);
    double worst = 0;
    for (std::size_t i = 0; i < 4; ++i)
        for (std::size_t j = 0; j <= i; ++j) {
            double sum = 0;
            for (std::size_t k = 0; k <= j; ++k) sum += f[i][k] * f[j][k];
            worst = worst_of(worst, std::abs(sum - c[i][j]));
        }
    CHECK(worst < identity);
    CHECK(f[3][3] == 0);  // four figures of three causes: the last is told by the others
}

TEST_CASE("leaving figures out leaves the covariance of the others as it was") {
    const auto whole = three_figures();
    const auto part = rows_of_table(whole, {0, 2});
    REQUIRE(part.figures.size() == 2);
    CHECK(part.figures[1].name() == "varnish/n");
    CHECK_THAT(part.sd(0), Near(whole.sd(0), identity));
    CHECK_THAT(part.sd(1), Near(whole.sd(2), identity));
    CHECK_THAT(covariance(part, 1, 0), Near(covariance(whole, 2, 0), identity));
}

TEST_CASE("an edited figure drops out by name, one whose material is not there without a word") {
    auto materials = small_materials();
    auto table = three_figures();
    CHECK(drop_edited(table, materials).empty());
    CHECK(table.figures.size() == 3);
    std::get<material::Wood>(materials.at("wood").data).surface_k2.value = 0.26;
    CHECK(drop_edited(table, materials) == std::vector<std::string>{"wood/surface_k2"});
    CHECK(table.figures.size() == 2);
    materials.erase("varnish");
    CHECK(drop_edited(table, materials).empty());
    CHECK(table.figures.size() == 1);
}

TEST_CASE("figures of how coats go in stay in a table whatever the materials, unless the program's own have moved on") {
    auto table = three_figures();
    const schedule::UptakeLaw law;
    table.figures.insert(table.figures.begin(),
                         {std::string(uptake_rows), "suction", 0, Acts::value, {}, law.suction_g_per_m2});
    table.factor = {{25}, {0.01, 0.03}, {0, 0.004, 0.003}, {0.02, 0.01, -0.02, 0.02}};
    CHECK(drop_edited(table, small_materials()).empty());
    CHECK(table.figures.size() == 4);
    table.figures[0].value = law.suction_g_per_m2 + 1;
    CHECK(drop_edited(table, small_materials()) == std::vector<std::string>{"(uptake)/suction"});
    CHECK(table.figures.size() == 3);
}

TEST_CASE("a ready dye's table holds its powders by their place in the mix") {
    material::Material m;
    m.data = material::Stock{{{"orange", 12.5}, {"black", 0.25}}, "water", {}};
    CHECK(reading_of(m, "mix.1") == 12.5);
    CHECK(reading_of(m, "mix.2") == 0.25);
    for (const char* none : {"mix.0", "mix.3", "mix.", "mix.01", "mix"}) CHECK_FALSE(reading_of(m, none));
    CHECK(reading_of(m, "strength") == 0.0);
    CHECK_FALSE(reading_of(small_materials().at("wood"), "mix.1"));
}

TEST_CASE("six digits of a value, as a file holds them, are no edit") {
    auto materials = small_materials();
    auto table = three_figures();
    auto& k2 = std::get<material::Wood>(materials.at("wood").data).surface_k2.value;
    table.figures[0].value = 0.2512345678;
    k2 = 0.251235;
    CHECK(drop_edited(table, materials).empty());
    k2 = 0.25125;
    CHECK(drop_edited(table, materials).size() == 1);
}

TEST_CASE("one edited value of a spectrum is seen, wherever it stands") {
    material::SpectrumFigure f;
    f.values = spectral::Spectrum::constant(0.5);
    const double before = reading_of(f);
    CHECK_THAT(before, Near(0.5, identity));
    std::size_t unseen = 0;
    for (std::size_t i = 0; i < spectral::grid_size; ++i) {
        f.values[i] = 0.501;
        unseen += std::abs(reading_of(f) - before) <= 0;
        f.values[i] = 0.5;
    }
    CHECK(unseen == 0);
}

TEST_CASE("the checksum changes with every number and name, and not with the seventh digit") {
    const auto table = three_figures();
    const auto sum = checksum(table);
    CHECK(sum.size() == 16);
    CHECK(checksum(table) == sum);
    auto other = table;
    other.factor[2][1] = -0.020001;
    CHECK(checksum(other) != sum);
    other = table;
    other.factor[2][1] = -0.02000000001;
    CHECK(checksum(other) == sum);
    other = table;
    other.figures[1].figure = "surface_k3";
    CHECK(checksum(other) != sum);
    other = table;
    other.figures[1].acts = Acts::logarithm;
    CHECK(checksum(other) != sum);
    other = table;
    other.another_board_de.emplace_back("wood", 2);
    CHECK(checksum(other) != sum);
}

TEST_CASE("a checksum holds every figure and every entry of the factor") {
    const auto before = checksum(three_figures());
    CHECK(before.size() == 16);
    for (std::size_t i = 0; i < 3; ++i) {
        auto value = three_figures(), factor = three_figures(), name = three_figures();
        value.figures[i].value *= 1.01;
        factor.factor[i].back() *= 1.01;
        name.figures[i].material += "x";
        for (const auto& changed : {value, factor, name}) CHECK(checksum(changed) != before);
    }
    auto board = three_figures();
    board.another_board_de.emplace_back("wood", 2.0);
    CHECK(checksum(board) != before);
}
