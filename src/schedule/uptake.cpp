// One coat on one spot: the books.
//
// Symbols: L what is laid on · f flood factor, √(time/usual time) · g suction over the bare mean spot's · s share of
// the binder that stays · A absorbency · D depth.
//   no binder   in = min(min(L/max(1,f), suction) f g, room),   D = D₇₀ A √(in/70 g/m²)
//   binder      in = min((1 − s) L/max(1,f) f g, room)
//   pigment     in = (1 − c) flats + c pores, c the share of the spot that lies in open pores (lodging.cpp)
// 70 g/m² is the coat for which a liquid's file states its depth: a front that carries u times as much has come √u
// times as deep in pores √u times as full. Everything is a share of L, so that the books of liquid, binder, dye and
// pigment each close by construction: what is wiped off is what is left.

#include "foretone/schedule/uptake.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/schedule/lodging.hpp"

namespace foretone::schedule {
namespace {
using material::Method;

constexpr double usual_soak_g = 70;  // the coat that a liquid's depth is stated for

// What fills pores is taken off across the grain, which drags the paste out of the scratches along it: of what a rag
// leaves there of a stain next to nothing stays, a haze (common practice: flats come nearly clean; the size is a
// guess).
constexpr double filler_left_on_flats = 0.03;

// Shares of one substance: what is laid on against the deposit, in and on against it too.
Fate fate(double deposit_g, double laid, double in, double on, double gone) {
    Fate f{deposit_g * laid, deposit_g * in, deposit_g * on, 0, deposit_g * gone};
    f.wiped = std::max(0.0, deposit_g * (laid - in - on - gone));
    f.laid = f.sum();
    return f;
}

// How much more than the deposit says is laid on: a wiped coat is topped up where prepared wood takes more.
double topped_up(const Deposit& d, const Ground& g, const UptakeLaw& law) {
    return d.wiped ? std::max(1.0, d.flood * taking(law, g.ready)) / std::max(1.0, d.flood) : 1;
}

struct Spot {
    const Deposit& d;
    const Ground& g;
    const UptakeLaw& law;
    const Uptake* mean;
    double laid, pull, closed;
    double uptake_here() const { return g.uptake * taking(law, g.ready); }
    double residue_um() const { return law.residue_um + g.scratched * (law.scratch_residue_um - law.residue_um); }
    // What there is to draw is shared out: the mean spot cannot draw more than is laid on.
    double drawn(Uptake& out, double wanted, double most) const {
        out.supply = mean ? mean->supply : wanted > most ? most / wanted : 1;
        return wanted * out.supply;
    }
};

// Of a wiped coat, what hollows hold: the rag carries what flats lose into pores, but no more than was laid on.
void lodge(const Spot& s, Uptake& out) {
    Lodged held = lodged(s.law, s.g, s.d.particle_um);
    if (s.d.pore_fill > 0) held.flats_um *= filler_left_on_flats;
    // What fills pores is pressed into all of their room that no film has closed.
    if (s.d.pore_fill > 0 && s.g.pore_um > 0)
        held.pores_um =
            std::max(held.pores_um, open_share(s.law, s.g.film_um, s.g.pore_um) * s.d.pore_fill * s.g.pore_um);
    const double pores = s.g.pore_share;
    const double all = ((1 - pores) * held.flats_um + pores * held.pores_um) / s.d.wet_um;
    const double most = std::max(0.0, s.laid - out.pigment_on);
    out.pigment_supply = s.mean ? s.mean->pigment_supply : all > most ? most / all : 1;
    out.pigment_flats = out.pigment_supply * held.flats_um / s.d.wet_um;
    out.pigment_pores = out.pigment_supply * held.pores_um / s.d.wet_um;
    out.pigment_in = (1 - pores) * out.pigment_flats + pores * out.pigment_pores;
}

void pigment(const Spot& s, Uptake& out, double in, double on) {
    const auto& d = s.d;
    if (!(d.pigment_g > 0)) return;
    out.pigment_in = out.pigment_flats = out.pigment_pores = in;
    if (d.wiped) on = s.closed * std::min(s.laid, s.residue_um() / d.wet_um);
    if (d.wiped && d.remainder) on = std::max(on, *d.remainder * s.laid);
    out.pigment_on = s.mean ? s.mean->pigment_on : on;
    if (d.wiped) lodge(s, out);
    out.account.pigment = fate(d.pigment_g, s.laid, out.pigment_in, out.pigment_on, 0);
}

void with_binder(const Spot& s, Uptake& out) {
    const auto& d = s.d;
    const double said_um = d.binder_um / std::max(1.0, d.flood), laid_um = d.binder_um * s.laid;
    out.binder_depth_um = d.binder_depth_um * s.g.absorbency * std::sqrt(s.uptake_here());
    const double wanted = s.drawn(out, (1 - d.stay) * said_um * d.flood * s.pull, laid_um);
    out.binder_in_um = std::min(wanted, free_pores_um(s.law, s.g, out.binder_depth_um));
    const double rest = laid_um - out.binder_in_um;
    out.film_um = s.mean                   ? s.mean->film_um
                  : d.remainder && d.wiped ? *d.remainder * rest
                  : d.wiped                ? std::min(d.stay * said_um, rest)
                                           : rest;
    out.dye_in = out.binder_in_um / d.binder_um;
    out.dye_on = out.film_um / d.binder_um;
    out.account.binder = fate(d.binder_g, s.laid, out.dye_in, out.dye_on, 0);
    out.account.dye = fate(d.dye_g, s.laid, out.dye_in, out.dye_on, 0);
    out.account.liquid = fate(d.liquid_g, s.laid, out.dye_in, 0, out.dye_on);
    out.liquid_in_um = (d.wet_um - d.binder_um) * s.pull;
    out.liquid_depth_um = d.liquid_depth_um * s.g.absorbency * std::sqrt(s.uptake_here());
    pigment(s, out, out.dye_in, out.dye_on);
}

// Share of the surplus that stays on top.
double left_on_top(const Spot& s, double surplus) {
    switch (s.d.method) {
        case Method::wipe:
            return s.closed * std::min(surplus, s.residue_um() / s.d.wet_um);
        case Method::brush:
        case Method::roll:
            return s.law.brushed_left * surplus;
        case Method::spray:
            break;
    }
    return surplus;
}

void without_binder(const Spot& s, Uptake& out) {
    const auto& d = s.d;
    const double density = d.laid_g / d.wet_um;
    const double said_um = d.wet_um / std::max(1.0, d.flood);
    const double suction_um = drawn_g_per_m2(s.law, s.g.absorbency, usual_flood_min);  // of water: 1 g/m² is 1 µm
    const double wanted = s.drawn(out, std::min(said_um, suction_um) * d.flood * s.pull, d.wet_um * s.laid);
    const double reach_um = s.law.reach * d.liquid_depth_um * s.g.absorbency * std::sqrt(s.uptake_here());
    out.liquid_in_um = std::min(wanted, free_pores_um(s.law, s.g, reach_um));
    out.liquid_depth_um = d.liquid_depth_um * s.g.absorbency * std::sqrt(out.liquid_in_um * density / usual_soak_g);
    out.dye_in = out.liquid_in_um / d.wet_um;
    const double surplus = std::max(0.0, s.laid - out.dye_in);
    out.dye_on = s.mean ? s.mean->dye_on : left_on_top(s, surplus);
    out.account.dye = fate(d.dye_g, s.laid, out.dye_in, out.dye_on, 0);
    out.account.liquid = fate(d.liquid_g, s.laid, out.dye_in, 0, out.dye_on);
    const double open = 1 - s.closed;
    pigment(s, out, open, d.method == Method::spray ? s.closed : s.law.brushed_left * s.closed);
}

}  // namespace

Uptake uptake(const Deposit& d, const Ground& ground, const UptakeLaw& law, const Uptake* mean) {
    const double closed = 1 - open_share(law, ground.film_um, level_um(law, ground.level_um, ground.ready));
    const Spot spot{d, ground, law, mean, topped_up(d, ground, law), suction(law, ground), closed};
    Uptake out;
    if (d.binder_um > 0)
        with_binder(spot, out);
    else
        without_binder(spot, out);
    return out;
}

}  // namespace foretone::schedule
