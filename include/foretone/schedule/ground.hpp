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
    bool raised = false;       ///< wetted and dried since: the grain stands up
};

/// Film that levels the surface, µm. Scratches of 220 paper are some 3 µm of `level_um` and go with grit^−0.7; raised
/// grain adds 1 µm (common practice). Never below a third of `level_um`: pores stay.
double level_um(double file_level_um, const Readied& ready);

/// Uptake of so readied wood over that of 220 paper: (220/grit)^0.15, burnished wood takes less; raised grain takes
/// 15 % more (common practice: water popping darkens).
double taking(const Readied& ready);

/// One spot of a board as the next coat meets it.
struct Ground {
    double absorbency = 1;  ///< of the wood's mean, hard maple 1
    double uptake = 1;      ///< of this spot over the mean
    double porosity = 0.5;  ///< of the mean
    double level_um = 4;    ///< as the wood file says, for 220 paper
    Readied ready;
    double film_um = 0;          ///< film that has set
    std::vector<Filled> filled;  ///< binder that has set in the pores
    bool scratched = false;      ///< the film was scuffed
    double wet = 0;              ///< 0 dry … 1: a liquid still stands in the pores
};

/// Pore volume of a spot down to `depth_um` that is still empty, µm. A spot that takes u times as much has pores √u
/// times as roomy (and is reached √u times as deep: `depth_um` is of this spot).
double free_pores_um(const Ground& ground, double depth_um);

/// Share of the pores' mouths that binder fills: what is in the outermost layer, over the mean's room there.
double outer_fill(const Ground& ground);

/// Suction of the spot over that of the bare mean spot sanded with 220 (see suction.hpp).
double suction(const UptakeLaw& law, const Ground& ground);

}  // namespace foretone::schedule
