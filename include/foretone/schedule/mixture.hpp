#pragma once
/// Mixing arithmetic: the parts of a mix into what one litre of it holds.

#include <string>
#include <vector>

#include "foretone/schedule/step.hpp"

namespace foretone::schedule {

/// One litre of a ready mix. Volumes are taken as additive.
struct Mixture {
    struct Powder {
        std::string id;
        double g_per_l = 0;
    };
    struct Binder {
        std::string id;
        double dry_share = 0;    ///< volume of dry binder per volume of mix, 0–1
        double dry_density = 1;  ///< of that dry binder, g/mL
    };
    double density_g_per_ml = 1;
    std::vector<Powder> powders;  ///< dyes and pigments, stocks resolved into theirs
    std::vector<Binder> binders;
    std::string carrier;  ///< the liquid of largest volume; empty if there is none (a neat oil)
    std::vector<std::string> notes;

    double solids_share() const;  ///< sum of the binders' dry shares
};

/// Works out a step's mix from the materials. Throws Fault: unknown material, a wood in a mix, a powder measured by
/// volume, families of units that do not go together, percentages that do not make 100, a powder with no liquid, a cut
/// for something that takes none.
Mixture mix(const Step& step, const material::Materials& materials);

/// How much of one part goes into a pot.
struct PartAmount {
    std::string id;
    bool powder = false;
    double g = 0, ml = 0;          ///< the same amount weighed and by volume
    std::optional<double> cut_lb;  ///< the cut of a resin solution, lb per US gal of alcohol
};

/// Each part of so much of the ready mix. Throws as `mix`, and std::invalid_argument for a volume that is not positive.
std::vector<PartAmount> amounts(const Step& step, const material::Materials& materials, double total_ml);

}  // namespace foretone::schedule
