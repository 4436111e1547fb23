#pragma once
/// Trade units into the ones stored: µm, g/L, m²/L. Factors are the exact definitions of the units.

namespace foretone::schedule {

inline constexpr double um_per_mil = 25.4;
inline constexpr double g_per_oz = 28.349523125;
inline constexpr double l_per_us_qt = 0.946352946;
inline constexpr double l_per_us_gal = 3.785411784;
inline constexpr double m2_per_ft2 = 0.09290304;
inline constexpr double ml_per_drop = 0.05;  ///< common practice: 20 drops of water a mL

constexpr double um_from_mil(double mil) { return mil * um_per_mil; }
constexpr double g_per_l_from_oz_per_qt(double oz) { return oz * g_per_oz / l_per_us_qt; }
constexpr double m2_per_l_from_ft2_per_gal(double ft2) { return ft2 * m2_per_ft2 / l_per_us_gal; }

/// Wet film of a coverage: 1 L over c m² is 1000/c µm deep.
constexpr double wet_um_from_coverage(double m2_per_l) { return 1000.0 / m2_per_l; }

}  // namespace foretone::schedule
