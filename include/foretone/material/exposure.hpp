#pragma once
/// Where a finished piece stands, and how much light it gets there.

#include <array>
#include <optional>
#include <string_view>

#include "foretone/material/figure.hpp"

namespace foretone::material {

/// Places indoors, from no light to most.
enum class Stands { dark, shade, room, window, sun };
inline constexpr std::array<std::string_view, 5> stands_words = {"dark", "shade", "room", "window", "sun"};

/// "dark", "shade", …
std::string_view word(Stands place);

/// Inverse of `word`; empty for any other text.
std::optional<Stands> stands_from(std::string_view text);

/// Days of a year.
inline constexpr double days_a_year = 365.25;

/// Light that fell on a surface, and the time that went by. Doses add.
struct Dose {
    double mega_lux_hours = 0;  ///< visible light, 1e6 lux · h
    double ultraviolet_wh = 0;  ///< up to 400 nm, behind window glass, W·h/m²
    double violet_wh = 0;       ///< 400–430 nm, W·h/m²
    double days = 0;

    Dose& operator+=(const Dose& more);
    friend Dose operator*(double share, const Dose& dose);
};

/// What a place gets.
struct Exposure {
    Stands stands = Stands::dark;
    std::string_view meaning;  ///< in words
    Figure lux;                ///< while there is light
    Figure hours_a_year;       ///< of light
    Figure ultraviolet;        ///< of that light, µW/lm
    Figure violet;             ///< of that light, µW/lm
    double dose_ln_sd = 0;     ///< one standard deviation of ln(dose): one such place from the next
};

const Exposure& exposure(Stands place);

/// A time in one place.
struct AgeSpan {
    Stands stands = Stands::room;
    double days = 0;
};

/// lux · hours, and of that the ultraviolet and violet, over so many days.
Dose dose(const Exposure& exposure, double days);

}  // namespace foretone::material
