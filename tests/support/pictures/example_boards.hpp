#pragma once
/// Made-up boards for the tests of pictures: plausible colors, not results.

#include <cstdint>
#include <string>

#include "foretone/layout/comparison.hpp"
#include "foretone/layout/step_board.hpp"

namespace foretone::test {

/// A field whose captions are consistent with its code.
layout::Field example_field(std::uint8_t r, std::uint8_t g, std::uint8_t b, double spread = 1.2, bool in_gamut = true);

/// `columns` stages that darken and redden step by step; the first lights of D65, A, LED-B3, FL11.
layout::StepBoard example_step_board(std::size_t columns, std::size_t lights);

/// The same with names and notes far too long for their room, some of them not ASCII.
layout::StepBoard wordy_step_board(std::size_t columns, std::size_t lights);

layout::Comparison example_comparison(std::size_t finishes, std::size_t lights, bool target);

}  // namespace foretone::test
