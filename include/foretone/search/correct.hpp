#pragma once
/// The one change to a finish that brings it nearest to a target.

#include <functional>
#include <string>
#include <vector>

#include "foretone/schedule/system.hpp"
#include "foretone/search/aim.hpp"
#include "foretone/search/finished.hpp"

namespace foretone::search {

/// One change to one step.
struct Change {
    enum class Kind {
        strength,  ///< the colorants of a mix stronger or weaker
        coats,     ///< one coat more or fewer
        cut,       ///< a resin dissolved to another cut
        film,      ///< a thinner or heavier wet film
        touch,     ///< a little of one more colorant
        sheen      ///< another sheen of the last film
    };
    Kind kind = Kind::strength;
    std::size_t step = 0;  ///< 0-based, of the finish as it was
    std::string material;  ///< what is changed, or added
    double amount = 0;  ///< factor of strength or film; coats, cut, gloss units as they become; share of the mix of a
                        ///< touch by volume, g/L of a powder
    schedule::Finish finish;   ///< changed
    std::vector<double> de00;  ///< to the target, one a light
    double worst_de00 = 0;
    bool on_this_board = false;  ///< can still be done on the board that was read
};

/// "strength", "coats", ...
std::string_view word(Change::Kind kind);

/// What to do, in words: "step 1: dilute the dye to 78 % of its strength: honey-dye 4 + water 48". `materials` is the
/// one that the recipe was written with.
std::string sentence(const Change& change, const schedule::Finish& before, const material::Materials& materials,
                     schedule::UnitSystem units = schedule::UnitSystem::metric);

struct ChangeQuestion {
    Setting setting;
    schedule::Finish finish;
    Aim aim;
    std::vector<std::string> touches;  ///< ids among the materials that a dye mix may be given a touch of
    /// How a finish as written is laid in truth (a hand that lays more than it says); empty: as written.
    std::function<schedule::Finish(const schedule::Finish&)> laid;
    /// Materials that say what a step comes to that states no wet film, as its recipe was written; null: the setting's.
    const material::Materials* written = nullptr;
};

/// ΔE00 to the target under each light without any change.
std::vector<double> unchanged(const ChangeQuestion& question);

/// What a change asks of the finisher, in the ΔE00 that it must come nearer to stand before a plain change of strength:
/// strength 0, coats 0.05, cut 0.1, film 0.15, sheen 0.2, touch 0.3.
double burden(Change::Kind kind);

/// The best change of every kind, step and material that comes at least ΔE00 0.3 nearer than none, in order of the
/// worst ΔE00 with the burden added to it. Strengths from 0.25 to 4 times, films from 0.6 to 1.6 times, cuts from 0.5
/// to 3 lb, a touch up to a quarter of the mix or 5 g/L; each is found by scanning the range and closing in on its best
/// place. Sheen, within 20 gloss units, is tried only if most of what is missing is lightness, and the geometry can see
/// it. An oil that is wiped has neither film nor sheen to choose: what the wood does not drink comes off. Throws
/// schedule::Fault as `finished`.
std::vector<Change> changes(const ChangeQuestion& question);

}  // namespace foretone::search
