// How binders and dyes change. Symbols: α absorption of the dry binder, 1/mm, natural log · E actinic dose a day · D
// actinic dose · t days · H visible dose, Mlx·h · U ultraviolet dose, W·h/m².
//
// Films. Drying oils yellow in the dark and bleach in light, again and again, to much the same two ends (Levison 1985:
// four cycles of 25 months in the dark, 30 days of north light). So the yellow y goes towards Yd at 1/Td and is undone
// by light in proportion to itself: y′ = (Yd − y)/Td − y E/Db, solved exactly over a time of constant E,
//   y(t) = y∞ + (y0 − y∞) e^(−r t),   r = 1/Td + E/Db,   y∞ = Yd/(Td r).
// An exact step is why steps add. What light itself makes (p) and what it takes of the binder's own color (o) saturate
// in dose.
//
// Dyes. First order in dose, c = e^(−k x), x in steps of the grey scale: a reference of the blue-wool scale falls by
// one step (4) after 0.252 kW h/m² of ultraviolet for class 1, twice as much for each class more (ISO 105-B02 at 42
// W/m²: 6, 48 and 80 h for classes 1, 4, 5), and without ultraviolet after 0.4 Mlx·h, 3.01 times as much for each class
// more (0.4 for class 1, 900 for class 8: Michalski 1990). Both count: x = U/U_n + H/H_n. Such a step is ΔE*ab 1.7 of
// a dyeing of middle depth, some 7 % of its dye (tested): k = 0.07.

#include <algorithm>
#include <cmath>
#include <vector>

#include "foretone/material/ageing.hpp"
#include "rise.hpp"

namespace foretone::material {
namespace {
using spectral::Spectrum;

constexpr const char* levison =
    "order after Levison 1985 (JAIC 24): linseed yellows most in the dark, soya alkyd much less, 30 days of north "
    "light "
    "bleach it nearly whole; sizes from memory";
constexpr const char* trade = "common practice of how such films change; size from memory";

Figure fact(double value, double sd, const char* source) { return {value, sd, {Mark::practice, source}}; }

struct Row {
    const char* word;
    const char* meaning;
    double dark, light, own, uv;  // Yd and Yp, 1/mm at 450 nm; O; share of the ultraviolet
    const char* source;
};

// Levison's north light: 2000 lux, 10 hours a day, 30 days are 0.6 Mlx·h, 340 W·h/m² actinic; nine tenths gone: Db =
// 340/2.3.
constexpr double north_light_wh = 150;

FilmAgeing film(const Row& r) {
    FilmAgeing f;
    f.word = r.word;
    f.meaning = r.meaning;
    f.dark_per_mm = fact(r.dark, 0.5 * r.dark, r.source);
    f.dark_days = {300, 150, {Mark::practice, levison}};
    f.bleach_wh = {north_light_wh, 75, {Mark::computed, levison}};
    f.light_per_mm = fact(r.light, 0.5 * r.light, r.source);
    f.light_wh = fact(2000, 1000, trade);
    f.own_bleached = fact(r.own, 0.5 * r.own, r.source);
    f.own_wh = fact(2000, 1000, trade);
    f.width_nm = fact(45, 8, "the yellow of aged oils and resins rises towards the violet; typical value, not checked");
    f.uv_absorbed = fact(r.uv, 0.5 * r.uv, trade);
    return f;
}

std::vector<FilmAgeing> make_films() {
    std::vector<FilmAgeing> out;
    for (const Row& r : {
             Row{"oil", "yellows in the dark, bleaches in light", 4.0, 0, 0.3, 0.1, levison},
             Row{"oil varnish", "yellows in the dark, less than oil, and bleaches in light", 1.5, 0.3, 0.2, 0.15,
                 levison},
             Row{"shellac", "its own color bleaches a little in light", 0.3, 0.3, 0.25, 0.15, trade},
             Row{"lacquer", "yellows with light and time", 1.0, 2.0, 0, 0.15, trade},
             Row{"polyurethane", "stays, or yellows a little", 0.2, 0.8, 0, 0.3, trade},
             Row{"waterborne", "stays", 0.05, 0.05, 0, 0.3, trade},
             Row{"wax", "stays", 0.2, 0.1, 0.1, 0, trade},
         })
        out.push_back(film(r));
    return out;
}

const std::vector<FilmAgeing>& films() {
    static const auto all = make_films();
    return all;
}

constexpr double grey_scale_step = 0.07;  // share of a dye lost for one step, in ln

}  // namespace

std::span<const FilmAgeing> film_classes() { return films(); }

std::string binder_kind(const Material& binder) {
    const auto* b = std::get_if<Binder>(&binder.data);
    if (!b) return "";
    if (binder.kind == Kind::wax) return "wax";
    if (binder.kind == Kind::oil) return "oil";
    if (b->resin_density_g_per_ml) return "shellac";
    if (b->carrier == "water") return "waterborne";
    if (binder.order.two_component && binder.order.two_component->value) return "polyurethane";
    return b->carrier == "lacquer-thinner" ? "lacquer" : "oil varnish";
}

const FilmAgeing& ageing_of(const Material& binder) {
    const std::string kind = binder_kind(binder);
    for (const auto& f : films())
        if (f.word == kind) return f;
    return films().back();
}

FilmAged after(FilmAged s, const FilmAgeing& law, double actinic_a_day, double days) {
    const double rate = 1 / law.dark_days.value + actinic_a_day / law.bleach_wh.value;
    const double end = law.dark_per_mm.value / (law.dark_days.value * rate);
    s.dark_per_mm += (end - s.dark_per_mm) * rise(rate * days);
    s.light_wh += actinic_a_day * days;
    return s;
}

Spectrum aged_absorption(const Spectrum& fresh, const FilmAgeing& law, const FilmAged& s) {
    if (s.dark_per_mm == 0 && s.light_wh == 0) return fresh;
    const double left = 1 - law.own_bleached.value * rise(s.light_wh / law.own_wh.value);
    const double more = s.dark_per_mm + law.light_per_mm.value * rise(s.light_wh / law.light_wh.value);
    Spectrum out = fresh;
    for (std::size_t i = 0; i < out.size(); ++i)
        out[i] = left * out[i] + more * std::exp((450 - spectral::grid_nm(i)) / law.width_nm.value);
    return out;
}

double ultraviolet_per_mm(const Spectrum& a, double uv_absorbed) {
    const double at_380 = std::max(a[0], 0.0), at_400 = std::max(a[4], 1e-9);
    const double further = std::clamp(std::pow(at_380 / at_400, 1.5), 1.0, 8.0);  // 30 nm beyond 380 by the slope there
    return at_380 * further - std::log1p(-std::min(uv_absorbed, 0.9999)) / (1e-3 * uv_film_um);
}

Figure usual_lightfastness() {
    return {4, 1.2, {Mark::practice, "not stated for this dye: wood dyes as sold lie between 3 and 6"}};
}

double dye_left(double lightfastness, const Dose& d) {
    const double steps = lightfastness - 1;
    const double ultraviolet_wh = 252 * std::exp2(steps);           // ISO 105-B02: 42 W/m², 6 h for class 1
    const double mega_lux_hours = 0.4 * std::pow(2250, steps / 7);  // 0.4 to 900 Mlx·h over seven classes
    return std::exp(-grey_scale_step * (d.ultraviolet_wh / ultraviolet_wh + d.mega_lux_hours / mega_lux_hours));
}

}  // namespace foretone::material
