#pragma once
/// The sentences of the client's sheet.

#include <string>
#include <vector>

#include "foretone/job/preview.hpp"

namespace foretone::report {

/// "Daylight (D65)", "Lamp, filament (A)" …; an id of one's own as it is.
std::string light_text(const std::string& id);

/// How far boards differ whose 90 % lie within that ΔE00: "hardly", "a little", "plainly", "a lot".
std::string how_much(double de00_90);

/// Sheen of the finished surface: "satin, 30 gloss units"; "no film: the wood's own sheen".
std::string finished_sheen_text(const job::SeenFinish& seen, const schedule::Finish& finish,
                                const material::Materials& materials);

/// What boards differ by, and what most of the computed spread comes from.
std::string vary_text(const std::vector<const job::SeenFinish*>& shown, const scene::Scene& scene);

/// What light and time make of the finishes, as a sentence to sign; empty if no time is asked for.
std::string aged_words(const std::vector<const job::SeenFinish*>& shown);

/// The weakest mark, what it means, and the materials with such a figure.
std::string rests_on_text(const std::vector<const job::SeenFinish*>& shown, const material::Materials& materials);

/// What an order rule says of the finish lettered `letter`: "B will not hold: … Mend: …".
std::string finding_text(const schedule::Finding& finding, const std::string& letter);

}  // namespace foretone::report
