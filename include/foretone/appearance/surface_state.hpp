#pragma once
/// What lies between dry wood and coated wood: the state of the outermost cells, as light sees it.
///
/// Symbols: n index · s share of a plane through the outermost cells that is cell wall · φ share of the rest that
/// binder fills · t film, µm · ℓ film that fills the scratches to 1 − 1/e (`level_um`) · χ contact, the share of a film
/// with no air under it · k1, k2 outer and inner reflection of a surface to diffuse light.
///
/// Five states, each the limit of its neighbours:
///
///     dry asperities       φ = 0, t = 0   cell wall and air: k2 well under that of a smooth boundary
///     wetted asperities    0 < φ ≤ 1      binder in the cut cells, no level film: matte, but no longer dry
///     film on scratches    t of order ℓ   the share w = 1 − exp(−t/ℓ) is film; its facets still tilt as scratches do
///     level film           t ≫ ℓ          the film's own facets, as its gloss tells
///     bridging film        χ < 1          over the share w(1 − χ)(1 − φ) air is left in the cells: there open wood
///                                         is seen across air, through the film and both its faces
///
/// The inner reflection of any of them follows from what light a plane can carry. Radiance inside a medium of index n
/// is n² times that outside, so a plane of mixed media carries n̄² = Σ (area share) n² times what air would, and, as
/// light goes out the way it came in (reciprocity),
///
///     1 − k2 = (1 − k1)/n̄²,    n̄² = 1 + s (n_w² − 1) + (1 − s) φ (n_b² − 1).
///
/// It holds for diffuse light whatever the texture, and is Walsh's internal reflection for a smooth boundary (s = 1).
/// That is the wet look: dry wood is mostly air at its surface (n̄ about 1.25), filled wood is not (n̄ about 1.5), and
/// more of what the body scatters is turned back to be absorbed. Energy is kept by form: k2 < 1, and a body that
/// absorbs nothing reads 1.

#include "foretone/appearance/board.hpp"
#include "foretone/optics/stack.hpp"

namespace foretone::appearance {

/// How deep cut cells are, µm: a fibre's diameter; by 1 − exp(−depth/diameter), as cells are cut anywhere. Binder
/// further down fills pores but wets no asperity.
inline constexpr double cut_cell_um = 20;

/// GGX roughness of a sanded surface under a film too thin to level it. From memory: such wood reads 2–4 gloss units at
/// 60°, which is 0.2–0.3 (ISO 2813).
inline constexpr double scratch_roughness = 0.25;

/// The outer and the inner reflection of a surface, 0–1.
struct SurfacePair {
    double k1 = 0, k2 = 0;
};

/// How a board's area divides, 0–1.
struct SurfaceShares {
    double film = 0;     ///< w: under film
    double touched = 0;  ///< of the whole: under film that touches the wood; the rest of `film` is bridged
    double wetted = 0;   ///< φ of what no film touches
};

SurfaceShares surface_shares(const Board& board, const material::Wood& wood);

/// The pair of what no film touches. Dry wood's own (`surface_k1`, `surface_k2`) where nothing has soaked in; with
/// binder in the outermost cells k2 rises towards that of wood without air, never beyond. The wood's s follows from its
/// pair and its `n`.
SurfacePair open_surface(const Board& board, const material::Wood& wood);

/// Radiance factor of the open share's first surface in a geometry: of dry asperities k1, whatever the geometry, as
/// fibres scatter it; of wetted ones the lobe of a film that follows the scratches; by φ between them.
double open_first_surface(const Board& board, const material::Wood& wood, optics::Geometry geometry);

/// GGX roughness of the surface of a film of index `n`: its own, and the scratches' slopes as far as they show through,
/// α² = α_film² + α_scratch² exp(−2t/ℓ), at most 1. A liquid is level at once.
double film_roughness(const Board& board, const material::Wood& wood, double n);

/// k2 of dry wood whose outermost plane holds the share `solid` (0–1) of cell wall of index `n`, under an outer
/// reflection k1.
double dry_inner_reflection(double k1, double solid, double n);

}  // namespace foretone::appearance
