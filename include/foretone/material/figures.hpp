#pragma once
/// Visits the figures of a material by name: for printing, checking and moving each by its spread.

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "foretone/material/material.hpp"

namespace foretone::material {

/// One figure of a material, addressable. Exactly one of the two pointers is set.
struct FigureAt {
    std::string key;           ///< as in the file, e.g. "wet_um.brush"
    std::string unit;          ///< "" if dimensionless
    double low = 0, high = 0;  ///< valid range of the value (or of each value of the spectrum)
    Figure* figure = nullptr;
    SpectrumFigure* spectrum = nullptr;
    bool optical = true;    ///< false: no color depends on it
    bool may_lack = false;  ///< a complete material may do without it

    Provenance& from() const { return figure ? figure->from : spectrum->from; }
    double sd() const { return figure ? figure->sd : spectrum->sd; }
};

/// The figures that `m` has, in file order.
std::vector<FigureAt> figures(Material& m);

/// The same with every figure that `m` may have: those it lacks are put in, empty, so that they can be filled.
std::vector<FigureAt> all_figures(Material& m);

/// Takes out of `m` the figures it may lack whose keys are not among `keys`.
void keep_figures(Material& m, const std::set<std::string>& keys);

/// What a ready dye holds of one of its powders, g/L, by "mix.2", the second of its mix: a number without a spread,
/// which only what step boards taught moves. Null for another key, or where there is none.
double* load_at(Material& m, std::string_view key);

/// `load_at`'s key, `number` from 0.
std::string load_key(std::size_t number);

/// The figures of a grain, in file order, without the prefix "grain." that `figures` gives them. None is optical: they
/// move no mean color.
std::vector<FigureAt> grain_figures(Grain& grain);

/// The weakest mark among the figures of `m` that a color can depend on.
Mark weakest(const Material& m);

/// Moves one figure by `sigmas` standard deviations, kept inside its valid range; a spectrum is scaled as a whole.
void move(const FigureAt& at, double sigmas);

}  // namespace foretone::material
