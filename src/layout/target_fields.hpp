#pragma once
/// What the chart of coats and the candidates share: fields that the target touches.

#include <stdexcept>

#include "foretone/layout/comparison.hpp"
#include "grid.hpp"
#include "page.hpp"

namespace foretone::layout {

/// Throws std::invalid_argument, opening with `place`, unless there are 1–8 lights and 1–64 columns.
void check_counts(std::size_t lights, std::size_t columns, const std::string& place);

/// Throws std::invalid_argument unless there is one sound field a light.
void check_fields(const std::vector<Field>& fields, const std::vector<std::string>& lights, const std::string& place);
void check_fields(const std::vector<ComparedField>& fields, const std::vector<std::string>& lights,
                  const std::string& place);

/// Takes a field's spread and gamut into the foot.
void take(Foot& foot, const Field& field);

/// Rows of nearly equal length, at most eight columns each; the first `lead` columns open every row.
std::vector<std::vector<std::size_t>> rows_of(std::size_t lead, std::size_t columns);

}  // namespace foretone::layout
