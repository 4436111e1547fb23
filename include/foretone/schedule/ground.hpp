#pragma once
/// The surface that a coat meets, and what sanding and wetting do to it.

#include <vector>

#include "foretone/schedule/suction.hpp"

namespace foretone::schedule {

/// Binder in the pores: from the surface to a depth it fills a share of them.
struct Filled {
    double depth_um = 0;
    double fill = 0;
};

/// How the bare wood was readied.
struct Readied {
    double grit = usual_grit;  ///< last paper on the bare wood, 40–1000
    double raised = 0;         ///< share of the area that was wetted and dried since: its grain stands up
};

/// Paper of `grit` over the share `open` of the area (what no film covers); raised grain there is cut off. ln(grit)
/// moves by that share, so that paper over a trace of film is paper over bare wood but for a trace.
Readied sanded(const Readied& before, double grit, double open);

/// The share `open` of the area wetted and dried.
Readied popped(const Readied& before, double open);

/// Film that levels the surface, µm. Scratches of 220 paper are `scratch_um` of `level_um` and go with grit to the
/// −`scratch_power`; raised grain adds `raised_um`. Never below a third of `level_um`: pores stay.
double level_um(const UptakeLaw& law, double file_level_um, const Readied& ready);

/// Uptake of so readied wood over that of 220 paper: (220/grit)^`burnish_power`, burnished wood takes less; raised
/// grain takes `raised_taking` more.
double taking(const UptakeLaw& law, const Readied& ready);

/// One spot of a board as the next coat meets it.
struct Ground {
    double absorbency = 1;  ///< of the wood's mean, hard maple 1
    double uptake = 1;      ///< of this spot over the mean
    double porosity = 0.5;  ///< of the mean
    double level_um = 4;    ///< as the wood file says, for 220 paper
    Readied ready;
    double film_um = 0;          ///< film that has set
    std::vector<Filled> filled;  ///< binder that has set in the pores
    double scratched = 0;        ///< share of the film that was scuffed
    double wet = 0;              ///< 0 dry … 1: a liquid still stands in the pores
    double pore_share = 0;       ///< of this spot, what lies in open pores: 0 beside them, 1 in one
    double pore_um = 0;          ///< width of these pores
    double tannin_percent = 0;   ///< of the wood, by weight
};

/// Pore volume of a spot down to `depth_um` that is still empty, µm. A spot that takes u times as much has pores √u
/// times as roomy (and is reached √u times as deep: `depth_um` is of this spot).
double free_pores_um(const UptakeLaw& law, const Ground& ground, double depth_um);

/// Share of the pores' mouths that binder fills: what is in the outermost layer, over the mean's room there.
double outer_fill(const UptakeLaw& law, const Ground& ground);

/// Suction of the spot over that of the bare mean spot sanded with 220 (see suction.hpp).
double suction(const UptakeLaw& law, const Ground& ground);

}  // namespace foretone::schedule
