// How wood changes. Symbols: K/S of the body, S its scattering, which stays · D actinic dose, W·h/m² · t days.
//
// Lignin is much the same in all woods, and light makes the same chromophores of it: a brown band B that ends near 580
// nm, and a yellow one Y towards the violet. A wood's own color is bleached meanwhile by a share b. One law then does
// what finishers know: pale woods darken and yellow, dark ones grow paler, and all go the same way, towards a honey
// brown. Classes differ in b by what has made the color: extractives of a dark heartwood more than the pale color of
// lignin, and what steam has made nearly whole. The brown band's edge is set by how much redder native birch, pine and
// beech grow for each step darker (papers that print coordinates); B, Y, b and the doses are fitted to all papers
// (job/ageing_verdict.hpp). Saturation in two steps, fast then slow: a wood changes most in its first months by a
// window, and is never quite done. Cherry's class has more of the brown, and sooner.

#include <algorithm>
#include <cmath>

#include "foretone/material/ageing.hpp"
#include "foretone/material/optics_of.hpp"
#include "rise.hpp"

namespace foretone::material {
namespace {
using spectral::Spectrum;

constexpr const char* published_changes =
    "fitted to published changes of bare wood by windows and lamps, 19 rows of eight papers (foretone verify); sd: the "
    "fit, and a quarter from wood to wood";
constexpr const char* lamps =
    "of the order that xenon and window-glass tests give: most of a change in their first 20 to 70 hours at some 40 "
    "W/m2 "
    "of ultraviolet (Laskowska; Torcatoru & Timar; Liu et al. 2019, abstracts)";
constexpr const char* dark_years =
    "14 years in the dark made small changes to wood kept at 80 C before (Varga, Tolvaj & Preklet 2025, abstract)";

Figure figure(double value, double sd, Mark mark, const char* source) { return {value, sd, {mark, source}}; }

WoodAgeing common(std::string_view word, std::string_view meaning) {
    WoodAgeing w;
    w.word = word;
    w.meaning = meaning;
    w.brown = figure(0.417, 0.145, Mark::fitted, published_changes);
    w.yellow = figure(0.9, 0.3, Mark::fitted, published_changes);
    w.fast_share = figure(0.6, 0.1, Mark::memory, lamps);
    w.fast_wh = figure(1880, 970, Mark::fitted, published_changes);
    w.slow_wh = figure(15000, 7700, Mark::memory, lamps);
    w.bleached = figure(0.404, 0.24, Mark::fitted, published_changes);
    w.bleach_wh = figure(3375, 1635, Mark::fitted, published_changes);
    w.dark_yellow = figure(0.03, 0.02, Mark::practice, dark_years);
    w.dark_days = figure(3000, 1500, Mark::memory, dark_years);
    return w;
}

WoodAgeing published(WoodAgeing w) {
    w.published = true;
    return w;
}

// Each figure as sure as that class is: a relative spread of at least this.
WoodAgeing wider(WoodAgeing w, double share, const char* source) {
    for (Figure* f : {&w.brown, &w.yellow, &w.bleached}) {
        f->sd = std::max(f->sd, share * f->value);
        f->from = {Mark::practice, source};
    }
    return w;
}

WoodAgeing cherry_class() {
    constexpr const char* known =
        "common practice: cherry goes to a deep red brown, fast at first and then slowly, most of it in its first year "
        "in "
        "a room; no published curve was found";
    WoodAgeing w = common("cherry", "darken to a red brown, fast and then slowly");
    w.brown = figure(1.0, 0.35, Mark::practice, known);
    w.yellow = figure(1.8, 0.6, Mark::practice, known);
    w.fast_share = figure(0.75, 0.1, Mark::practice, known);
    w.fast_wh = figure(400, 200, Mark::practice, known);
    w.bleached = figure(0.3, 0.15, Mark::practice, known);
    w.bleach_wh = figure(12000, 6000, Mark::practice, known);
    w.dark_yellow = figure(0.1, 0.06, Mark::practice, "common practice: cherry darkens a little in the dark too");
    return w;
}

// Steam and heat make color of the wood's sugars and lignin that light takes back nearly whole, while it forms in the
// lignin what it forms in all woods: published boards of steamed birch, beech and maple turn paler and end much where
// unsteamed ones do. So only the share that is bleached is another.
WoodAgeing steamed_class() {
    constexpr const char* known =
        "fitted to five published changes of steamed birch, beech and maple, of five papers (foretone verify); sd: the "
        "fit, and how much of a board's color the heat has made";
    WoodAgeing w = published(common("steamed", "steamed and heat-treated woods: they grow paler and more golden"));
    w.bleached = figure(0.905, 0.09, Mark::fitted, known);
    return w;
}

WoodAgeing resinous_class() {
    constexpr const char* known =
        "as pale woods, with more of the yellow and less of the brown: common practice that pine goes amber; softwoods "
        "are "
        "published under hard lamps alone";
    WoodAgeing w = published(common("resinous", "pines, spruces, firs and larches: they yellow to amber"));
    w.brown = figure(0.28, 0.11, Mark::practice, known);
    w.yellow = figure(1.3, 0.45, Mark::practice, known);
    return w;
}

// Woods whose heartwood is dark: what colors them are extractives, which light takes further than the pale color that
// lignin has.
WoodAgeing dark(WoodAgeing w, const char* source) {
    w.bleached = figure(0.77, 0.19, Mark::fitted, source);
    return w;
}

std::vector<WoodAgeing> make_classes() {
    std::vector<WoodAgeing> out;
    out.push_back(published(common("pale", "pale woods without much extractive: they yellow and brown")));
    out.push_back(resinous_class());
    out.push_back(steamed_class());
    out.push_back(wider(common("oak", "oaks and chestnut: a little darker and yellower"), 0.4,
                        "as pale woods; no published curve of them was found"));
    out.push_back(cherry_class());
    out.push_back(published(
        dark(wider(common("walnut", "dark woods that grow paler and more golden"), 0.35,
                   "as pale woods; walnut is published under one lamp alone"),
             "fitted to what one lamp made of walnut (foretone verify), from 0.7 and 0.2 before: common practice that "
             "it grows paler")));
    out.push_back(dark(wider(common("tropical", "dark woods of the tropics: most grow paler in strong light"), 0.5,
                             "as pale woods; common practice that the dark ones grow paler, the sizes are not known"),
                       "as walnut; common practice that the dark woods of the tropics grow paler in strong light"));
    out.push_back(wider(common("unknown", "no class is named for it"), 0.6, "as pale woods; nothing is known of it"));
    return out;
}

const std::vector<WoodAgeing>& classes() {
    static const auto all = make_classes();
    return all;
}

}  // namespace

double actinic_wh(const Dose& d) { return d.ultraviolet_wh + violet_weight * d.violet_wh; }

const Spectrum& brown_band() {
    static const Spectrum band = [] {
        Spectrum s;
        for (std::size_t i = 0; i < s.size(); ++i) s[i] = 1 / (1 + std::exp((spectral::grid_nm(i) - 585) / 28));
        return s;
    }();
    return band;
}

const Spectrum& yellow_band() {
    static const Spectrum band = [] {
        Spectrum s;
        for (std::size_t i = 0; i < s.size(); ++i) s[i] = std::exp((450 - spectral::grid_nm(i)) / 45);
        return s;
    }();
    return band;
}

std::span<const WoodAgeing> wood_classes() { return classes(); }

const WoodAgeing& ageing_of(const Wood& wood) {
    for (const auto& c : classes())
        if (c.word == wood.ages_as) return c;
    return classes().back();
}

WoodAged aged(const WoodAgeing& law, double actinic, double days) {
    const double f = law.fast_share.value;
    return {f * rise(actinic / law.fast_wh.value) + (1 - f) * rise(actinic / law.slow_wh.value),
            law.bleached.value * rise(actinic / law.bleach_wh.value), rise(days / law.dark_days.value)};
}

Wood aged_wood(const Wood& fresh, const WoodAgeing& law, const WoodAged& state) {
    if (state.formed == 0 && state.bleached == 0 && state.darkened == 0) return fresh;
    Wood out = fresh;
    const double k1 = fresh.surface_k1.value, k2 = fresh.surface_k2.value;
    const double brown = law.brown.value * state.formed;
    const double yellow = law.yellow.value * state.formed + law.dark_yellow.value * state.darkened;
    const Spectrum body = body_reflectance(fresh), &browns = brown_band(), &yellows = yellow_band();
    for (std::size_t i = 0; i < body.size(); ++i) {
        const double own = (1 - body[i]) * (1 - body[i]) / (2 * body[i]);
        const double k = own * (1 - state.bleached) + brown * browns[i] + yellow * yellows[i];
        out.reflectance.values[i] = dry_surface(k1, k2, 1 / (1 + k + std::sqrt(k * (k + 2))));
    }
    return out;
}

}  // namespace foretone::material
