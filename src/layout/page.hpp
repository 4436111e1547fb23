#pragma once
/// A page that grows downward, and the header and foot all boards share.

#include <string>
#include <string_view>
#include <vector>

#include "foretone/layout/sheet.hpp"

namespace foretone::layout {

/// Places text on a sheet; `y` values are tops of lines.
class Page {
public:
    explicit Page(int inner_width);

    int left() const;
    int inner_width() const { return inner_width_; }

    /// One line at `x`; nothing for empty text. Returns the top of the next line.
    int line(double x, int y, const std::string& text, const TextStyle& style, const light::Code& ink);
    /// One line that ends at `right`.
    int line_to(double right, int y, const std::string& text, const TextStyle& style, const light::Code& ink);
    /// Wrapped lines. Returns the top of the line after the last.
    int paragraph(int x, int y, std::string_view text, const TextStyle& style, const light::Code& ink, int width,
                  std::size_t max_lines);

    static int line_height(const TextStyle& style);

    Sheet sheet;

private:
    int inner_width_;
};

struct Header {
    std::string overline, title;
    std::vector<std::string> facts;  ///< set in one line with dots between, wrapped between facts where they fit
};

/// "Wood: hard maple", "Geometry: 45/0" …; empty values are left out.
std::vector<std::string> facts_of(const std::string& wood, const std::string& geometry, const std::string& observer,
                                  const std::vector<std::string>& lights);

/// Header at the top of the page; returns where the body begins.
int add_header(Page& page, const Header& header);

struct Foot {
    std::string rests_on;
    double least_spread = 0, most_spread = 0;
    bool out_of_gamut = false;
    std::vector<std::string> notes;
};

/// Foot from `y` on; closes the page: sets its height.
void add_foot(Page& page, int y, const Foot& foot);

/// A decimal number, independent of locale: a real minus sign, and no minus before zero.
std::string number(double value, int decimals);

}  // namespace foretone::layout
