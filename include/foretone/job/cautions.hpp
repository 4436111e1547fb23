#pragma once
/// The cautions that apply to a scene or a finish: from its materials, and those that always stand.

#include <string>
#include <vector>

#include "foretone/scene/scene.hpp"

namespace foretone::job {

struct CautionText {
    std::string id, text;
};

/// Words of `material::caution_words` named by the materials of a finish: its parts, what they are made of and what
/// carries them. In the order of that list.
std::vector<std::string> cautions_of(const material::Materials& materials, const schedule::Finish& finish);

/// The same for all finishes of a scene.
std::vector<std::string> cautions_of(const scene::Scene& scene);

/// The texts of `words`, then the standing ones; the last line defers to local codes and licensed practice.
std::vector<CautionText> all_cautions(const std::vector<std::string>& words);

}  // namespace foretone::job
