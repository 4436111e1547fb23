// Light indoors. Symbols: E lux · h hours of light a year · t days · q µW/lm of a part of the spectrum.
//
//   visible   H = E h t/365.25           lux·h; 1e6 of them are one Mlx·h
//   part      W = q H                    µW/lm · lux·h = µW·h/m²; with H in Mlx·h it is W·h/m²
//
// Lux-hours times a share, and no spectrum of each lamp: what is known of a client's room is how bright it is and
// whether its light comes through a window. The ultraviolet share is the number that museums measure. All of this
// together is uncertain by a factor of 1.6 to 2, which `dose_ln_sd` says once for the place.

#include "foretone/material/exposure.hpp"

namespace foretone::material {
namespace {

Figure practice(double value, double sd, const char* source) { return {value, sd, {Mark::practice, source}}; }
Figure computed(double value, double sd, const char* source) { return {value, sd, {Mark::computed, source}}; }
Figure published(double value, double sd, const char* source) { return {value, sd, {Mark::published, source}}; }

constexpr const char* d65_violet =
    "of D65: 372 microwatt a lumen between 400 and 430 nm (computed from CIE 15), 9 in 10 of it through 4 mm of glass";

std::array<Exposure, 5> make() {
    const Figure none = published(0, 0, "no light");
    return {{
        {Stands::dark, "a drawer, a cupboard, behind a picture", none, none, none, none, 0},
        {Stands::shade, "a dim corner or a hall, no sun, lamps in the evening",
         published(50, 0, "CIE 157:2004: 50 lux for what light harms most"),
         published(3000, 0, "CIE 157:2004: 3000 h a year, 150 klx h together"),
         practice(75, 40, "what museums allow: the ultraviolet of a filament lamp"),
         practice(150, 75, "lamps and daylight that walls have thrown back"), 0.7},
        {Stands::room, "in a lived-in room, two metres or more from its windows",
         published(300, 0, "EN 12464-1: 300 lux for rooms that are used by the day"),
         practice(3650, 0, "ten hours a day"),
         practice(200, 100, "daylight through glass and from painted walls, which keep back half of its ultraviolet"),
         practice(250, 100, "between daylight and lamps"), 0.7},
        {Stands::window, "within a metre of a window, no sun on it",
         computed(2000, 0, "a tenth of the 20 000 lux that an open sky gives on the mean of the day's hours"),
         computed(4383, 0, "half of all hours are daylight"),
         computed(400, 80,
                  "of D65: 512 microwatt a lumen from 300 to 400 nm (computed from CIE 15), about 4 in 5 of it through "
                  "4 mm of glass"),
         computed(330, 60, d65_violet), 0.6},
        {Stands::sun, "on a sill or a floor that the sun reaches",
         computed(
             11000, 0,
             "900 kW h/m2 a year on a wall that looks south, 0.75 of it through glass, 100 lm/W, seven tenths left by "
             "curtains, frames and what stands outside; over the hours of daylight"),
         computed(4383, 0, "half of all hours are daylight"), computed(400, 80, "as by a window"),
         computed(330, 60, d65_violet), 0.5},
    }};
}

}  // namespace

std::string_view word(Stands place) { return stands_words[static_cast<std::size_t>(place)]; }

std::optional<Stands> stands_from(std::string_view text) {
    for (std::size_t i = 0; i < stands_words.size(); ++i)
        if (stands_words[i] == text) return static_cast<Stands>(i);
    return std::nullopt;
}

Dose& Dose::operator+=(const Dose& more) {
    mega_lux_hours += more.mega_lux_hours;
    ultraviolet_wh += more.ultraviolet_wh;
    violet_wh += more.violet_wh;
    days += more.days;
    return *this;
}

Dose operator*(double share, const Dose& d) {
    return {share * d.mega_lux_hours, share * d.ultraviolet_wh, share * d.violet_wh, share * d.days};
}

const Exposure& exposure(Stands place) {
    static const auto all = make();
    return all[static_cast<std::size_t>(place)];
}

Dose dose(const Exposure& e, double days) {
    const double mega_lux_hours = 1e-6 * e.lux.value * e.hours_a_year.value * days / days_a_year;
    return {mega_lux_hours, e.ultraviolet.value * mega_lux_hours, e.violet.value * mega_lux_hours, days};
}

}  // namespace foretone::material
