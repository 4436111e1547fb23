#include "client_sheet_words.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/report/recipe.hpp"
#include "foretone/report/sureness.hpp"
#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/measure.hpp"

namespace foretone::report {
namespace {

/// From these ΔE00 of the 90 % region on, a difference between two such boards is said stronger (common practice).
constexpr double a_little = 1, plainly = 2.5, a_lot = 5;

const appearance::Region& widest(const job::SeenStage& stage) {
    return std::max_element(stage.colors.begin(), stage.colors.end(),
                            [](const auto& a, const auto& b) { return a.region.de00_90 < b.region.de00_90; })
        ->region;
}

std::string direction_text(const appearance::Region& region) {
    const auto& d = region.axes[0].direction;
    const std::size_t most = static_cast<std::size_t>(
        std::max_element(d.begin(), d.end(), [](double a, double b) { return std::abs(a) < std::abs(b); }) - d.begin());
    return most == 0 ? "lighter or darker" : most == 1 ? "redder or greener" : "yellower or bluer";
}

/// What a contribution of the spread is about, in a finisher's words. They are "id key", "step N wet film",
/// "how coats go in: ..." or "what \"a fit\" left open".
std::string source_text(const std::string& what, const scene::Scene& scene) {
    if (what.starts_with("how coats go in")) return "how deep it soaks in";
    if (what.starts_with("what \"")) return "what the step boards left open";
    const auto space = what.find(' ');
    const std::string id = what.substr(0, space), key = space == std::string::npos ? "" : what.substr(space + 1);
    const auto has = [&](const char* word) { return key.find(word) != std::string::npos; };
    if (has("wet film") || has("wet_um") || has("solids") || has("cut_lb")) return "how thick the coats go on";
    if (has("depth_um") || has("absorbency") || has("porosity") || has("fill")) return "how deep it soaks in";
    if (has("level_um") || has("stay")) return "how the film covers the grain";
    if (id == scene.wood) return "the wood itself";
    const auto at = scene.materials.find(id);
    if (at != scene.materials.end() && facts(at->second.kind).colorant) return "how strong the color is";
    return "the tint of " + (at == scene.materials.end() ? id : at->second.name);
}

std::string mark_text(material::Mark mark) {
    switch (mark) {
        case material::Mark::measured:
            return "measured boards and materials";
        case material::Mark::published:
            return "published figures";
        case material::Mark::computed:
            return "figures computed from published ones";
        case material::Mark::fitted:
            return "figures fitted to measured boards";
        case material::Mark::practice:
            return "common practice, without a source";
        case material::Mark::stated:
            return "figures stated by the finisher, without a source";
        case material::Mark::memory:
            return "typical values from memory, not checked";
    }
    return "";
}

}  // namespace

std::string how_much(double de00_90) {
    return de00_90 < a_little ? "hardly" : de00_90 < plainly ? "a little" : de00_90 < a_lot ? "plainly" : "a lot";
}

std::string light_text(const std::string& id) {
    const auto tail = [&](const std::string& head) {
        return id.starts_with(head) ? id.substr(head.size()) : std::string();
    };
    if (id == "A") return "Lamp light";
    const auto number = [](const std::string& text) { return !text.empty() && text[0] >= '0' && text[0] <= '9'; };
    if (number(tail("LED-"))) return "LED lamp, " + tail("LED-") + " K";
    if (!tail("LED-").empty()) return "LED lamp";
    if (number(tail("D")) && id.size() > 4) return "Daylight, " + tail("D") + " K";
    if (number(tail("D"))) return "Daylight";
    if (number(tail("P"))) return "Filament or candle, " + tail("P") + " K";
    if (id.ends_with(".csv")) return "Lamp of its own file, " + id.substr(id.find_last_of("/\\") + 1);
    if (id == "C") return "Daylight";
    if (number(tail("F")) || number(tail("FL"))) return "Fluorescent tube";
    return id;
}

std::vector<std::string> light_texts(const std::vector<std::string>& ids) {
    std::vector<std::string> out;
    for (const auto& id : ids) out.push_back(light_text(id));
    for (std::size_t i = 0; i < ids.size(); ++i)
        for (std::size_t k = 0; k < ids.size(); ++k)
            if (i != k && light_text(ids[i]) == light_text(ids[k])) out[i] = light_text(ids[i]) + " (" + ids[i] + ")";
    return out;
}

std::string region_words(const appearance::Region& region) {
    return "Boards may differ " + how_much(region.de00_90) + ", mostly " + direction_text(region);
}

std::string mark_words(material::Mark mark) { return std::string(material::word(mark)) + " (" + mark_text(mark) + ")"; }

std::string spread_words(const job::SeenStage& finished) { return region_words(widest(finished)); }

SheenText finished_sheen_text(const job::SeenFinish& seen, const schedule::Finish& finish,
                              const material::Materials& materials) {
    if (seen.stages.back().stage.film_um < 0.5) return {"no film: the wood's own sheen", ""};
    for (auto step = finish.steps.rbegin(); step != finish.steps.rend(); ++step) {
        const auto d = schedule::deposit(*step, materials);
        if (d.binder_um > 0) return {sheen_text(d.sheen_gu60), base::at_most(d.sheen_gu60, 0) + " gloss units"};
    }
    return {};
}

std::string shop_text(const std::vector<const job::SeenFinish*>& shown, const std::vector<std::string>& gloss,
                      const scene::Look& look, const std::string& rests_on) {
    const std::string eye = look.observer == "10deg" ? "10" : "2";
    std::string text = base::joined(look.lights, ", ", " and ") + ", " + eye + "° observer, " +
                       scene::geometry_text(look.geometry) + "; 9 of 10 boards within ΔE00";
    for (std::size_t i = 0; i < shown.size(); ++i) {
        text += (i == 0 ? " " : ", ") + layout::letter_of(i) + " " +
                base::at_most(widest(shown[i]->stages.back()).de00_90, 1);
        if (!gloss[i].empty()) text += " (" + gloss[i] + ")";
    }
    return text + ". Rests on " + rests_on;
}

std::string vary_text(const std::vector<const job::SeenFinish*>& shown, const scene::Scene& scene) {
    std::map<std::string, double> squares;
    for (const auto* f : shown)
        for (const auto& c : f->spread.contributions) squares[source_text(c.what, scene)] += c.de00 * c.de00;
    std::vector<std::pair<double, std::string>> sources;
    for (const auto& [text, square] : squares) sources.emplace_back(-square, text);
    std::sort(sources.begin(), sources.end());
    std::string text =
        "Grain and color differ from board to board, and no two coats are of one thickness. Light and years change "
        "wood and "
        "finish "
        "further.";
    if (sources.empty()) return text;
    text += " Most of the spread here comes from " + sources[0].second;
    for (std::size_t i = 1; i < std::min<std::size_t>(3, sources.size()); ++i)
        text += (i == 1 ? ", then from " : " and ") + sources[i].second;
    return text + ".";
}

std::string aged_words(const std::vector<const job::SeenFinish*>& shown) {
    if (shown.empty() || shown.front()->aged.empty()) return "";
    std::string text = "Wood and finish change with light; this is what to expect, a range and never one color.";
    // The last of the times alone, which the strips show too: there is no room for more.
    const auto& first = shown.front()->aged.back();
    std::string time = job::after_text(first.after, first.exposure);
    time[0] = 'A';
    text += " " + time + ": ";
    for (std::size_t i = 0; i < shown.size(); ++i) {
        const auto& a = shown[i]->aged.back();
        text += (i == 0 ? "" : "; ") + layout::letter_of(i) + " " + a.words[0] + " (boards may differ " +
                how_much(a.colors[0].region.de00_90) + ")";
    }
    text += ".";
    return text + " ";
}

std::string rests_on_text(const std::vector<const job::SeenFinish*>& shown, const material::Materials& materials) {
    material::Mark weakest = material::Mark::measured;
    for (const auto* f : shown) weakest = material::weaker(weakest, f->spread.rests_on);
    std::set<std::string> names;
    for (const auto* f : shown) {
        if (f->spread.rests_on != weakest) continue;
        for (const auto& id : f->spread.weakest) names.insert(materials.count(id) ? materials.at(id).name : id);
    }
    std::string text = mark_words(weakest);
    bool first = true;
    for (const auto& n : names) text += (first ? " for " : ", ") + n, first = false;
    return text + ".";
}

std::string finding_text(const schedule::Finding& f, const std::string& letter) {
    const char* verdict = f.severity == schedule::Severity::failure   ? " WILL NOT HOLD: "
                          : f.severity == schedule::Severity::warning ? " may fail: "
                                                                      : ": ";
    std::string text = letter + verdict + f.what + " (" + std::string(material::word(f.sure)) + ").";
    for (std::size_t i = 0; i < f.mends.size(); ++i) text += (i == 0 ? " Mend: " : "; or ") + f.mends[i].text;
    return text + (f.mends.empty() ? "" : ".");
}

}  // namespace foretone::report
