// Quantiles with a control variate, on moves whose quantiles are known.

#include "../../src/appearance/controlled.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/appearance/lattice.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;

namespace {

const Eigen::Vector3d no_offset = Eigen::Vector3d::Zero();
constexpr int set_count = 6;

// Sets of shifted lattices, `coordinates` × draws.
struct Drawn {
    Eigen::MatrixXd worlds;
    std::vector<std::size_t> sets;
};

Drawn drawn(int coordinates) {
    Drawn out{Eigen::MatrixXd(coordinates, set_count * static_cast<int>(lattice_points)), {}};
    Eigen::Index i = 0;
    for (std::uint64_t set = 0; set < set_count; ++set) {
        const ShiftedLattice lattice(static_cast<std::size_t>(coordinates), set);
        for (std::size_t point = 0; point < lattice_points; ++point, ++i)
            for (int c = 0; c < coordinates; ++c)
                out.worlds(c, i) = normal_quantile(lattice.at(point, static_cast<std::size_t>(c)));
        out.sets.push_back(lattice_points);
    }
    return out;
}

std::vector<double> lengths(const Eigen::Matrix3Xd& moves) {
    std::vector<double> out;
    for (Eigen::Index i = 0; i < moves.cols(); ++i) out.push_back(moves.col(i).norm());
    return out;
}

}  // namespace

TEST_CASE("of a normal move the control gives the table's quantile whatever was drawn, and no error") {
    const auto d = drawn(5);
    Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(3, 5);
    slopes(0, 1) = slopes(1, 2) = slopes(2, 4) = 1;
    const Eigen::Matrix3Xd moves = slopes * d.worlds;
    const Control control(slopes, no_offset, d.worlds, d.sets);
    const auto told = outer_quantile(lengths(moves), control);
    // χ² with three degrees of freedom at 0.90: 6.251 (NIST/SEMATECH e-Handbook, table 1.3.6.7.4).
    CHECK_THAT(told.value, Near(std::sqrt(6.251), 0.01));
    CHECK(told.error < 1e-3);
}

TEST_CASE("a difference of two means has its quantiles on both sides, bent or straight") {
    const auto d = drawn(3);
    Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(3, 3);
    slopes(0, 0) = 0.5;
    Eigen::Matrix3Xd moves = slopes * d.worlds;
    moves.row(0).array() += 5;
    const Eigen::Vector3d offset(5, 0, 0);
    SECTION("straight: 5 ± 1.645 · 0.5 (normal table)") {
        const Control control(slopes, offset, d.worlds, d.sets);
        const auto low = quantile_of(0.05, lengths(moves), control);
        const auto high = quantile_of(0.95, lengths(moves), control);
        CHECK_THAT(low.value, Near(5 - 1.645 * 0.5, 0.01));
        CHECK_THAT(high.value, Near(5 + 1.645 * 0.5, 0.01));
        CHECK(std::max(low.error, high.error) < 1e-3);
    }
    SECTION("bent: quantiles go through a rising function unchanged") {
        const auto bent = [](double x) { return x + 0.1 * (x - 5) * (x - 5); };  // rises where x > 0
        for (Eigen::Index i = 0; i < moves.cols(); ++i) moves(0, i) = bent(moves(0, i));
        const Control control(slopes, offset, d.worlds, d.sets);
        for (const double side : {-1.0, 1.0}) {
            const auto told = quantile_of(0.5 + 0.45 * side, lengths(moves), control);
            CHECK_THAT(told.value, Near(bent(5 + side * 1.645 * 0.5), 0.01));  // the line through ranks that bend
            CHECK(told.error < 0.02);
        }
    }
}

TEST_CASE("what the control cannot tell stays in the stated error, and is what drawing other sets finds") {
    // The second row moves by a coordinate that the slopes deny.
    const auto d = drawn(2);
    Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(3, 2);
    slopes(0, 0) = 1;
    Eigen::Matrix3Xd moves = slopes * d.worlds;
    moves.row(1) = d.worlds.row(1);
    const Control control(slopes, no_offset, d.worlds, d.sets);
    const auto told = outer_quantile(lengths(moves), control);
    // χ² with two degrees of freedom at 0.90: 4.605 (the same table).
    CHECK(std::abs(told.value - std::sqrt(4.605)) < 4 * told.error);
    CHECK(told.error > 1e-3);
    CHECK(told.error < 0.1);
}

TEST_CASE("a set without draws is no set, and one set tells no error") {
    const auto d = drawn(3);
    const Eigen::MatrixXd slopes = Eigen::MatrixXd::Identity(3, 3);
    Eigen::Matrix3Xd moves = d.worlds;
    moves.row(2) = d.worlds.row(2).cwiseAbs();
    auto with_empty = d.sets;
    with_empty.insert(with_empty.begin() + 3, 0);
    const auto seen = lengths(moves);
    CHECK(outer_quantile(seen, Control(slopes, no_offset, d.worlds, with_empty)).error ==
          outer_quantile(seen, Control(slopes, no_offset, d.worlds, d.sets)).error);
    CHECK(outer_quantile(seen, Control(slopes, no_offset, d.worlds, {seen.size()})).error == 0);
}
