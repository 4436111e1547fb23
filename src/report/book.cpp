#include "foretone/report/book.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "client_sheet_words.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/job/board_code.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/report/recipe.hpp"
#include "foretone/report/tool_json.hpp"
#include "json_values.hpp"
#include "short_name.hpp"

namespace foretone::report {
namespace {

/// "1 to 4, 7": the numbers of a list of chips, runs drawn together.
std::string runs(const std::vector<std::size_t>& numbers) {
    std::string text;
    for (std::size_t i = 0; i < numbers.size();) {
        std::size_t end = i;
        while (end + 1 < numbers.size() && numbers[end + 1] == numbers[end] + 1) ++end;
        text += (text.empty() ? "" : ", ") + std::to_string(numbers[i]);
        if (end > i) text += (end == i + 1 ? ", " : " to ") + std::to_string(numbers[end]);
        i = end + 1;
    }
    return text;
}

const material::Materials& materials_of(const job::BookChip& c, const std::vector<scene::Scene>& scenes) {
    return scenes.at(c.scene).materials;
}

std::vector<layout::IndexEntry> by_finish(const job::Book& book, const std::vector<scene::Scene>& scenes) {
    struct Entry {
        std::string name, recipe, where;
    };
    std::vector<Entry> entries;
    std::map<std::pair<std::string, std::string>, std::size_t> at;
    for (std::size_t i = 0; i < book.chips.size(); ++i) {
        const auto& c = book.chips[i];
        // The code tells apart what the words do not: a wet film, two glosses of one word.
        const auto recipe = c.finish.steps.empty() ? ""
                                                   : recipe_text(c.finish, materials_of(c, scenes), Figures::none) +
                                                         "; code " + job::board_code(c.finish);
        const auto [it, fresh] = at.emplace(std::pair(c.name, recipe), entries.size());
        if (fresh) entries.push_back({c.name, recipe, ""});
        auto& e = entries[it->second];
        e.where += (e.where.empty() ? "" : " · ") + std::to_string(i + 1) + " " + short_name(c.wood_name);
    }
    std::stable_sort(entries.begin(), entries.end(),
                     [](const Entry& a, const Entry& b) { return base::lower(a.name) < base::lower(b.name); });
    std::vector<layout::IndexEntry> out;
    for (const auto& e : entries) out.push_back({e.name, e.recipe, "No. " + e.where});
    return out;
}

/// Woods of one name that are two are told apart by their scenes.
std::vector<layout::IndexEntry> by_wood(const job::Book& book, const std::vector<scene::Scene>& scenes) {
    std::map<std::size_t, std::vector<std::size_t>> numbers;  // [piece]
    std::map<std::string, std::set<std::size_t>> pieces;      // [name]
    for (std::size_t i = 0; i < book.chips.size(); ++i) {
        numbers[book.chips[i].piece].push_back(i + 1);
        pieces[book.chips[i].wood_name].insert(book.chips[i].piece);
    }
    std::vector<layout::IndexEntry> out;
    for (const auto& [piece, list] : numbers) {
        const auto& first = book.chips[list.front() - 1];
        const auto& s = scenes.at(first.scene);
        const auto of = pieces[first.wood_name].size() > 1 ? " · " + (s.title.empty() ? s.file : s.title) : "";
        out.push_back({first.wood_name + of, "", "No. " + runs(list)});
    }
    return out;
}

std::string title_of(const std::vector<scene::Scene>& scenes, const std::string& title) {
    if (!title.empty()) return title;
    return scenes.size() == 1 && !scenes[0].title.empty() ? scenes[0].title + ": swatch book" : "Swatch book";
}

}  // namespace

layout::Book book_pages(job::Book& book, const std::vector<scene::Scene>& scenes, const std::string& title) {
    layout::Book out;
    const auto light = light_text(book.light);
    out.title = title_of(scenes, title);
    out.facts = light + ". " + std::to_string(book.chips.size()) +
                " chips at true size. Screens and prints are not the sample: make one board before the job.";
    for (std::size_t i = 0; i < book.chips.size(); ++i) {
        auto& c = book.chips[i];
        layout::Chip chip;
        chip.number = std::to_string(i + 1);
        chip.name = c.name;
        chip.wood = short_name(c.wood_name);
        chip.light = light;
        chip.vary = region_words(c.region);
        chip.recipe = c.finish.steps.empty() ? "" : recipe_text(c.finish, materials_of(c, scenes), Figures::none);
        chip.fails = c.fails;
        chip.code = c.screen.code;
        chip.in_gamut = c.screen.in_gamut;
        for (const auto& shown : c.plausible) chip.plausible.push_back(shown.code);
        chip.picture = std::move(c.picture);
        out.chips.push_back(std::move(chip));
    }
    out.how_to_read =
        "Every chip shows the same piece of its wood, drawn and not photographed. Below it, first the average color "
        "computed, then what real boards may turn out as (9 of 10), pale to dark: the longer the way from left to "
        "right, the more a board may differ. A cut corner: the color is stronger than a picture can show. A black tag: "
        "the steps do not hold on each other; the preview of its scene says why. Numbers are this book's own.";
    out.finishes = by_finish(book, scenes);
    out.woods = by_wood(book, scenes);
    for (auto& c : job::all_cautions(book.cautions)) out.cautions.push_back({c.id, c.text});
    out.shop = book.light + ", " + (book.observer == "10deg" ? "10" : "2") + "° observer, 45/0. Rests on " +
               mark_words(book.rests_on) + ".";
    return out;
}

std::string book_json(const job::Book& book, const std::vector<scene::Scene>& scenes, const std::string& title,
                      layout::Paper paper, std::size_t pages) {
    Json j;
    j["tool"] = tool_json(appearance::two_flux_solver().name);
    j["title"] = title_of(scenes, title);
    j["paper"] = layout::size_of(paper).word;
    j["pages"] = pages;
    j["light"] = book.light;
    j["observer"] = book.observer;
    j["geometry"] = "45/0";
    j["rests_on"] = material::word(book.rests_on);
    j["chips"] = Json::array();
    for (std::size_t i = 0; i < book.chips.size(); ++i) {
        const auto& c = book.chips[i];
        j["chips"].push_back({{"number", i + 1},
                              {"scene", scenes.at(c.scene).file},
                              {"wood", c.wood},
                              {"finish", c.name},
                              {"holds", !c.fails},
                              {"Lab", lab_json(c.lab)},
                              {"hex", c.screen.hex()},
                              {"in_gamut", c.screen.in_gamut},
                              {"dE00_90", c.region.de00_90}});
        if (!c.finish.steps.empty()) j["chips"].back()["code"] = job::board_code(c.finish);
    }
    j["cautions"] = Json::array();
    for (const auto& c : job::all_cautions(book.cautions)) j["cautions"].push_back({{"id", c.id}, {"text", c.text}});
    j["warnings"] = warnings_json(book.warnings);
    return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
