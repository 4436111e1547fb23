#pragma once
/// A finishing schedule as a finisher writes it: steps in trade units.

#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "foretone/material/material.hpp"

namespace foretone::schedule {

/// How the amount of one part of a mix is said.
enum class Amount {
    parts,           ///< by volume, relative
    parts_weight,    ///< by weight, relative
    percent_volume,  ///< of the whole mix
    percent_weight,  ///< of the whole mix
    rest,            ///< what is left of 100 %
    ml,
    g,
    drops,     ///< 20 a mL
    g_per_l,   ///< powder per litre of the liquid it goes into
    oz_per_qt  ///< powder, avoirdupois ounce per US quart of the liquid
};

struct Part {
    std::string use;
    Amount amount = Amount::parts;
    double value = 1;
    bool operator==(const Part&) const = default;
};

struct Step {
    std::vector<Part> mix;  ///< one part for a plain `use`
    int coats = 1;
    std::optional<material::Method> method;
    std::optional<double> wet_um;  ///< wet film of one coat; at most one of these three is set
    std::optional<double> wet_g_per_m2;
    std::optional<double> coverage_m2_per_l;
    std::optional<double> cut_lb;        ///< lb of resin per US gal of alcohol, for resins dissolved to a cut
    std::optional<double> ready_cut_lb;  ///< the resin is at hand as a solution of that cut, to be thinned to `cut_lb`
    std::optional<double> sheen_gu60;
    std::optional<double> after_days;      ///< since the step before; unsaid: the usual wait
    bool scuff = false;                    ///< the layer below is scratched with fine paper first
    std::optional<double> sand;            ///< grit of the paper that goes over bare wood (or scratches a film) first
    bool water_pop = false;                ///< the bare wood is wetted and dried first, so that its grain stands up
    std::optional<double> flood_minutes;   ///< a wiped coat is kept wet so long; unsaid: the usual time
    std::optional<double> remainder;       ///< 0–1: of what does not go in, the share left when it is wiped
    std::optional<double> passes;          ///< of a sprayed coat, wet on wet; unsaid: 1
    std::optional<double> toner_strength;  ///< of a toner's color against what its file says; unsaid: 1
    bool operator==(const Step&) const = default;
};

struct Finish {
    std::string name;
    std::vector<Step> steps;
    bool wet_place = false;  ///< a bath, a kitchen counter, outdoors
};

/// A step that cannot be worked out as written. `part` is −1 when the step as a whole is at fault.
struct Fault : std::runtime_error {
    Fault(std::string fault_id, int part_index, const std::string& text)
        : std::runtime_error(text), id(std::move(fault_id)), part(part_index) {}
    std::string id;
    int part;
};

}  // namespace foretone::schedule
