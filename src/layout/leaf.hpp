#pragma once
// A page of a book or a lesson: the client's sheet's paper, margins and look.

#include "client_sheet_style.hpp"
#include "foretone/layout/client_sheet.hpp"
#include "page.hpp"

namespace foretone::layout {

/// A page of `paper` at the client's sheet's resolution, white.
struct Leaf {
    Leaf(Paper paper, std::string title);

    PaperSize size;
    Page page;
    int left = client_style::margin;
    int right() const { return size.width_px - client_style::margin; }
    int width() const { return right() - left; }
    int bottom() const { return size.height_px - client_style::margin + 10; }

    Sheet take() { return std::move(page.sheet); }
};

/// The chip and what boards may turn out as, in a strip of `height` pixels.
void add_swatch_strip(Page& page, const light::Box& box, const light::Code& code, bool in_gamut,
                      const std::vector<light::Code>& plausible);

/// Bold words on black, as wide as they are; returns where they end below.
int add_tag(Page& page, int x, int y, const std::string& words, const TextStyle& style);

/// Whole pixels that a text takes.
int width_px(const std::string& text, const TextStyle& style);

}  // namespace foretone::layout
