#include "ageing_keys.hpp"

#include <algorithm>

#include "foretone/base/text.hpp"

namespace foretone::scene {
namespace {

constexpr std::size_t most_times = 12;

std::optional<Duration> checked(const Keys& keys, std::string_view key, const std::string& text, const Place& place) {
    const auto out = duration_from(text);
    if (!out)
        keys.fault("duration-unknown", place, std::string(key) + ": \"" + text + "\" is no time; " + duration_words());
    return out;
}

// A place outdoors by any of its usual names.
bool outdoors(const std::string& text) {
    const std::string word = base::lower(text);
    for (const char* part : {"out", "weather", "garden", "rain", "porch", "patio", "deck", "facade"})
        if (word.find(part) != std::string::npos) return true;
    return false;
}

void read_exposure(const Keys& look, Look& out) {
    const auto* node = look.table().get("exposure");
    if (!node) return;
    const auto text = node->value_exact<std::string>();
    std::vector<std::string> words(material::stands_words.begin(), material::stands_words.end());
    if (text && !material::stands_from(*text) && outdoors(*text)) {
        look.fault(
            "exposure-outdoors", look.place_of(*node),
            "exposure = \"" + *text +
                "\": outdoors rain, frost and mould change wood and finish more than light does, and none of that "
                "is worked out here; indoors a piece stands " +
                either(words));
        return;
    }
    if (const auto word = look.choice("exposure", words)) out.exposure = *material::stands_from(*word);
}

}  // namespace

std::optional<Duration> read_duration(const Keys& keys, std::string_view key) {
    const auto text = keys.text(key);
    return text ? checked(keys, key, *text, keys.place_of(*keys.table().get(key))) : std::nullopt;
}

void read_ageing(const Keys& look, Look& out, std::vector<Problem>& warnings) {
    read_exposure(look, out);
    const auto* node = look.table().get("after");
    if (!node) return;
    if (node->is_string()) {
        if (const auto one = read_duration(look, "after")) out.after = {*one};
    } else if (const auto texts = look.texts("after")) {
        const auto& nodes = *node->as_array();
        if (texts->size() > most_times)
            look.fault("times-many", look.place_of(nodes[most_times]),
                       "after names " + std::to_string(texts->size()) + " times; at most 12 are worked out");
        else
            for (std::size_t i = 0; i < texts->size(); ++i)
                if (const auto one = checked(look, "after", (*texts)[i], look.place_of(nodes[i])))
                    out.after.push_back(*one);
    }
    std::stable_sort(out.after.begin(), out.after.end(), [](const auto& a, const auto& b) { return a.days < b.days; });
    const auto same = [](const Duration& a, const Duration& b) { return a.days == b.days; };
    out.after.erase(std::unique(out.after.begin(), out.after.end(), same), out.after.end());
    if (!out.after.empty() && !look.has("exposure"))
        warnings.push_back(
            {"exposure-assumed", look.place_of("after"),
             "where the piece stands is not said: exposure = \"room\" is taken; dark, shade, window and sun "
             "are the others"});
}

}  // namespace foretone::scene
