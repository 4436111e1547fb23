#pragma once
// Boards settled on their readings, and such with toned edges: the toners of a finish sprayed towards the edges alone.

#include "foretone/appearance/mean_matched.hpp"
#include "foretone/color/xyz.hpp"
#include "foretone/job/board.hpp"

namespace foretone::job {

/// A finished board, the wood it is of, and its spots on the maps.
struct SettledBoard {
    appearance::Board board;
    material::Wood wood;
    appearance::MeanMatchedSpectra settled;
    spectral::Spectrum mean;  ///< reading of all pixels
};

/// The finish as old as asked, on the maps.
SettledBoard settled_board(const scene::Scene& scene, const schedule::Finish& finish, const BoardRequest& request,
                           const grain::Maps& maps, const appearance::Solver& solver);

bool holds_toner(const schedule::Finish& finish, const material::Materials& materials);

/// How much of the toner lies at a point of a board, 0–1, x and y from its corner: all of it at the edges, none from
/// `shade_reach` of the shorter side inwards, between them half a wave; passes along two edges meet in the corners.
double edge_share(double x, double y, double width, double height);
inline constexpr double shade_reach = 0.35;

/// The finish with so much of its toners' color, evenly spaced from none to all, each worked out by the account of its
/// own coats.
std::vector<SettledBoard> shaded_boards(const scene::Scene& scene, const schedule::Finish& finish,
                                        const BoardRequest& request, const grain::Maps& maps,
                                        const appearance::Solver& solver);

/// Puts the board with toned edges in the place of `seen`, which is the last of `levels`.
void shade_edges(SeenBoard& seen, const std::vector<SettledBoard>& levels, const grain::Maps& maps,
                 const color::Weights& weights, light::View view);

}  // namespace foretone::job
