#pragma once
/// The arithmetic of the bench: cuts, thinning, powders, ladders, tints, films, the pot of one step. Every answer is
/// named figures with the formulas they come from.

#include <optional>
#include <string>
#include <vector>

#include "foretone/scene/scene.hpp"
#include "foretone/schedule/pot.hpp"
#include "foretone/schedule/units.hpp"

namespace foretone::job {

/// One figure of an answer.
struct MixFigure {
    std::string key;    ///< in JSON
    std::string label;  ///< for people
    double value = 0;
    std::string unit;
    int digits = 2;      ///< behind the point at most, where it is shown
    std::string text{};  ///< number and unit for people; empty: worked out from the above
};

struct MixAnswer {
    std::string title;
    std::vector<MixFigure> figures;
    std::vector<std::string> formulas;
    std::vector<std::string> notes;
    std::vector<std::string> cautions;  ///< words of material::caution_words, beside the standing ones
    std::optional<schedule::UnitSystem> units_written{};  ///< of the first amount that has one; of a pot: asked for
};

/// What is asked; amounts as written ("2lb/gal", "1 pint"), those that are not needed empty.
struct MixQuestion {
    std::string amount;                                                     ///< what is at hand
    std::string to;                                                         ///< what is wanted: a cut, a share
    std::string volume;                                                     ///< how much is made, or of how much liquid
    std::string have;                                                       ///< how much there is of it
    std::string part;                                                       ///< what one part is
    std::string percent;                                                    ///< volume solids
    double resin_density = 1.15, alcohol_density = 0.789, density = 0.998;  ///< g/mL
    double ratio = 0.5;                                                     ///< of a rung to the one before
    int rungs = 5;
};

/// Each throws schedule::Fault for an amount that cannot be read or is out of range, std::invalid_argument for a ladder
/// that cannot be.
MixAnswer mix_cut(const MixQuestion& q);     ///< a resin solution said in every way
MixAnswer mix_thin(const MixQuestion& q);    ///< alcohol that makes one cut another
MixAnswer mix_powder(const MixQuestion& q);  ///< a powder's strength
MixAnswer mix_weigh(const MixQuestion& q);   ///< parts, drops and volumes to grams, and back
MixAnswer mix_ladder(const MixQuestion& q);  ///< full strength, a share of it, a share of that …
MixAnswer mix_tint(const MixQuestion& q);    ///< tint by weight into a finish
MixAnswer mix_film(const MixQuestion& q);    ///< a wet film's coverage and dry build

/// The pot of one step of a scene, measured with the tools there are.
struct PotQuestion {
    std::string finish;        ///< its name; empty: the scene's first
    int step = 1;              ///< from 1
    std::string area, volume;  ///< one of the two, as written
    schedule::Tools tools;
    std::string tools_text;  ///< what they are called
    schedule::UnitSystem units = schedule::UnitSystem::metric;
};

/// Throws schedule::Fault (finish-unknown, step-unknown, amount-missing, and what an amount is refused for).
MixAnswer mix_pot(const scene::Scene& scene, const scene::Library& library, const PotQuestion& q);

}  // namespace foretone::job
