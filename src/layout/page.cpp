#include "page.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "page_style.hpp"

namespace foretone::layout {
namespace {

constexpr std::size_t as_many_as_needed = 200;

}  // namespace

Page::Page(int inner_width) : inner_width_(inner_width) {
    sheet.width = inner_width + 2 * style::margin;
    sheet.dpi = style::dpi;
    sheet.surround = style::surround;
}

int Page::left() const { return style::margin; }

int Page::line_height(const TextStyle& style) {
    return int(std::ceil(text_ascent(style)) + std::ceil(text_descent(style))) + 1;
}

int Page::line(double x, int y, const std::string& text, const TextStyle& style, const light::Code& ink) {
    if (!text.empty()) {
        const int ascent = int(std::ceil(text_ascent(style))), descent = int(std::ceil(text_descent(style)));
        const int from = int(std::floor(x)), to = int(std::ceil(x + text_width(text, style)));
        sheet.texts.push_back({{from, y, to - from, ascent + descent}, x, y + ascent, text, style, ink});
    }
    return y + line_height(style);
}

int Page::line_to(double right, int y, const std::string& text, const TextStyle& style, const light::Code& ink) {
    return line(right - text_width(text, style), y, text, style, ink);
}

int Page::paragraph(int x, int y, std::string_view text, const TextStyle& style, const light::Code& ink, int width,
                    std::size_t max_lines) {
    for (const std::string& l : wrap_text(text, style, width, max_lines)) {
        y = line(x, y, l, style, ink);
    }
    return y;
}

std::vector<std::string> facts_of(const std::string& wood, const std::string& geometry, const std::string& observer,
                                  const std::vector<std::string>& lights) {
    std::string names;
    for (const std::string& light : lights) {
        names += (names.empty() ? "" : ", ") + light;
    }
    std::vector<std::string> facts;
    const auto add = [&](const std::string& label, const std::string& value) {
        if (!value.empty()) {
            facts.push_back(label + value);
        }
    };
    add("Wood: ", wood);
    add("Geometry: ", geometry);
    add("Observer: ", observer);
    add(lights.size() == 1 ? "Light: " : "Lights: ", names);
    return facts;
}

int add_header(Page& page, const Header& header) {
    const int width = page.inner_width();
    int y = style::margin - 12;
    if (!header.overline.empty()) {
        y = page.paragraph(page.left(), y, header.overline, style::overline, style::quiet_ink, width, 2) + 2;
    }
    y = page.paragraph(page.left(), y, header.title, style::title, style::ink, width, 3) + 4;
    std::string line;
    for (const std::string& fact : header.facts) {
        const std::string longer = line.empty() ? fact : line + "   ·   " + fact;
        if (!line.empty() && text_width(longer, style::body) > width) {
            y = page.paragraph(page.left(), y, line, style::body, style::quiet_ink, width, 3);
            line = fact;
        } else {
            line = longer;
        }
    }
    // Spaces around the dots are kept where the line fits as it is.
    if (text_width(line, style::body) <= width) {
        return page.line(page.left(), y, line, style::body, style::quiet_ink) + 26;
    }
    return page.paragraph(page.left(), y, line, style::body, style::quiet_ink, width, 3) + 26;
}

void add_foot(Page& page, int y, const Foot& foot) {
    const int width = std::min(page.inner_width(), style::text_width_max);
    page.sheet.rules.push_back({{page.left(), y, page.inner_width(), 1}, style::hairline});
    y += 16;
    const auto say = [&](const std::string& text, const TextStyle& text_style, const light::Code& ink) {
        y = page.paragraph(page.left(), y, text, text_style, ink, width, as_many_as_needed) + 3;
    };
    if (!foot.rests_on.empty()) {
        say("Rests on: " + foot.rests_on, style::body, style::quiet_ink);
    }
    const std::string least = number(foot.least_spread, 1), most = number(foot.most_spread, 1);
    say("Spread (one standard deviation of these colors): ΔE00 " + (least == most ? most : least + " to " + most),
        style::body, style::quiet_ink);
    if (foot.out_of_gamut) {
        say("† and a cut corner: more colorful than this picture can show; lightness and hue are kept, chroma is "
            "reduced.",
            style::body, style::quiet_ink);
    }
    for (const std::string& note : foot.notes) {
        say(note, style::body, style::quiet_ink);
    }
    y += 6;
    say("Screens and prints are not the sample.", style::strong, style::ink);
    page.sheet.height = y + style::margin - 20;
}

std::string number(double value, int decimals) {
    char digits[64];
    const auto end =
        std::to_chars(digits, digits + sizeof digits, std::abs(value), std::chars_format::fixed, decimals).ptr;
    const std::string text(digits, end);
    const bool zero = text.find_first_not_of("0.") == std::string::npos;
    return std::signbit(value) && !zero ? "−" + text : text;
}

}  // namespace foretone::layout
