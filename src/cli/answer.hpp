#pragma once
/// Prints what `mix` answers.

#include "common.hpp"
#include "foretone/job/mix.hpp"

namespace foretone::cli {

/// Prints the answer, or writes it as JSON, or both, as the options say; in the units of --units, else in those it was
/// asked in. Cautions are always among it. Returns 0.
int give(const job::MixAnswer& answer, const Common& common);

}  // namespace foretone::cli
