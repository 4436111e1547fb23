#pragma once
/// Amounts as a finisher writes them, "2 lb/gal" or "27ft2", into one unit a dimension.

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace foretone::schedule {

/// What an amount can be an amount of; beside it the unit it is stored in.
enum class Dimension {
    volume,       ///< mL
    mass,         ///< g
    area,         ///< m²
    film,         ///< µm
    cut,          ///< lb of resin per US gal of alcohol
    load,         ///< g of powder per L of the liquid it goes into
    share,        ///< percent
    coverage,     ///< m²/L
    temperature,  ///< °C
    time,         ///< h
    count         ///< parts
};
inline constexpr std::array<std::string_view, 11> dimension_words = {
    "volume", "mass",     "area",        "film thickness", "cut",  "powder load",
    "share",  "coverage", "temperature", "time",           "parts"};

/// One unit: stored value = read · factor + offset. A cut said by solution or by share is no plain factor: `factor` is
/// 0 and `shop_arithmetic.hpp` converts it.
struct Unit {
    std::string_view name;
    Dimension dimension;
    double factor;
    double offset;
    std::string_view meaning;
};

/// Every unit that is accepted, grouped by dimension.
const std::vector<Unit>& units();

/// A number with its unit as read.
struct Amounted {
    double value = 0;  ///< as read
    const Unit* unit = nullptr;

    double stored() const { return value * unit->factor + unit->offset; }
};

/// Reads "2.5m2", "27 ft2", "3 lb/gal". Throws Fault: amount-syntax (no number), unit-missing, unit-unknown (lists the
/// units of the dimension), amount-range (negative, or not finite; a temperature may be negative).
Amounted read_amount(std::string_view text, Dimension dimension);

/// As `read_amount`, where any of several dimensions will do (first that has the unit).
Amounted read_amount(std::string_view text, const std::vector<Dimension>& dimensions);

/// `read_amount(...).stored()`, refused outside [low, high] of the stored unit with Fault `amount-range`.
double amount_in(std::string_view text, Dimension dimension, double low, double high);

}  // namespace foretone::schedule
