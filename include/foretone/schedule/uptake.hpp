#pragma once
/// What of a coat goes into the wood, what stays up and what is wiped off, at one spot.

#include "foretone/schedule/account.hpp"
#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/ground.hpp"

namespace foretone::schedule {

/// Shares are of what the deposit lays on (a spot that takes more than the mean can have a share above 1).
struct Uptake {
    Account account;
    double binder_in_um = 0;  ///< dry binder that soaks in
    double binder_depth_um = 0;
    double film_um = 0;       ///< dry binder that stays up
    double liquid_in_um = 0;  ///< of a coat's whole liquid, what the wood draws in
    double liquid_depth_um = 0;
    double dye_in = 0, dye_on = 0;
    double pigment_in = 0, pigment_on = 0;
    double pigment_flats = 0, pigment_pores = 0;  ///< what makes `pigment_in`, each over its own part of the spot
    double supply = 1;          ///< of what the mean spot would draw in, the share that is there to draw
    double pigment_supply = 1;  ///< the same of what hollows would hold
};

/// One coat on one spot.
///
/// A coat without binder. What is said to be laid on is drawn in by bare wood in the usual time, up to what suction
/// draws (`drawn_g_per_m2`) and pores hold; by a spot of suction g, g times as much; by a coat kept wet m minutes,
/// √(m/usual) times as much (it is topped up). The rest is wiped off but for what the texture holds; a brush leaves
/// `brushed_left` of it; sprayed on, it all dries on top. Never more goes in than is laid on.
///
/// A coat with binder. The share 1 − `stay`, times g, soaks in as far as pores hold it; what is brushed, rolled or
/// sprayed on stays up with the rest, what is wiped on keeps `stay`. Dye goes where its binder goes.
///
/// Pigment of a wiped coat lodges in scratches, cut cells and open pores by its grains' width (lodging.hpp); else it
/// goes where its binder goes, or lodges where the wood is open.
///
/// `mean`: the same coat on the board's mean spot; null if this is it. Liquid flows level: films and residues are the
/// mean's, and a spot is laid on what it takes (over a board the spots' accounts add up to the mean's as far as uptake
/// is proportional).
Uptake uptake(const Deposit& deposit, const Ground& ground, const UptakeLaw& law, const Uptake* mean = nullptr);

}  // namespace foretone::schedule
