// How much of a liquid wood draws in.
//
// Symbols: t time left wet, min · A absorbency, hard maple 1 · u uptake of a spot over the wood's mean · w share of the
// mouths that a film closes · f share of the outer pores that binder fills · β resistance of that plug, over the bare
// wood's · g suction over the bare mean spot's.
//   V = k A √(t/2 min)                      Washburn (1921): a front slowed by the column behind it
//   β = βmax f/(f + f½)                     the first of a seal closes the narrow mouths, which are the many
//   1/g = 1/u + β + w/(1 − w)               resistances in a row: wood, plug, and a film with holes
// A sum of resistances is well-conditioned where a difference u − seal would cancel, and never turns negative: no spot,
// however sealed, gives liquid back. It is formed over 1 − w, so that a thick film is no division by zero; an empty
// seal (w = 0, f = 0) leaves g = u.

#include "foretone/schedule/suction.hpp"

#include <cmath>

namespace foretone::schedule {

const std::vector<UptakeFigure>& uptake_figures() {
    using L = UptakeLaw;
    const auto practice = [](const char* source) {
        return material::Provenance{material::Mark::practice, std::string("common practice: ") + source};
    };
    static const std::vector<UptakeFigure> all = {
        {"suction", "g/m2", &L::suction_g_per_m2, 25, 10, 400,
         practice("flooding bare maple for two minutes takes some 70 to 120 g/m2 of water")},
        {"closing film", "", &L::closing, 0.4, 0.3, 5,
         practice("a 2-lb cut of shellac nearly closes maple, half a pound lets a third of a dye in")},
        {"plug", "", &L::plug_most, 0.8, 0, 20, practice("a wash coat evens blotch by a third to a half")},
        {"plug at half", "", &L::plug_half, 0.02, 0.005, 1, practice("wash coats of a quarter to one pound tell")},
        {"reach", "", &L::reach, 1, 1, 10, practice("wood is damp deeper than it is dyed")},
        {"wiped residue", "um", &L::residue_um, 0.02, 0, 2,
         practice("dye wiped off a cured film leaves next to nothing")},
        {"wiped residue in scratches", "um", &L::scratch_residue_um, 0.2, 0, 5,
         practice("a scuffed film holds a little color")},
        {"left by the brush", "", &L::brushed_left, 0.2, 0, 1,
         practice("what a brushed dye leaves standing is partly drawn off again")},
        {"dried in spots", "", &L::spotted, 0.01, 0.001, 1,
         practice("dye sprayed over a film is weak until a coat takes it in")},
        {"lodging", "", &L::lodging, 0.2, 0, 5,
         practice(
             "a wiped pigment stain leaves color in scratches and pores; half their depth, as of a triangular groove")},
        {"damp bar", "", &L::damp_bar, 0.1, 0, 0.9,
         practice("damp wood takes somewhat less, and a seal that is wet seals less")},
        {"scratches of 220 paper", "um", &L::scratch_um, 1, 0.3, 20,
         practice("the scratches of 220 paper are a few micrometres deep"), Tells::readied},
        {"scratches over grit", "", &L::scratch_power, 0.2, 0, 2,
         practice(
             "paper of twice the grit has grains about half as wide and scratches somewhat less than half as deep"),
         Tells::readied},
        {"raised grain", "um", &L::raised_um, 0.5, 0, 20,
         practice("wetted and dried, wood is rough to the hand again: more than its scratches, less than twice"),
         Tells::readied},
        {"burnishing", "", &L::burnish_power, 0.08, 0, 1,
         practice("sanded to 400, wood takes about a tenth less dye than after 220"), Tells::readied},
        {"raised grain takes", "", &L::raised_taking, 0.08, 0, 2,
         practice("water popping darkens a dye somewhat: a seventh more goes in"), Tells::readied},
        {"groove width", "", &L::groove_width, 1.5, 1, 20,
         practice("a grain of paper leaves a furrow several times as wide as it is deep"), Tells::pigment},
        {"grooves", "", &L::grooved_share, 0.12, 0.05, 1,
         practice("of a sanded flat, somewhat under half lies in scratches and cut cells"), Tells::pigment},
    };
    return all;
}

double drawn_g_per_m2(const UptakeLaw& law, double absorbency, double minutes) {
    return law.suction_g_per_m2 * absorbency * std::sqrt(minutes / usual_flood_min);
}

double open_share(const UptakeLaw& law, double film_um, double level_um) {
    return std::exp(-film_um / (law.closing * level_um));
}

double plug(const UptakeLaw& law, double fill) { return fill > 0 ? law.plug_most * fill / (fill + law.plug_half) : 0; }

double conductance(double open, double plug, double uptake) {
    if (!(uptake > 0)) return 0;
    return open * uptake / (open + (1 - open + plug * open) * uptake);
}

}  // namespace foretone::schedule
