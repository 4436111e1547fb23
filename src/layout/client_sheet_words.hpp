#pragma once
/// The words of the client's sheet: above, beside and below the boards.

#include "client_sheet_style.hpp"
#include "foretone/layout/client_sheet.hpp"
#include "page.hpp"

namespace foretone::layout {

/// Title, facts and the black bar of refusals; returns where the body begins.
int add_client_header(Page& page, const ClientSheet& sheet, int left, int width, const client_style::Terseness& how);

/// What stands beside a finish's boards, from `y` on; returns where it ends. What is left of `room` (height, pixels)
/// after the name, sheen and spread is given to how the finish differs from the clear one.
int add_row_words(Page& page, const ClientRow& row, const std::string& letter, int left, int y, int width, int room,
                  const client_style::Terseness& how);

/// Everything below the boards but the signature; returns where it ends.
int add_client_foot(Page& page, const ClientSheet& sheet, int left, int y, int width,
                    const client_style::Terseness& how);

/// The choice, date and signature; returns where it ends.
int add_signature(Page& page, const ClientSheet& sheet, int left, int y, int width);

}  // namespace foretone::layout
