#pragma once
/// Amounts in the units of the shop, in figures that can be weighed, poured or read off; what is printed reads back as
/// itself (`read_amount`).

#include <optional>
#include <string>
#include <string_view>

#include "foretone/schedule/measure.hpp"
#include "foretone/schedule/system.hpp"

namespace foretone::schedule {

/// `stored` (in the stored unit of its dimension) to three figures, in the unit that suits its size: "1.57 L",
/// "12.4 fl oz", "27 ft²", "2.5 mil", "68 °F". A temperature is whole, a share has at most one decimal.
std::string printed(double stored, Dimension dimension, UnitSystem system);

/// What a scale or a syringe shows, to the last step: "14.5 g", "0.52 oz", "53.5 fl oz (1 qt 21.5 fl oz)".
std::string printed_measure(double stored, bool weighed, UnitSystem system);

/// Whose unit it is; none for those of both (lb/gal, %, hours, drops).
std::optional<UnitSystem> system_of(const Unit& unit);

/// Whose unit an amount is written with ("2.5 pints"); none if it names no unit, or one of both.
std::optional<UnitSystem> units_written(std::string_view amount);

/// `v` to so many figures, without an exponent.
std::string figures(double v, int digits);

}  // namespace foretone::schedule
