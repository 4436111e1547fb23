#include "aged.hpp"

#include "common.hpp"
#include "pictures.hpp"
#include "terminal.hpp"

namespace foretone::cli {
std::string aged_text(const job::SeenFinish& finish, const scene::Look& look) {
    if (finish.aged.empty()) return "";
    std::vector<std::vector<std::string>> rows = {
        {"aged " + job::place_text(finish.aged.front().exposure), "wood", "film", "dye"}};
    std::vector<bool> numeric = {false, true, true, true};
    for (const auto& light : look.lights) {
        rows[0].insert(rows[0].end(), {"", light + "  L*     a*     b*", "hex", "±dE00", "from new", "it is"});
        numeric.insert(numeric.end(), {false, true, false, true, true, false});
    }
    const Chips how = chips();
    for (const auto& a : finish.aged) {
        std::vector<std::string> row = {"after " + a.after.text, fixed(a.parts.wood, 1), fixed(a.parts.film, 1),
                                        fixed(a.parts.dye, 1)};
        for (std::size_t l = 0; l < a.colors.size(); ++l) {
            const auto& c = a.colors[l];
            row.insert(row.end(),
                       {chip(c.screen.code, how), lab_text(c.lab), c.screen.hex() + (c.screen.in_gamut ? "" : "*"),
                        fixed(c.spread_de00, 1), fixed(a.from_new_de00[l], 1), a.words[l]});
        }
        rows.push_back(std::move(row));
    }
    std::string out = table(rows, numeric) + "wood, film, dye: dE00 from new if that part alone aged\n";
    for (const auto& c : finish.aged.back().colors)
        out += "may turn out after " + finish.aged.back().after.text + ", " + c.light + ": " + region_text(c.region) +
               "; 90 % of boards within dE00 " + fixed(c.region.de00_90, 1) + "\n";
    return out;
}

std::string ageing_note(const job::AgeClass& wood) {
    return "Colors after some time are ranges, not promises: they hold indoors, behind glass, and rest on a class of "
           "woods (" +
           wood.word + ": " + wood.meaning + ")" +
           (wood.published ? ", of which published readings are met by foretone verify."
                           : ", of which no published reading was found.");
}

scene::Duration after_from(const std::string& verb, const std::string& text) {
    const auto time = scene::duration_from(text);
    if (!time)
        throw UsageError("duration-unknown", {verb},
                         "--after is \"" + text + "\"; it takes " + scene::duration_words());
    return *time;
}

std::string aged_caption(const job::SeenAge& a) {
    return job::place_text(a.exposure) + "; wood " + fixed(a.parts.wood, 1) + ", film " + fixed(a.parts.film, 1) +
           ", dye " + fixed(a.parts.dye, 1);
}

}  // namespace foretone::cli
