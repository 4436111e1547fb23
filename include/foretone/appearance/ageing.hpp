#pragma once
/// A finished board after some time in some light: the same materials with other absorptions, laid by the same account.

#include <span>
#include <string>

#include "foretone/appearance/ageing_laws.hpp"
#include "foretone/appearance/board.hpp"
#include "foretone/appearance/uncertain.hpp"
#include "foretone/schedule/step.hpp"

namespace foretone::appearance {

/// What of a board ages: all, or one part alone, to see what it does.
enum class Ages { all, wood, film, dye };

/// A finish with all it is made of. Steps have materials of their own ("orange-shellac#2"), as those below are
/// sheltered by those above.
struct AgedFinish {
    material::Materials materials;
    std::string wood;
    schedule::Finish finish;

    const material::Wood& wood_data() const;
};

/// Share, 0–1, of ultraviolet and violet that reaches each part of a board.
struct Shelter {
    struct Reach {
        double ultraviolet = 1, violet = 1;
    };
    Reach wood;
    std::vector<Reach> steps;  ///< what a step laid
};

/// Worked out from the fresh board. What reaches the wood passes the films where they cover it, and the color in it.
/// Throws schedule::Fault.
Shelter shelter(const material::Materials& materials, const std::string& wood, const schedule::Finish& finish,
                const Departure& departure, const AgeingLaws& laws);

/// The finish after those times, one after the other. No time at all: the very same materials. Throws schedule::Fault.
AgedFinish aged(const material::Materials& materials, const std::string& wood, const schedule::Finish& finish,
                const Departure& departure, const AgeingLaws& laws, std::span<const material::AgeSpan> times,
                Ages what = Ages::all);

/// The same as its files say.
AgedFinish aged(const material::Materials& materials, const std::string& wood, const schedule::Finish& finish,
                std::span<const material::AgeSpan> times, Ages what = Ages::all);

/// Every material aged in its place, under the same ids, so that many recipes can be worked out from one set: the wood
/// and what `like` lays as in that finish, other binders as its last step, other dyes as in the wood. For searching;
/// what is found is worked out by `aged`.
material::Materials aged_alike(const material::Materials& materials, const std::string& wood,
                               const schedule::Finish& like, std::span<const material::AgeSpan> times);

}  // namespace foretone::appearance
