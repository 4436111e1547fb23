// Steps are compared field by field, each field as text. One thing differs if all that differs lies in one step and is
// one field; or is what that step puts on, with the amounts and coats that go with it; or if the steps are the same in
// another order; or if one step is there or not.

#include <algorithm>
#include <array>
#include <set>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "lesson_fields.hpp"

namespace foretone::job {
namespace {

struct VariesWords {
    std::string_view word, meaning;
};
constexpr std::array<VariesWords, 16> varies_words = {{
    {"cut", "how much resin the solution holds (its cut)"},
    {"coats", "how many coats there are"},
    {"strength", "how far the color was thinned"},
    {"order", "the order of the steps"},
    {"grit", "the last paper the wood was sanded with"},
    {"topcoat", "what went on last"},
    {"material", "what went on before the last step"},
    {"sheen", "the gloss of the last coat"},
    {"amount", "how much of one coat was put on or left"},
    {"method", "how one coat was put on"},
    {"waiting", "how long was waited between two steps"},
    {"readying", "how the wood was readied for one step"},
    {"step", "one step, which some of them lack"},
    {"light", "the light it stands in"},
    {"stage", "how far the work has come"},
    {"years", "how long it has stood there"},
}};

std::string number_text(const std::optional<double>& v) { return v ? base::shortest(*v) : ""; }

using Steps = std::vector<StepFields>;

Steps steps_of(const schedule::Finish& finish) {
    Steps out;
    for (const auto& s : finish.steps) out.push_back(fields_of(s));
    return out;
}

bool same_in_another_order(const std::vector<Steps>& all) {
    auto sorted = all;
    for (auto& s : sorted) std::sort(s.begin(), s.end());
    return std::all_of(sorted.begin(), sorted.end(), [&](const Steps& s) { return s == sorted.front(); });
}

// The longer ones are the shortest with the same step put in somewhere.
bool one_step_more(const std::vector<Steps>& all) {
    const auto& shortest =
        *std::min_element(all.begin(), all.end(), [](const Steps& a, const Steps& b) { return a.size() < b.size(); });
    std::set<StepFields> added;
    for (const auto& s : all) {
        if (s == shortest) continue;
        if (s.size() != shortest.size() + 1) return false;
        bool found = false;
        for (std::size_t i = 0; i < s.size() && !found; ++i) {
            auto without = s;
            without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
            found = without == shortest;
            if (found) added.insert(s[i]);
        }
        if (!found) return false;
    }
    return added.size() == 1;
}

[[noreturn]] void refuse(const std::string& file, const std::string& what) {
    throw scene::InputError("lesson-differs", {file},
                            "the boards of a lesson differ in one thing; these finishes differ in " + what +
                                ". Make a scene of its own for each thing to be learned");
}

}  // namespace

const std::map<std::string, Varies>& meanings() {
    static const std::map<std::string, Varies> all = {
        {"coats", Varies::coats},       {"cut", Varies::cut},           {"amounts", Varies::strength},
        {"material", Varies::material}, {"method", Varies::method},     {"wet film", Varies::amount},
        {"remainder", Varies::amount},  {"passes", Varies::amount},     {"sheen", Varies::sheen},
        {"waiting", Varies::waiting},   {"scuffing", Varies::readying}, {"grit", Varies::grit},
        {"wetting", Varies::readying},  {"flooding", Varies::readying}, {"toner strength", Varies::strength},
        {"ready cut", Varies::cut}};
    return all;
}

StepFields fields_of(const schedule::Step& s) {
    StepFields f;
    for (const auto& p : s.mix) {
        f["material"] += p.use + " ";
        f["amounts"] += std::to_string(static_cast<int>(p.amount)) + ":" + base::shortest(p.value) + " ";
    }
    f["coats"] = std::to_string(s.coats);
    f["cut"] = number_text(s.cut_lb);
    f["ready cut"] = number_text(s.ready_cut_lb);
    f["method"] = s.method ? std::to_string(static_cast<int>(*s.method)) : "";
    f["wet film"] = number_text(s.wet_um) + "/" + number_text(s.wet_g_per_m2) + "/" + number_text(s.coverage_m2_per_l);
    f["sheen"] = number_text(s.sheen_gu60);
    f["waiting"] = number_text(s.after_days);
    f["scuffing"] = s.scuff ? "yes" : "";
    f["grit"] = number_text(s.sand);
    f["wetting"] = s.water_pop ? "yes" : "";
    f["flooding"] = number_text(s.flood_minutes);
    f["remainder"] = number_text(s.remainder);
    f["passes"] = number_text(s.passes);
    f["toner strength"] = number_text(s.toner_strength);
    return f;
}

std::string_view word(Varies varies) { return varies_words[static_cast<std::size_t>(varies)].word; }
std::string_view meaning(Varies varies) { return varies_words[static_cast<std::size_t>(varies)].meaning; }

Varies difference_of(const std::vector<schedule::Finish>& finishes, const std::string& file) {
    std::vector<Steps> all;
    for (const auto& f : finishes) all.push_back(steps_of(f));
    for (std::size_t a = 0; a < all.size(); ++a)
        for (std::size_t b = a + 1; b < all.size(); ++b)
            if (all[a] == all[b])
                refuse(file, "nothing but their names: \"" + finishes[a].name + "\" and \"" + finishes[b].name + "\"");
    const bool alike = std::all_of(all.begin(), all.end(), [&](const Steps& s) { return s.size() == all[0].size(); });
    if (!alike) {
        if (one_step_more(all)) return Varies::step;
        refuse(file, "how many steps they have, by more than one step");
    }
    std::set<std::size_t> steps;
    std::set<std::string> fields;
    for (const auto& one : all)
        for (std::size_t s = 0; s < one.size(); ++s)
            for (const auto& [field, value] : one[s]) {
                const auto& first = all[0][s];
                const auto it = first.find(field);
                if (it == first.end() || it->second != value) steps.insert(s), fields.insert(field);
            }
    if (same_in_another_order(all)) return Varies::order;
    if (steps.size() == 1) {
        const bool last = *steps.begin() + 1 == all[0].size();
        if (fields.count("material")) return last ? Varies::topcoat : Varies::material;
        if (fields.size() == 1) return meanings().at(*fields.begin());
    }
    std::vector<std::string> words(fields.begin(), fields.end());
    std::string where;
    for (const auto s : steps) where += (where.empty() ? " of step " : " and step ") + std::to_string(s + 1);
    refuse(file, base::joined(words, ", ", " and ") + where);
}

}  // namespace foretone::job
