// The states' shares and pairs from a board.
//
// Symbols as in the header; besides, d a soaked layer's depth, f its fill, p the wood's porosity, D a fibre's diameter
// (`cut_cell_um`), T_k the film below coat k and t_k its own.
//
//   b = Σ f p D (1 − exp(−d/D)),   φ = 1 − exp(−b/ℓ)                  binder within the cut cells
//   χ = Σ χ_k (exp(−T_k/ℓ) − exp(−(T_k + t_k)/ℓ))/(1 − exp(−t/ℓ))     each coat touches where those below left it open
//   touched = w (1 − (1 − χ)(1 − φ))
//   s from the dry pair: (1 − k1)/(1 − k2) = 1 + s (n_w² − 1)
//   α² = α_film² + (0.25 exp(−t/ℓ))²
//
// Exponentials of what is above what, so that every state goes over into its neighbour; by expm1, so that a trace keeps
// its digits.

#include "foretone/appearance/surface_state.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/optics/gloss.hpp"

namespace foretone::appearance {
namespace {

// Binder within the outermost cells.
struct Wetting {
    double um = 0;     // as a film thickness
    double index = 1;  // its mean index, weighted by amount
};

Wetting wetting(const Board& board, const material::Wood& wood) {
    Wetting out;
    double sum = 0;
    for (const auto& s : board.zone) {
        const double within = -cut_cell_um * std::expm1(-s.depth_um / cut_cell_um);  // µm of the zone in the cut cells
        const double um = s.fill * wood.porosity.value * within;
        out.um += um;
        sum += um * s.fill_n;
    }
    if (out.um > 0) out.index = sum / out.um;
    return out;
}

double filled_share(const Wetting& wet, double level) { return -std::expm1(-wet.um / level); }

// χ of all coats: each covers what those below it left open.
double contact(const Board& board, double level) {
    double below = 0, area = 0, touched = 0;
    for (const auto& coat : board.coats) {
        if (coat.loose) continue;  // dried color is no film
        const double above = below + coat.thickness_um;
        const double share = std::exp(-below / level) - std::exp(-above / level);
        area += share;
        touched += share * coat.contact;
        below = above;
    }
    return area > 0 ? touched / area : 1;
}

}  // namespace

SurfaceShares surface_shares(const Board& board, const material::Wood& wood) {
    const double level = board.level_um(wood), wet = filled_share(wetting(board, wood), level);
    if (board.coats.empty()) return {0, 0, wet};
    if (board.under_liquid) return {1, 1, wet};
    const double film = board.covered(wood);
    return {film, film * (1 - (1 - contact(board, level)) * (1 - wet)), wet};
}

double dry_inner_reflection(double k1, double solid, double n) { return 1 - (1 - k1) / (1 + solid * (n * n - 1)); }

SurfacePair open_surface(const Board& board, const material::Wood& wood) {
    const double k1 = wood.surface_k1.value, k2 = wood.surface_k2.value;
    const auto wet = wetting(board, wood);
    if (wet.um <= 0) return {k1, k2};
    const double dry = (1 - k1) / (1 - k2), n_w = wood.n.value;
    const double air = std::max(0.0, 1 - (dry - 1) / (n_w * n_w - 1));
    const double filled = filled_share(wet, board.level_um(wood));
    return {k1, 1 - (1 - k1) / (dry + air * filled * (wet.index * wet.index - 1))};
}

double open_first_surface(const Board& board, const material::Wood& wood, optics::Geometry geometry) {
    const double dry = wood.surface_k1.value;
    const auto wet = wetting(board, wood);
    if (wet.um <= 0) return dry;
    const double filled = filled_share(wet, board.level_um(wood));
    return (1 - filled) * dry + filled * optics::surface_radiance(scratch_roughness, wet.index, geometry);
}

double film_roughness(const Board& board, const material::Wood& wood, double n) {
    if (board.under_liquid) return 0;
    const double own = optics::roughness_from_gu60(board.sheen_gu60, n);
    const double shows = scratch_roughness * std::exp(-board.film_um / board.level_um(wood));
    return std::min(1.0, std::hypot(own, shows));
}

}  // namespace foretone::appearance
