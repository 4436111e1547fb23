#pragma once
/// The sentences of the client's sheet.

#include <string>
#include <vector>

#include "foretone/job/preview.hpp"

namespace foretone::report {

/// "Daylight", "Lamp light", "LED lamp, 2700 K" …, as a client knows them; an id of one's own as it is.
std::string light_text(const std::string& id);

/// The texts of several lights; two that are called alike have their ids beside them.
std::vector<std::string> light_texts(const std::vector<std::string>& ids);

/// How far boards differ whose 90 % lie within that ΔE00: "hardly", "a little", "plainly", "a lot".
std::string how_much(double de00_90);

/// Sheen of the finished surface in words, and in figures: "satin", "30 gloss units"; "no film: the wood's own sheen".
struct SheenText {
    std::string words, figures;
};
SheenText finished_sheen_text(const job::SeenFinish& seen, const schedule::Finish& finish,
                              const material::Materials& materials);

/// Small print for the shop: "D65 and A, 2° observer, 45/0. A: 30 gloss units, …". `gloss` one a finish.
std::string shop_text(const std::vector<const job::SeenFinish*>& shown, const std::vector<std::string>& gloss,
                      const scene::Look& look, const std::string& rests_on);

/// "Boards may differ plainly, mostly lighter or darker".
std::string region_words(const appearance::Region& region);

/// A mark and what it means: "memory (typical values from memory, not checked)".
std::string mark_words(material::Mark mark);

/// What boards differ by, and what most of the computed spread comes from.
std::string vary_text(const std::vector<const job::SeenFinish*>& shown, const scene::Scene& scene);

/// What light and time make of the finishes, as a sentence to sign; empty if no time is asked for.
std::string aged_words(const std::vector<const job::SeenFinish*>& shown);

/// The weakest mark, what it means, and the materials with such a figure.
std::string rests_on_text(const std::vector<const job::SeenFinish*>& shown, const material::Materials& materials);

/// What an order rule says of the finish lettered `letter`: "B will not hold: … Mend: …".
std::string finding_text(const schedule::Finding& finding, const std::string& letter);

}  // namespace foretone::report
