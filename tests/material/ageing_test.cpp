/// Light, and what it does to woods, binders and dyes: limits, sums, signs, and the published figures behind them.

#include "foretone/material/ageing.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/color/lab.hpp"
#include "foretone/color/xyz.hpp"
#include "support/standards.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::material;
using namespace foretone::test;

namespace {

FilmAgeing film_class(const std::string& word) {
    for (const auto& f : film_classes())
        if (f.word == word) return f;
    FAIL("no class " << word);
    return {};
}

const double north_light = actinic_wh(dose(exposure(Stands::window), 30));

}  // namespace

TEST_CASE("doses add, and none falls in the dark") {
    for (std::size_t i = 0; i < stands_words.size(); ++i) {
        const auto& e = exposure(static_cast<Stands>(i));
        CHECK(e.stands == static_cast<Stands>(i));
        CHECK(stands_from(word(e.stands)) == e.stands);
        Dose sum = dose(e, 100);
        sum += dose(e, 265.25);
        const Dose year = dose(e, days_a_year);
        CHECK_THAT(sum.mega_lux_hours, Near(year.mega_lux_hours, identity * (1 + year.mega_lux_hours)));
        CHECK_THAT(sum.ultraviolet_wh, Near(year.ultraviolet_wh, identity * (1 + year.ultraviolet_wh)));
        CHECK(sum.days == days_a_year);
    }
    CHECK(actinic_wh(dose(exposure(Stands::dark), 3650)) == 0);
    CHECK_FALSE(stands_from("outdoors"));
}

TEST_CASE("a place nearer the light gets more of it") {
    double before = -1;
    for (std::size_t i = 0; i < stands_words.size(); ++i) {
        const double now = actinic_wh(dose(exposure(static_cast<Stands>(i)), days_a_year));
        CHECK(now > before);
        before = now;
    }
}

TEST_CASE("the shade is the museum's year: 150 klx h") {  // CIE 157:2004
    CHECK_THAT(dose(exposure(Stands::shade), days_a_year).mega_lux_hours, Near(0.15, closed_form));
}

TEST_CASE("the ultraviolet and violet of daylight behind glass are D65's, in microwatt a lumen") {
    // Computed from CIE 15, every 5 nm: D65, the 2 degree observer, 683 lm/W. Glass: a tenth of the violet, a fifth of
    // the ultraviolet (common practice of 4 mm float).
    const auto d65 = light("D65");
    const auto two = observer("2deg");
    double lumens = 0, ultraviolet = 0, violet = 0;
    for (int nm = 300; nm <= 780; nm += 5) {
        const double power = spectral::linear_at(d65.power, nm);
        if (nm < 400) ultraviolet += power;
        if (nm >= 400 && nm < 430) violet += power;
        if (nm >= 380) lumens += 683 * power * spectral::linear_at(two.y, nm);
    }
    const auto& window = exposure(Stands::window);
    CHECK_THAT(0.8e6 * ultraviolet / lumens, Near(window.ultraviolet.value, window.ultraviolet.sd));
    CHECK_THAT(0.9e6 * violet / lumens, Near(window.violet.value, 10));
}

TEST_CASE("wood that no light has reached is the very same; what light forms only grows") {
    Wood wood;
    wood.surface_k1.value = 0.04, wood.surface_k2.value = 0.3;
    for (std::size_t i = 0; i < spectral::grid_size; ++i)
        wood.reflectance.values[i] = 0.3 + 0.004 * static_cast<double>(i);
    for (const auto& law : wood_classes()) {
        INFO(law.word);
        const Wood same = aged_wood(wood, law, aged(law, 0, 0));
        CHECK(same.reflectance.values.values == wood.reflectance.values.values);
        double formed = -1, bleached = -1, darkened = -1;
        for (const double years : {0.0, 0.1, 1.0, 5.0, 30.0, 300.0}) {
            const auto now = aged(law, 4000 * years, days_a_year * years);
            if (years <= 30) {
                CHECK(now.formed > formed);
                CHECK(now.bleached > bleached);
                CHECK(now.darkened > darkened);
            }
            CHECK((now.formed >= formed && now.bleached >= bleached && now.darkened >= darkened));  // all in the end
            CHECK(worst_of({now.formed, now.bleached, now.darkened}) <= 1);
            formed = now.formed, bleached = now.bleached, darkened = now.darkened;
            const Wood old = aged_wood(wood, law, now);
            for (const double r : old.reflectance.values.values) CHECK((r > 0.04 && r < 1));
        }
    }
}

TEST_CASE("every class has its figures, with mark and source") {
    for (const auto& c : wood_classes())
        for (const Figure& f : {c.brown, c.yellow, c.fast_share, c.fast_wh, c.slow_wh, c.bleached, c.bleach_wh,
                                c.dark_yellow, c.dark_days}) {
            INFO(c.word);
            CHECK(f.value > 0);
            CHECK(f.sd > 0);
            CHECK_FALSE(f.from.source.empty());
        }
    CHECK(wood_classes().back().word == "unknown");
    Wood nameless;
    CHECK(ageing_of(nameless).word == "unknown");
    for (const auto& c : film_classes())
        for (const Figure& f : {c.dark_per_mm, c.dark_days, c.bleach_wh, c.light_wh, c.own_wh, c.width_nm}) {
            INFO(c.word);
            CHECK(f.value > 0);
            CHECK_FALSE(f.from.source.empty());
        }
}

