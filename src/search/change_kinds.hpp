#pragma once
// How each kind of change alters a step.

#include <optional>

#include "foretone/search/correct.hpp"

namespace foretone::search {

/// The step with its colorants at `factor` times their concentration: by more or less of the plain liquid where there
/// is one, else by their own amounts. Empty if that cannot be (nothing left to thin, percentages that leave no rest).
std::optional<schedule::Step> at_strength(const schedule::Step& step, const material::Materials& materials,
                                          double factor);

/// The step with a touch of one more colorant: a ready dye as a share of the mix by volume, a powder in g/L. Empty if
/// the mix's units do not take it.
std::optional<schedule::Step> with_touch(const schedule::Step& step, const material::Materials& materials,
                                         const std::string& id, double amount);

/// The step with its wet film at `factor` times what it is, in whole micrometres.
schedule::Step at_film(const schedule::Step& step, const material::Materials& materials, double factor);

bool is_colorant(const std::string& id, const material::Materials& materials);  ///< dye, stock or pigment
bool has_colorant(const schedule::Step& step, const material::Materials& materials);
bool has_binder(const schedule::Step& step, const material::Materials& materials);
bool wiped_oil(const schedule::Step& step,
               const material::Materials& materials);  ///< an oil whose surplus is wiped off
bool takes_cut(const schedule::Step& step, const material::Materials& materials);

/// Rounded to `digits` significant digits.
double rounded(double v, int digits);

}  // namespace foretone::search
