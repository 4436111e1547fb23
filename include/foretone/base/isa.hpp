#pragma once
/// The one choice of instruction set for loops over wavelengths. Every version of a loop does the same operations in
/// the same order, so that all give the same bytes: the choice is of speed alone.

namespace foretone::base {

enum class Isa { baseline, avx2, avx512 };

/// The widest this machine runs, asked once.
Isa widest_isa();

}  // namespace foretone::base
