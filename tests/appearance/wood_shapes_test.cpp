#include "foretone/appearance/wood_shapes.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "appearance/finishes.hpp"
#include "foretone/color/lab.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;

namespace {

const color::Weights d65_2deg = color::make_weights(light("D65"), observer("2deg"));

double de(const material::Wood& wood, const spectral::Spectrum& curve, double by) {
    spectral::Spectrum moved;
    for (std::size_t i = 0; i < moved.size(); ++i)
        moved[i] = with_body_shift(wood.reflectance.values[i], by * curve[i]);
    return color::delta_e_ab(color::to_lab(color::xyz(wood.reflectance.values, d65_2deg), d65_2deg.white),
                             color::to_lab(color::xyz(moved, d65_2deg), d65_2deg.white));
}

// Root of the sum of squares, by small moves so that each is in proportion.
double together(const material::Wood& wood, const std::vector<spectral::Spectrum>& curves) {
    double squares = 0;
    for (const auto& c : curves) squares += std::pow(de(wood, c, 0.05) / 0.05, 2);
    return std::sqrt(squares);
}

}  // namespace

TEST_CASE("a shift of ln(K/S) is undone by its opposite and keeps a reflectance between 0 and 1") {
    double worst = 0;
    for (int i = 1; i < 100; ++i)
        for (const double shift : {-3.0, -0.1, 0.4, 5.0}) {
            const double r = i / 100.0, there = with_body_shift(r, shift);
            CHECK((there > 0 && there < 1 && (shift > 0 ? there < r : there > r)));
            worst = worst_of(worst, std::abs(with_body_shift(there, -shift) - r));
        }
    CHECK(worst < 1e-10);
}

TEST_CASE("boards of every wood differ by the stated color difference, and not more than the file's spread allows") {
    for (const char* id : {"hard-maple", "white-oak", "walnut", "pine", "teak"}) {
        const auto& wood = wood_of(id);
        const double l = color::to_lab(color::xyz(wood.reflectance.values, d65_2deg), d65_2deg.white).l;
        const double whole = wood.reflectance.sd * (l + 16) / 3;  // d L*/d ln Y = (L* + 16)/3
        const auto shapes = wood_shapes(wood, d65_2deg, wood_board_de, false);
        const double stock = together(wood, shapes.stock), board = together(wood, shapes.board);
        INFO(id << ": whole " << whole << ", stock " << stock << ", board " << board);
        CHECK_THAT(std::hypot(stock, board) / whole, Near(1, 0.03));
        CHECK_THAT(board / std::min(wood_board_de, whole / std::sqrt(2.0)), Near(1, 0.03));
        CHECK_THAT(together(wood, board_shapes(wood, d65_2deg, 1.5)), Near(1.5, 0.05));
    }
}

TEST_CASE("on the board that was read nothing differs from board to board, and a sure reading has no shapes") {
    auto wood = wood_of("cherry");
    CHECK(wood_shapes(wood, d65_2deg, 2, true).board.empty());
    CHECK(wood_shapes(wood, d65_2deg, 2, true).stock.size() == 3);
    wood.reflectance.sd = 0;
    CHECK(wood_shapes(wood, d65_2deg, 2, false).board.empty());
    CHECK(wood_shapes(wood, d65_2deg, 2, false).stock.empty());
}