TEST_CASE("a film's steps add: two of a year are one of two, whatever the light") {
    for (const auto& law : film_classes())
        for (const double light : {0.0, 0.1, 1.0, 30.0, 300.0}) {
            const auto once = after({}, law, light, 2 * days_a_year);
            const auto twice = after(after({}, law, light, days_a_year), law, light, days_a_year);
            CHECK_THAT(twice.dark_per_mm, Near(once.dark_per_mm, identity));
            CHECK_THAT(twice.light_wh, Near(once.light_wh, identity * (1 + once.light_wh)));
        }
}

TEST_CASE("linseed yellows for 25 months in the dark, and 30 days of north light undo most of it, again and again") {
    // Order of Levison 1985, JAIC 24(2): four cycles.
    const auto oil = film_class("oil");
    FilmAged film;
    for (int cycle = 0; cycle < 4; ++cycle) {
        const double before = film.dark_per_mm;
        film = after(film, oil, 0, 25 * days_a_year / 12);
        const double dark = film.dark_per_mm;
        CHECK(dark > 0.85 * oil.dark_per_mm.value);
        film = after(film, oil, north_light / 30, 30);
        CHECK(film.dark_per_mm < 0.2 * dark);
        CHECK(film.dark_per_mm >= 0.9 * before);
    }
}

TEST_CASE("in the dark linseed yellows most, alkyds much less, waterborne hardly") {  // Levison 1985; common practice
    const auto yellow = [](const char* word) { return after({}, film_class(word), 0, 5 * days_a_year).dark_per_mm; };
    CHECK(yellow("oil") > 2 * yellow("oil varnish"));
    CHECK(yellow("oil varnish") > 2 * yellow("shellac"));
    for (const auto& f : film_classes())
        if (f.word != std::string_view("waterborne")) CHECK(yellow("waterborne") < yellow(std::string(f.word).c_str()));
}

TEST_CASE("a film new is a film as its file says, to the bit") {
    spectral::Spectrum a;
    for (std::size_t i = 0; i < a.size(); ++i) a[i] = 5.0 / (1.0 + static_cast<double>(i));
    for (const auto& law : film_classes()) CHECK(aged_absorption(a, law, after({}, law, 0, 0)).values == a.values);
}

TEST_CASE("a share of ultraviolet kept back by 50 um is the share that 50 um keep back") {
    const spectral::Spectrum clear{};
    for (const double share : {0.0, 0.3, 0.9, 0.99})
        CHECK_THAT(1 - std::exp(-ultraviolet_per_mm(clear, share) * 0.05), Near(share, closed_form));
    spectral::Spectrum tinted;
    for (std::size_t i = 0; i < tinted.size(); ++i) tinted[i] = 10 * std::exp(-static_cast<double>(i) / 6);
    CHECK(ultraviolet_per_mm(tinted, 0) > tinted[0]);  // amber keeps back more where the eye no longer sees
}

TEST_CASE("a blue-wool reference falls by a step of the grey scale after its hours") {
    // ISO 105-B02 at 42 W/m2 (300-400 nm): 6 h for class 1, 48 h for class 4, 80 h (84 by doubling) for class 5.
    for (const auto& [lightfastness, hours] : {std::pair(1.0, 6.0), std::pair(4.0, 48.0), std::pair(5.0, 96.0)})
        CHECK_THAT(-std::log(dye_left(lightfastness, {0, 42 * hours, 0, 1})), Near(0.07, closed_form));
    // Without ultraviolet: 0.4 Mlx h for class 1, 900 for class 8 (Michalski 1990).
    CHECK_THAT(-std::log(dye_left(1, {0.4, 0, 0, 1})), Near(0.07, closed_form));
    CHECK_THAT(-std::log(dye_left(8, {900, 0, 0, 1})), Near(0.07, closed_form));
    CHECK(dye_left(4, {}) == 1);
}

TEST_CASE("a step of the grey scale is about a fourteenth of a dyeing of middle depth") {
    // Grey scale 4 is dE*ab 1.7 (ISO 105-A02). A blue dyeing: K/S 4 at 620 nm, a band 60 nm wide; one of ln c = -0.07.
    const auto w = color::make_weights(light("D65"), observer("10deg"));
    const auto lab = [&](double left) {
        spectral::Spectrum r;
        for (std::size_t i = 0; i < r.size(); ++i) {
            const double u = (spectral::grid_nm(i) - 620) / 60, k = 0.05 + left * 4 * std::exp(-u * u);
            r[i] = 1 / (1 + k + std::sqrt(k * (k + 2)));
        }
        return color::to_lab(color::xyz(r, w), w.white);
    };
    CHECK_THAT(color::delta_e_ab(lab(1), lab(std::exp(-0.07))), Near(1.7, 0.6));
}

TEST_CASE("a dye of a better class fades less, and pigment is no dye") {  // common practice
    double before = 0;
    for (const double n : {1.0, 2.0, 4.0, 6.0, 8.0}) {
        const double left = dye_left(n, dose(exposure(Stands::sun), days_a_year));
        CHECK(left > before);
        before = left;
    }
    CHECK(before > 0.9);
}
