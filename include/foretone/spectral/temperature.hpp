#pragma once
/// Lights that follow from a temperature: phases of daylight and the glow of a black body.

#include <optional>
#include <string_view>

#include "foretone/spectral/standard.hpp"

namespace foretone::spectral {

inline constexpr double daylight_low_k = 4000, daylight_high_k = 25000;    ///< range of the CIE's daylight formulas
inline constexpr double planckian_low_k = 1000, planckian_high_k = 20000;  ///< from dull red embers to blue sky

/// Daylight of a correlated color temperature, kelvin (CIE 15:2018, 4.1.2), 100 at 560 nm, 300–830 nm at 5 nm.
/// `phase_of_daylight(6504)` is D65: the numbers in D50, D55, D65 are hundreds of kelvin on an older temperature scale
/// (× 1.4388/1.4380). Throws std::invalid_argument outside 4000–25000 K.
Illuminant phase_of_daylight(double cct_k);

/// A black body of a temperature, kelvin (Planck 1901), 100 at 560 nm, 300–830 nm at 5 nm: a filament or a candle.
/// Throws std::invalid_argument outside 1000–20000 K.
Illuminant planckian(double kelvin);

/// What an id of this form asks for: "D5500" is daylight, "P2700" a black body, of that many kelvin.
struct TemperatureLight {
    char family = 'D';  ///< 'D' or 'P'
    double kelvin = 0;

    double low_k() const { return family == 'D' ? daylight_low_k : planckian_low_k; }
    double high_k() const { return family == 'D' ? daylight_high_k : planckian_high_k; }
    bool in_range() const { return kelvin >= low_k() && kelvin <= high_k(); }
};

/// Reads D or P followed by three to five digits; empty for any other text (D65 is a table, not a temperature).
std::optional<TemperatureLight> temperature_light(std::string_view id);

/// That light, under its id. Throws std::invalid_argument out of range.
Illuminant make_light(const TemperatureLight& light);

}  // namespace foretone::spectral
