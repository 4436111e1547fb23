// Every sentence is chosen by numbers and says them: one that the numbers do not bear out is not said. Symbols: L* of a
// board's finished color · ΔE00 between two of them · in the scene's order "the one before it".

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/color/words.hpp"
#include "foretone/report/lesson.hpp"
#include "foretone/search/chance.hpp"
#include "lesson_words.hpp"

namespace foretone::report {
namespace {
using job::LessonWork;
using job::Varies;

// Differences below these are not told of: nobody sees them, or no scale weighs them.
constexpr double told_uneven_de00 = 0.5, told_share = 0.05, told_growth_de00 = 1, told_growth = 1.1;

std::string one(double v) { return base::fixed(v, 1); }

std::string named(const LessonWork& w, std::size_t board) {
    return w.letter(board) + " (" + board_name(w, board) + ")";
}

const color::Lab& lab(const LessonWork& w, std::size_t board) { return w.color(w.boards[board]).lab; }

std::string which_is_which(const LessonWork& w) {
    std::vector<std::string> parts;
    for (const std::size_t b : w.lettered) parts.push_back(w.letter(b) + ": " + board_name(w, b));
    return base::joined(parts, "; ") + ".";
}

std::string by_lightness(const LessonWork& w) {
    std::vector<std::size_t> order(w.boards.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return lab(w, a).l > lab(w, b).l; });
    std::vector<std::string> parts;
    for (const auto b : order) parts.push_back(named(w, b) + " L* " + one(lab(w, b).l));
    return "From pale to dark: " + base::joined(parts) + ".";
}

const job::Difference* between(const LessonWork& w, std::size_t from, std::size_t to) {
    const auto& p = w.preview;
    const auto &a = p.finishes[w.boards[from].finish].name, &b = p.finishes[w.boards[to].finish].name;
    for (const auto& d : p.differences)
        if (d.from == a && d.to == b && d.light == p.scene.look.lights.front()) return &d;
    return nullptr;
}

/// One after the other, as the scene has them; the differences go to `steps`.
std::vector<std::string> one_by_one(const LessonWork& w, std::vector<double>& steps, std::vector<double>& chances) {
    std::vector<std::string> out;
    for (std::size_t i = 1; i < w.boards.size(); ++i) {
        std::string text = named(w, i) + " beside " + named(w, i - 1) + ": ";
        const auto* d = w.preview.finishes.size() > 1 ? between(w, i - 1, i) : nullptr;
        const double de = d ? d->de00 : color::delta_e_00(lab(w, i - 1), lab(w, i));
        steps.push_back(de);
        text += (d ? d->words : color::describe(lab(w, i - 1), lab(w, i))) + ", ΔE00 " + one(de);
        if (d) {
            chances.push_back(d->chance_seen);
            text += " (on one board, 9 of 10 times between " + one(d->spread.low_de00) + " and " +
                    one(d->spread.high_de00) + "; plain to see, above " + base::at_most(search::client_sees_de00, 1) +
                    ", in " + base::fixed(100 * d->chance_seen, 0) + " of 100)";
        }
        out.push_back(text + ".");
    }
    return out;
}

/// Is the scene's order one of more and less?
bool by_degrees(Varies v) {
    return v == Varies::cut || v == Varies::coats || v == Varies::strength || v == Varies::grit || v == Varies::sheen ||
           v == Varies::amount || v == Varies::waiting || v == Varies::years;
}

std::string growth(const std::vector<double>& steps) {
    if (steps.size() < 2 || *std::max_element(steps.begin(), steps.end()) < told_growth_de00) return "";
    const auto clearly = [](double less, double more) { return more > told_growth * less; };
    bool falls = true, rises = true;
    for (std::size_t i = 1; i < steps.size(); ++i) {
        falls = falls && clearly(steps[i], steps[i - 1]);
        rises = rises && clearly(steps[i - 1], steps[i]);
    }
    if (falls) return "Each step changes less than the one before it.";
    return rises ? "Each step changes more than the one before it." : "";
}

std::string hard_to_see(const std::vector<double>& chances) {
    if (chances.empty() || *std::max_element(chances.begin(), chances.end()) >= 0.5) return "";
    return "More often than not, neighbours would not be told apart on one board.";
}

/// "Dry film: A 18 µm, B 36 µm." of a figure of every board; nothing if they are nearly alike.
std::string compared(const LessonWork& w, const std::string& what, const std::string& unit, int digits, double least,
                     const std::function<double(const job::SeenFinish&)>& value) {
    std::vector<std::string> parts;
    double low = 1e300, high = -1e300;
    for (std::size_t i = 0; i < w.boards.size(); ++i) {
        const double v = value(w.preview.finishes[w.boards[i].finish]);
        low = std::min(low, v), high = std::max(high, v);
        parts.push_back(w.letter(i) + " " + base::fixed(v, digits) + unit);
    }
    if (!(high - low >= least)) return "";
    std::sort(parts.begin(), parts.end());
    return what + ": " + base::joined(parts) + ".";
}

std::string compared_share(const LessonWork& w, const std::string& what, const std::string& unit, int digits,
                           const std::function<double(const job::SeenFinish&)>& value) {
    double high = 0;
    for (const auto& b : w.boards) high = std::max(high, value(w.preview.finishes[b.finish]));
    if (!(high > 0)) return "";
    return compared(w, what, unit, digits, std::max(told_share * high, 0.5 * std::pow(10.0, -digits)), value);
}

/// What stayed of a part over all coats, g/m².
double stayed(const job::SeenFinish& f, const schedule::Fate schedule::Account::*part) {
    double sum = 0;
    for (const auto& s : f.stages)
        if (s.stage.kind != appearance::StageKind::damp) sum += (s.stage.account.*part).in + (s.stage.account.*part).on;
    return sum;
}

std::vector<std::string> of_finishes(const LessonWork& w) {
    const auto uneven = compared(w, "Palest against darkest tenth of each board, ΔE00", "", 1, told_uneven_de00,
                                 [](const job::SeenFinish& f) { return f.stages.back().uneven_de00; });
    return {compared_share(w, "Dye that stays, g/m²", "", 2,
                           [](const job::SeenFinish& f) { return stayed(f, &schedule::Account::dye); }),
            compared_share(w, "Pigment that stays, g/m²", "", 2,
                           [](const job::SeenFinish& f) { return stayed(f, &schedule::Account::pigment); }),
            compared_share(w, "Dry film on the wood", " µm", 0,
                           [](const job::SeenFinish& f) { return f.stages.back().stage.film_um; }),
            uneven};
}

/// Wet, dry and finished of one board: which is nearer to the end?
std::string wet_and_dry(const LessonWork& w) {
    std::optional<std::size_t> damp, dry;
    for (std::size_t i = 0; i < w.boards.size(); ++i) {
        const auto kind = w.preview.finishes[0].stages[w.boards[i].stage].stage.kind;
        if (kind == appearance::StageKind::damp && !damp) damp = i;
        if (kind == appearance::StageKind::dry && damp && !dry) dry = i;
    }
    if (!damp || !dry) return "";
    const auto& end = lab(w, w.boards.size() - 1);
    const double wet = color::delta_e_00(lab(w, *damp), end), dried = color::delta_e_00(lab(w, *dry), end);
    const bool wet_nearer = wet < dried;
    return "The " + std::string(wet_nearer ? "wet" : "dry") + " board is nearer to the finished one than the " +
           (wet_nearer ? "dry" : "wet") + ": ΔE00 " + one(std::min(wet, dried)) + " against " +
           one(std::max(wet, dried)) + (wet_nearer ? ". Judge a color wet, or under its topcoat." : ".");
}

std::vector<std::string> over_years(const LessonWork& w) {
    const auto& last = w.preview.finishes[0].aged.back();
    std::vector<std::pair<double, std::string>> parts = {
        {last.parts.wood, "the wood"}, {last.parts.film, "the film"}, {last.parts.dye, "the dye"}};
    std::stable_sort(parts.begin(), parts.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<std::string> words;
    for (const auto& [de, what] : parts)
        if (de >= 0.05) words.push_back(what + " " + one(de));
    if (words.empty()) return {};
    return {"If one part alone had aged, ΔE00 from new at the end: " + base::joined(words) + ".",
            "A range, not one color: 9 of 10 such boards lie within ΔE00 " + one(last.colors[0].region.de00_90) +
                " of the last."};
}

std::vector<std::string> under_lights(const LessonWork& w) {
    std::vector<std::string> out;
    for (std::size_t i = 1; i < w.boards.size(); ++i) {
        const auto& a = w.preview.across.at(i - 1);
        out.push_back(named(w, i) + " beside " + named(w, 0) + ": " + a.words + " (" + one(a.de_ucs) +
                      " in the eye's own space, CAM16-UCS, each seen by an eye used to its light).");
    }
    return out;
}

}  // namespace

std::vector<std::string> lesson_answer(const LessonWork& w) {
    std::vector<std::string> out = {which_is_which(w)};
    const auto add = [&](const std::vector<std::string>& more) {
        for (const auto& text : more)
            if (!text.empty()) out.push_back(text);
    };
    if (w.varies == Varies::light) {
        add(under_lights(w));
        return out;
    }
    std::vector<double> steps, chances;
    add({by_lightness(w)});
    add(one_by_one(w, steps, chances));
    if (by_degrees(w.varies)) add({growth(steps)});
    add({hard_to_see(chances)});
    if (w.varies == Varies::stage) add({wet_and_dry(w)});
    if (w.varies == Varies::years) add(over_years(w));
    if (w.preview.finishes.size() > 1) add(of_finishes(w));
    return out;
}

}  // namespace foretone::report
