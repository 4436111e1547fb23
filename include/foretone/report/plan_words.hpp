#pragma once
/// What a plan says of its rounded measures.

#include "foretone/job/plan.hpp"

namespace foretone::report {

/// "honey-dye 1 mL; russet-dye 0.5 mL".
std::string measures_text(const schedule::Pot& pot, schedule::UnitSystem units = schedule::UnitSystem::metric);

/// "753 mL", "25.5 fl oz": what all pots take of it, as they were rounded.
std::string purchase_text(const job::Purchase& purchase, schedule::UnitSystem units);

/// What evaporates of what is mixed in, with local rules beside it; empty if nothing does.
std::string solvent_text(const job::Plan& plan);

/// "Rounding shifts the color by ΔE00 3.8 under D65. A batch of 16 mL keeps it: honey-dye 2 mL; …". Empty for a step
/// whose rounding was not worked out or changes no measure.
std::string rounding_text(const job::PlanStep& step, schedule::UnitSystem units = schedule::UnitSystem::metric);

}  // namespace foretone::report
