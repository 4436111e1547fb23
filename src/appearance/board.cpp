#include "foretone/appearance/board.hpp"

#include <algorithm>
#include <cmath>

namespace foretone::appearance {
namespace {
using material::Wood;
using schedule::Deposit;
using spectral::Spectrum;

constexpr double pigment_depth_um = 20;  // common practice: pigment lodges in pores and scratches, it does not soak
constexpr double dye_film_um = 1;        // a dye dried on a sealed surface: thin, its absorbance is what counts
constexpr double liquid_film_um = 5;     // clear, so its thickness does not matter

Spectrum scaled(const Spectrum& s, double factor) {
    Spectrum out = s;
    for (double& v : out) v *= factor;
    return out;
}

void accumulate(Spectrum& sum, const Spectrum& more) {
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += more[i];
}

// Pore volume still empty down to `depth_um`, as a film thickness in µm.
double free_pores_um(const Board& board, double depth_um, double porosity) {
    double filled = 0;
    for (const auto& s : board.zone) filled += s.fill * std::min(s.depth_um, depth_um);
    return porosity * std::max(0.0, depth_um - filled);
}

void add_binder(Board& board, const Deposit& d, const Wood& wood, double open) {
    const double depth = d.binder_depth_um * wood.absorbency.value;
    const double porosity = wood.porosity.value;
    const double soaked = std::min((1 - d.stay) * open * d.binder_um, free_pores_um(board, depth, porosity));
    const double share = soaked / d.binder_um;
    if (soaked > 0) {
        Soaked s{depth, scaled(d.binder_absorption_per_mm, soaked / 1000), scaled(d.pigment_scattering, share),
                 soaked / (porosity * depth), d.binder_n};
        accumulate(s.absorbance, scaled(d.dye_absorbance, share));
        accumulate(s.absorbance, scaled(d.pigment_absorbance, share));
        board.zone.push_back(s);
    }
    const double film = d.wiped ? std::min(d.stay * d.binder_um, d.binder_um - soaked) : d.binder_um - soaked;
    if (film <= 1e-9) return;
    // Color and pigment of this coat ride in its binder, soaked, left as film or wiped off: optical depth over binder
    // thickness.
    const double per_mm = 1000 / d.binder_um;
    Coat coat{film, d.binder_n, d.binder_absorption_per_mm, d.binder_haze_per_mm};
    accumulate(coat.absorption_per_mm, scaled(d.dye_absorbance, per_mm));
    accumulate(coat.absorption_per_mm, scaled(d.pigment_absorbance, per_mm));
    accumulate(coat.haze_per_mm, scaled(d.pigment_scattering, per_mm));
    coat.contact = d.contact;
    board.coats.push_back(coat);
    board.film_um += film;
    board.sheen_gu60 = d.sheen_gu60;
}

void add_colorants_alone(Board& board, const Deposit& d, const Wood& wood, double open) {
    const double depth = d.liquid_depth_um * wood.absorbency.value;
    if (open > 0) {
        board.zone.push_back({depth, scaled(d.dye_absorbance, open), {}, 0, 1});
        if (d.has_pigment)
            board.zone.push_back({std::min(depth, pigment_depth_um), scaled(d.pigment_absorbance, open),
                                  scaled(d.pigment_scattering, open), 0, 1});
    }
    if (board.coats.empty() || open >= 1) return;
    const double per_mm = 1000 * (1 - open) / dye_film_um;
    Coat dried{dye_film_um, board.coats.back().n, scaled(d.dye_absorbance, per_mm),
               scaled(d.pigment_scattering, per_mm)};
    accumulate(dried.absorption_per_mm, scaled(d.pigment_absorbance, per_mm));
    board.coats.push_back(dried);
}

}  // namespace

double Board::covered(const Wood& wood) const {
    return under_liquid ? 1.0 : 1.0 - std::exp(-film_um / wood.level_um.value);
}

Board after_drying(const Board& before, const Deposit& deposit, const Wood& wood) {
    Board board = before;
    board.under_liquid = false;
    const double open = 1 - before.covered(wood);
    if (deposit.binder_um > 0)
        add_binder(board, deposit, wood, open);
    else
        add_colorants_alone(board, deposit, wood, open);
    return board;
}

Board while_wet(const Board& before, const Deposit& deposit, const Wood& wood) {
    const double open = 1 - before.covered(wood);
    Board board = after_drying(before, deposit, wood);
    const double depth = deposit.liquid_depth_um * wood.absorbency.value;
    const double porosity = wood.porosity.value;
    const double liquid_um = std::max(0.0, deposit.wet_um - deposit.binder_um);
    const double soaked = std::min(liquid_um * open, deposit.liquid_fill * free_pores_um(board, depth, porosity));
    if (soaked > 0) board.zone.push_back({depth, {}, {}, soaked / (porosity * depth), deposit.liquid_n});
    board.coats.push_back({liquid_film_um, deposit.liquid_n, {}, {}});
    board.under_liquid = true;
    return board;
}

}  // namespace foretone::appearance
