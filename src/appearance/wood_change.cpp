// Treatments on a spot.
//
// Bleach takes a share of the wood's own absorption over its depth; dyes and iron stains are taken where they lie. What
// a reagent makes lies in the wood down to its depth, as strong as tannin and reagent allow (schedule/wood_change.hpp).

#include "wood_change.hpp"

#include <algorithm>
#include <cmath>

namespace foretone::appearance {
namespace {

void fade(Board& board, Stuff stuff, double by) {
    for (auto& s : board.zone)
        if (s.stuff == stuff)
            for (double& a : s.absorbance) a *= std::clamp(1 - by, 0.0, 1.0);
}

}  // namespace

void change_wood(Board& board, const schedule::WoodChange& change, double share) {
    if (!(share > 0)) return;
    const double depth = change.depth_um * board.wood.absorbency * std::sqrt(board.uptake);
    if (change.takes_dye > 0) fade(board, Stuff::dye, change.takes_dye * share);
    if (change.takes_iron > 0) fade(board, Stuff::iron, change.takes_iron * share);
    if (change.takes_wood > 0) {
        double left = 1;
        for (const auto& s : board.zone) left *= s.keeps;
        Soaked bleached;
        bleached.depth_um = depth;
        bleached.keeps = left > 0 ? change.left_after(left, share) / left : 1;
        board.zone.push_back(bleached);
    }
    const double made = share * change.made(board.wood.tannin_percent + board.tannin_given);
    if (std::any_of(change.adds_absorbance.begin(), change.adds_absorbance.end(), [](double a) { return a > 0; })) {
        Soaked color;
        color.depth_um = depth;
        color.absorbance = change.adds_absorbance;
        for (double& a : color.absorbance) a *= made;
        color.stuff = change.leaves_iron ? Stuff::iron : Stuff::other;
        board.zone.push_back(color);
    }
    board.tannin_given += share * change.gives_tannin_percent;
}

}  // namespace foretone::appearance
