#pragma once
/// A finish after some time in some light: its color then, how far it has changed, and which part of it did.

#include "foretone/appearance/ageing.hpp"
#include "foretone/job/seen.hpp"

namespace foretone::job {

/// ΔE00 of the finished board under the first light, if that part alone aged.
struct AgedParts {
    double wood = 0, film = 0, dye = 0;
};

/// One finish at one time.
struct SeenAge {
    scene::Duration after;
    material::Stands exposure = material::Stands::room;
    material::Dose dose;  ///< on its face, as usual for the place
    spectral::Spectrum reflectance{};
    std::vector<SeenColor> colors;      ///< one a light of the look, with what it may turn out as
    std::vector<double> from_new_de00;  ///< one a light: against the same board new
    std::vector<std::string> words;     ///< one a light: what it is, seen from new
    AgedParts parts;
    material::Mark rests_on = material::Mark::memory;
    std::vector<std::vector<color::Display>> plausible;  ///< [light], pale to dark
};

/// What is said of a wood's class: its word and meaning, and whether anything was published for it.
struct AgeClass {
    std::string word, meaning;
    bool published = false;
};
AgeClass age_class(const scene::Scene& scene);

/// The times of the look (none: nothing) of every finish, [finish][time]: one solve a time for its color, one for each
/// part that is there to age, and one account of all finishes for the spreads. Throws schedule::Fault where a step
/// cannot be worked out.
std::vector<std::vector<SeenAge>> see_aged(const scene::Scene& scene, const std::vector<color::Weights>& lights,
                                           const appearance::Solver& solver);

/// A scene's materials and finish of that time, to show it in any way that a new one is shown.
appearance::AgedFinish aged_finish(const scene::Scene& scene, std::size_t finish, const scene::Duration& after);

/// A scene with one of its finishes alone, of that time, for all that is made of a scene: what is told of its spread is
/// that of the board when new, and a warning says so. Throws InputError: finish-unknown, and after-one if the scene has
/// several finishes and none is named.
scene::Scene aged_scene(const scene::Scene& scene, const std::vector<std::string>& finishes,
                        const scene::Duration& after);

/// "by a window", "in a room".
std::string place_text(material::Stands exposure);

/// "after 1 year in a room".
std::string after_text(const scene::Duration& after, material::Stands exposure);

}  // namespace foretone::job
