// The account of a coat, placed: numbers of schedule/uptake.hpp into zones and films.
//
// A spot's board is worked out from its past beside the mean spot's: films lie level, so a spot has the mean's, and
// only what goes in is its own (schedule/uptake.hpp).

#include "foretone/appearance/board.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "foretone/appearance/tones.hpp"
#include "board_again.hpp"
#include "foretone/base/number.hpp"
#include "wood_change.hpp"

namespace foretone::appearance {
namespace {
using material::Wood;
using schedule::Deposit;
using schedule::Ground;
using schedule::Uptake;
using spectral::Spectrum;

constexpr double pigment_depth_um = 20;     // common practice: pigment lodges in pores and scratches, it does not soak
constexpr double dry_dye_g_per_ml = 1.5;    // sulfonate salts: how thick dye dried on top lies
constexpr double dry_pigment_g_per_ml = 4;  // oxides
constexpr double liquid_film_um = 5;        // clear, so its thickness does not matter
constexpr double pore_leveling = 0.4;       // practice: full pores save a coarse-pored wood about two coats of five
constexpr double many_pores = 0.05;         // share of the face in open pores at which half of that is saved

Spectrum scaled(const Spectrum& s, double factor) {
    Spectrum out = s;
    for (double& v : out) v *= factor;
    return out;
}

void accumulate(Spectrum& sum, const Spectrum& more, double factor) {
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += factor * more[i];
}

// What the wood's file says of how it takes a coat.
Ground ground_of(const Wood& wood) {
    Ground g;
    g.absorbency = wood.absorbency.value;
    g.porosity = wood.porosity.value;
    g.level_um = wood.level_um.value;
    static const material::Grain plain = material::plain_grain();
    const material::Grain& grain = wood.grain ? *wood.grain : plain;
    g.pore_share = material::open_pore_share(grain);
    g.pore_um = g.pore_share > 0 ? grain.pore_um.value : 0;
    g.tannin_percent = schedule::tannin_percent(wood);
    return g;
}

// Open pores are a part of what a film has to level; a filler takes that part away.
double leveled_by_filler(const Board& board, double level_um) {
    const double pores = board.wood.pore_share;
    return level_um * (1 - pore_leveling * board.pores_filled * pores / (pores + many_pores));
}

// Share of the area that no film covers.
double bare_share(const Board& board) {
    return board.film_um > 0
               ? std::exp(-board.film_um /
                          schedule::level_um(board.law, leveled_by_filler(board, board.wood.level_um), board.ready))
               : 1;
}

// Before a coat goes on: paper, scratches, water. What films cover is scratched, the rest is sanded or wetted.
void ready(Board& board, const Deposit& d) {
    if (!d.scuff && !d.sand && !d.water_pop) return;
    const double open = bare_share(board);
    if (d.scuff || d.sand) board.scratched = std::max(board.scratched, 1 - open);
    if (d.sand) board.ready = schedule::sanded(board.ready, *d.sand, open);
    if (d.water_pop) board.ready = schedule::popped(board.ready, open);
}

// The board as the coat meets it. What has not dried has not set: its film and plug do not seal yet.
Ground ground(const Board& board, const Deposit& d) {
    Ground g = board.wood;
    g.uptake = board.uptake;
    g.ready = board.ready;
    g.scratched = board.scratched;
    g.pore_share = board.pore;
    g.level_um = leveled_by_filler(board, g.level_um);
    g.pore_um *= 1 - board.pores_filled;
    if (d.waited_h && board.last_dry_h > 0) g.wet = std::max(0.0, 1 - *d.waited_h / board.last_dry_h);
    g.film_um = board.film_um - g.wet * board.last_film_um;
    for (const auto& s : board.zone)
        if (s.fill > 0) g.filled.push_back({s.depth_um, s.fill});
    if (!g.filled.empty()) g.filled.back().fill -= std::min(g.filled.back().fill, g.wet * board.last_fill);
    return g;
}

// Color that lies in spots or grooves over a share c of the area is 1/c times as strong there, and light passes
// 1 − c + c e^(−A/c) of it: weak color covers as if even, strong color no more than its share.
Spectrum spotted(const Spectrum& absorbance, double share) {
    Spectrum out = absorbance;
    for (double& a : out) a = -std::log1p(-share * -std::expm1(-a / share));
    return out;
}

// Laid on and left, pigment covers. Wiped off, it lies in the grooves of the flats, far finer than light spreads in
// wood, and in open pores, which are wide enough to be seen: those lie beside the flats (render.cpp).
void add_pigment(Board& board, const Deposit& d, const Uptake& u) {
    if (!d.has_pigment || !(u.pigment_in > 0)) return;
    // One share of it counts at every wavelength, that of its mean: hollows hide some of their pigment, not its hue.
    double mean = 0;
    for (std::size_t i = 0; i < d.pigment_absorbance.size(); ++i)
        mean += (d.pigment_absorbance[i] + d.pigment_scattering[i]) / static_cast<double>(d.pigment_absorbance.size());
    const auto add = [&](double in, double share, Where where) {
        const double all = in * mean;
        const double seen = share < 1 && all > 0 ? -std::log1p(share * std::expm1(-all / share)) / all : 1;
        if (in > 0)
            board.zone.push_back({pigment_depth_um, scaled(d.pigment_absorbance, in * seen),
                                  scaled(d.pigment_scattering, in * seen), 0, 1, where});
    };
    if (!d.wiped) return add(u.pigment_in, 1, Where::all);
    if (board.pore < 1) add(u.pigment_flats, board.law.grooved_share, Where::flats);
    if (board.pore > 0) add(u.pigment_pores, 1, Where::pores);
}

void add_binder(Board& board, const Deposit& d, const Uptake& u) {
    if (u.binder_in_um > 0) {
        const double room = board.wood.porosity * std::sqrt(board.uptake * schedule::taking(board.law, board.ready));
        Soaked s{u.binder_depth_um,
                 scaled(d.binder_absorption_per_mm, u.binder_in_um / 1000),
                 {},
                 u.binder_in_um / (room * u.binder_depth_um),
                 d.binder_n};
        accumulate(s.absorbance, d.dye_absorbance, u.dye_in);
        board.last_fill = s.fill;
        board.zone.push_back(s);
    }
    add_pigment(board, d, u);
    if (u.film_um <= 1e-9) {  // pigment that the rag leaves where the wood has drunk its binder
        if (u.pigment_on > 0)
            board.zone.push_back({pigment_depth_um, scaled(d.pigment_absorbance, u.pigment_on),
                                  scaled(d.pigment_scattering, u.pigment_on), 0, 1});
        return;
    }
    Coat coat{u.film_um, d.binder_n, d.binder_absorption_per_mm, d.binder_haze_per_mm};
    const double per_mm = 1000 / u.film_um;
    accumulate(coat.absorption_per_mm, d.dye_absorbance, u.dye_on * per_mm);
    accumulate(coat.absorption_per_mm, d.pigment_absorbance, u.pigment_on * per_mm);
    accumulate(coat.haze_per_mm, d.pigment_scattering, u.pigment_on * per_mm);
    coat.contact = d.contact;
    board.coats.push_back(coat);
    board.film_um += u.film_um;
    board.last_film_um = u.film_um;
    board.sheen_gu60 = d.sheen_gu60;
}

void add_loose(Board& board, const Deposit& d, const Uptake& u) {
    if (!(u.dye_on > 0 || u.pigment_on > 0)) return;
    Spectrum color = scaled(d.dye_absorbance, u.dye_on);
    accumulate(color, d.pigment_absorbance, u.pigment_on);
    color = spotted(color, board.law.spotted);
    if (board.coats.empty()) {
        board.zone.push_back({pigment_depth_um, color, scaled(d.pigment_scattering, u.pigment_on), 0, 1});
        return;
    }
    const double um = u.account.dye.on / dry_dye_g_per_ml + u.account.pigment.on / dry_pigment_g_per_ml;
    if (!(um > 1e-9)) return;
    const double per_mm = 1000 / um;
    board.coats.push_back(
        {um, board.coats.back().n, scaled(color, per_mm), scaled(d.pigment_scattering, u.pigment_on * per_mm), true});
}

void add_color(Board& board, const Deposit& d, const Uptake& u) {
    if (u.dye_in > 0)
        board.zone.push_back({u.liquid_depth_um, scaled(d.dye_absorbance, u.dye_in), {}, 0, 1, Where::all, Stuff::dye});
    add_pigment(board, d, u);
    add_loose(board, d, u);
    if (d.raises_grain) board.ready = schedule::popped(board.ready, bare_share(board));
}

struct Step {
    Board board;
    Uptake uptake;
    Ground ground;
};

// Share of the pores' mouths that no film has closed.
double pores_open(const Step& s) {
    return s.ground.pore_um > 0 ? schedule::open_share(s.board.law, s.ground.film_um, s.ground.pore_um) : 0;
}

// One coat on one spot, before it dries and after.
Step laid_on(Board before, const Deposit& d, const Uptake* mean) {
    Step s{std::move(before), {}, {}};
    s.board.under_liquid = false;
    ready(s.board, d);
    s.ground = ground(s.board, d);
    s.uptake = schedule::uptake(d, s.ground, s.board.law, mean);
    s.board.account = s.uptake.account;
    s.board.last_film_um = s.board.last_fill = 0;
    s.board.last_dry_h = d.dry_h;
    if (d.binder_um > 0)
        add_binder(s.board, d, s.uptake);
    else
        add_color(s.board, d, s.uptake);
    s.board.pores_filled += (1 - s.board.pores_filled) * d.pore_fill * pores_open(s);
    // What draws in a gas is what would draw in a liquid; it has no amount of its own.
    if (d.change)
        change_wood(s.board, *d.change,
                    d.laid_g > 0 ? s.uptake.dye_in : std::min(1.0, schedule::suction(s.board.law, s.ground)));
    s.board.scratched *= std::exp(-s.uptake.film_um / s.board.law.scratch_um);
    return s;
}

Board dampened(Step s, const Deposit& d) {
    Board board = std::move(s.board);
    Ground now = std::move(s.ground);  // what was there and what this coat's binder has filled
    if (s.uptake.binder_in_um > 0) now.filled.push_back({s.uptake.binder_depth_um, board.last_fill});
    const double depth =
        d.liquid_depth_um * now.absorbency * std::sqrt(now.uptake * schedule::taking(board.law, now.ready));
    const double in = std::min(s.uptake.liquid_in_um, d.liquid_fill * schedule::free_pores_um(board.law, now, depth));
    const double room = now.porosity * std::sqrt(now.uptake * schedule::taking(board.law, now.ready)) * depth;
    if (in > 0) board.zone.push_back({depth, {}, {}, in / room, d.liquid_n});
    board.coats.push_back({liquid_film_um, d.liquid_n, {}, {}});
    board.under_liquid = true;
    return board;
}

// The board before its next coat, with room for it.
void make_ready(const Board& before, const Wood& wood, Board& board) {
    board.zone.reserve(before.zone.size() + 3);
    board.coats.reserve(before.coats.size() + 1);
    board.past.reserve(before.past.size() + 1);
    board = before;
    if (board.past.empty()) {
        board.wood = ground_of(wood);
        board.pore = board.wood.pore_share;
        board.ready.grit = wood.grit;
        board.first = board.ready;
    }
}

}  // namespace

double Board::covered(const Wood& w) const { return under_liquid ? 1.0 : 1.0 - std::exp(-film_um / level_um(w)); }

double Board::level_um(const Wood& w) const {
    return schedule::level_um(law, leveled_by_filler(*this, w.level_um.value), ready);
}

Board after_drying(const Board& before, const Deposit& deposit, const Wood& wood) {
    return after_drying(before, std::make_shared<const Deposit>(deposit), wood);
}

Board after_drying(const Board& before, std::shared_ptr<const Deposit> deposit, const Wood& wood) {
    Board after;
    dry_into(after, before, std::move(deposit), wood);
    return after;
}

void dry_into(Board& after, const Board& before, std::shared_ptr<const Deposit> deposit, const Wood& wood) {
    make_ready(before, wood, after);
    after = laid_on(std::move(after), *deposit, nullptr).board;
    after.past.push_back({std::move(deposit), false});
}

Board while_wet(const Board& before, const Deposit& deposit, const Wood& wood) {
    Board after;
    damp_into(after, before, std::make_shared<const Deposit>(deposit), wood);
    return after;
}

void damp_into(Board& after, const Board& before, std::shared_ptr<const Deposit> deposit, const Wood& wood) {
    make_ready(before, wood, after);
    after = dampened(laid_on(std::move(after), *deposit, nullptr), *deposit);
    after.past.push_back({std::move(deposit), true});
}

Board after_coats(Board board, const Deposit& deposit, int coats, const Wood& wood) {
    if (coats > 0) board = after_drying(board, deposit, wood);
    if (coats < 2) return board;
    const Deposit further = schedule::further_coat(deposit);
    for (int coat = 1; coat < coats; ++coat) board = after_drying(board, further, wood);
    return board;
}

Board at_uptake(const Board& of, double uptake) { return at_spot(of, uptake, of.pore); }

// The past again at the spot, beside the mean board: the mean's films, the spot's own zone.
Board at_spot(const Board& of, double uptake, double pore) {
    if (!(uptake >= 0 && std::isfinite(uptake)))
        throw std::invalid_argument("tones: an uptake is 0 or more, not " + base::shortest(uptake));
    if (!(pore >= 0 && pore <= 1))
        throw std::invalid_argument("tones: a share of pores is 0 to 1, not " + base::shortest(pore));
    if (of.past.empty()) return of;
    Board mean, spot;
    mean.ready = spot.ready = of.first;
    mean.first = spot.first = of.first;
    mean.law = spot.law = of.law;
    mean.wood = spot.wood = of.wood;
    spot.uptake = of.uptake * uptake;
    mean.pore = of.wood.pore_share;
    spot.pore = pore;
    for (const auto& [coat, wet] : of.past) {
        const Step m = laid_on(mean, *coat, nullptr);
        const Step s = laid_on(spot, *coat, &m.uptake);
        mean = m.board;
        spot = wet ? dampened(s, *coat) : s.board;
    }
    spot.past = of.past;
    return spot;
}

}  // namespace foretone::appearance
