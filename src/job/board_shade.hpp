#pragma once
// Boards settled on their readings, and such with toned edges: the toners of a finish sprayed towards the edges alone.

#include "foretone/appearance/mean_matched.hpp"
#include "foretone/color/xyz.hpp"
#include "foretone/job/board_rows.hpp"
#include "board_maps.hpp"

namespace foretone::job {

/// A finished board, the wood it is of, and its spots on the maps.
struct SettledBoard {
    appearance::Board board;
    material::Wood wood;
    appearance::MeanMatchedSpectra settled;
    double toned = 1;  ///< share of its toners' color
};

/// The finish as old as asked, on the maps.
SettledBoard settled_board(const scene::Scene& scene, const schedule::Finish& finish, const BoardRequest& request,
                           const BoardMaps& maps, const appearance::Solver& solver);

bool holds_toner(const schedule::Finish& finish, const material::Materials& materials);

/// How much of the toner lies at a point of a board, 0–1, x and y from its corner: all of it at the edges, none from
/// `shade_reach` of the shorter side inwards, between them half a wave; passes along two edges meet in the corners.
double edge_share(double x, double y, double width, double height);
inline constexpr double shade_reach = 0.35;

/// The finish with so much of its toners' color, from none to all, each worked out by the account of its own coats:
/// readings of neighbours lie at most `shade_gap` apart (ΔE00) in every one of the lights, but there are no more than
/// `most_shades`.
inline constexpr double shade_gap = 3;
inline constexpr std::size_t most_shades = 32;
std::vector<SettledBoard> shaded_boards(const scene::Scene& scene, const schedule::Finish& finish,
                                        const BoardRequest& request, const BoardMaps& maps,
                                        const appearance::Solver& solver, const std::vector<color::Weights>& lights);

/// The widest step between neighbours, ΔE00 of their readings.
double widest_gap(const std::vector<SettledBoard>& levels, const std::vector<color::Weights>& lights);

/// The board with toned edges in one light, of the levels that `shaded_boards` gives; its rows go to `take`.
SeenBoard shaded_board(const std::vector<SettledBoard>& levels, const BoardMaps& maps, const color::Weights& weights,
                       light::View view, const TakeRows& take);

}  // namespace foretone::job
