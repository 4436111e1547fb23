#include "foretone/job/cautions.hpp"

#include <algorithm>
#include <set>

#include "foretone/material/references.hpp"

namespace foretone::job {
namespace {

void collect(const material::Materials& materials, const std::string& id, std::set<std::string>& words, int depth = 0) {
    const auto it = materials.find(id);
    if (it == materials.end() || depth > 4) return;
    const auto& m = it->second;
    words.insert(m.order.cautions.begin(), m.order.cautions.end());
    for (const auto& part : material::parts(m)) collect(materials, part, words, depth + 1);
}

std::vector<std::string> in_order(const std::set<std::string>& words) {
    std::vector<std::string> out;
    for (const auto w : material::caution_words)
        if (words.count(std::string(w))) out.emplace_back(w);
    return out;
}

}  // namespace

std::vector<std::string> cautions_of(const material::Materials& materials, const schedule::Finish& finish) {
    std::set<std::string> words = {"dust", "vapor"};  // wood is sanded and whatever dries gives something off
    for (const auto& step : finish.steps)
        for (const auto& part : step.mix) collect(materials, part.use, words);
    return in_order(words);
}

std::vector<std::string> cautions_of(const scene::Scene& scene) {
    std::set<std::string> words;
    for (const auto& f : scene.finishes)
        for (const auto& w : cautions_of(scene.materials, f)) words.insert(w);
    return in_order(words);
}

std::vector<CautionText> all_cautions(const std::vector<std::string>& words) {
    std::vector<CautionText> out;
    for (const auto w : material::caution_words)
        if (std::find(words.begin(), words.end(), w) != words.end())
            out.push_back({std::string(w), std::string(material::caution_text(w))});
    for (const auto w : material::standing_cautions)
        out.push_back({std::string(w), std::string(material::caution_text(w))});
    return out;
}

}  // namespace foretone::job
