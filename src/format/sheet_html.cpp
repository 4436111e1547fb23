// The page is one drawing in the sheet's own pixels, scaled to the paper: what a test proves of the sheet holds for the
// print.

#include "foretone/format/sheet_html.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/format/png.hpp"
#include "foretone/layout/typeface.hpp"
#include "foretone/base/utf8.hpp"

namespace foretone::format {
namespace {

std::string hundredths(double value) { return base::shortest(std::round(value * 100) / 100); }

std::string hex(const light::Code& code) { return fmt::format("#{:02x}{:02x}{:02x}", code[0], code[1], code[2]); }

std::string place(const light::Box& b) {
    return fmt::format(R"(x="{}" y="{}" width="{}" height="{}")", b.x, b.y, b.width, b.height);
}

std::string rectangle(const light::Box& b, const light::Code& code) {
    return fmt::format("<rect {} fill=\"{}\"/>\n", place(b), hex(code));
}

std::string corner(const light::Box& b, const light::Code& code) {
    const int side = std::min({18, b.width, b.height}), bottom = b.y + b.height;
    return fmt::format("<path d=\"M{} {}V{}H{}Z\" fill=\"{}\"/>\n", b.x, bottom - side, bottom, b.x + side, hex(code));
}

std::string field(const layout::PlacedField& f, const light::Code& surround) {
    return rectangle(f.box, f.code) + (f.cut_corner ? corner(f.box, surround) : "");
}

std::string picture(const layout::PlacedPicture& p, double dpi) {
    return fmt::format(R"(<image {} role="img" aria-label="{}" href="data:image/png;base64,{}"/>)", place(p.box),
                       safe_text(p.about), base64(encode_png(p.image, {dpi, "", ""}))) +
           "\n";
}

std::string text(const layout::PlacedText& t) {
    const double width = layout::text_width(t.text, t.style);
    return fmt::format(R"(<text x="{}" y="{}" font-size="{}"{} fill="{}"{} lengthAdjust="spacingAndGlyphs">{}</text>)",
                       hundredths(t.x), t.baseline, hundredths(t.style.size_px),
                       t.style.face == layout::Face::bold ? " font-weight=\"700\"" : "", hex(t.ink),
                       width > 0 ? fmt::format(" textLength=\"{}\"", hundredths(width)) : "", safe_text(t.text)) +
           "\n";
}

std::string style_of(const PrintedOn& paper) {
    // A little shorter than the paper, so that rounding never opens a second page.
    return fmt::format(
        "@page{{size:{};margin:0}}html,body{{margin:0;padding:0;background:#fff}}"
        "svg+svg{{break-before:page}}svg{{display:block;width:{}mm;height:{}mm;margin:0 auto;overflow:hidden;"
        "font-family:Lato,Carlito,'Helvetica Neue',Arial,sans-serif;white-space:pre;"
        "print-color-adjust:exact;-webkit-print-color-adjust:exact}}rect,path{{shape-rendering:crispEdges}}",
        paper.css, hundredths(paper.width_mm), hundredths(paper.height_mm - 0.5));
}

std::string page(const layout::Sheet& sheet) {
    std::string out = "<svg viewBox=\"0 0 " + std::to_string(sheet.width) + " " + std::to_string(sheet.height) +
                      "\" preserveAspectRatio=\"xMidYMin meet\">\n" +
                      rectangle({0, 0, sheet.width, sheet.height}, sheet.surround);
    for (const layout::PlacedRule& r : sheet.panels) out += rectangle(r.box, r.code);
    for (const layout::PlacedField& f : sheet.fields) out += field(f, sheet.surround);
    for (const layout::PlacedPicture& p : sheet.pictures) out += picture(p, sheet.dpi);
    for (const layout::PlacedField& f : sheet.strips) out += field(f, sheet.surround);
    for (const layout::PlacedRule& r : sheet.rules) out += rectangle(r.box, r.code);
    for (const layout::PlacedText& t : sheet.texts) out += text(t);
    return out + "</svg>\n";
}

}  // namespace

std::string safe_text(std::string_view text) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t from = at;
        const char32_t point = base::next_code_point(text, at);
        if (layout::glyph_of(layout::Face::regular, point) == layout::no_glyph) continue;
        if (point < 0x20 || (point >= 0x7F && point < 0xA0))
            out += ' ';
        else if (point == 0xFFFD)
            out += "\xEF\xBF\xBD";
        else
            out += base::xml_escaped(text.substr(from, at - from));
    }
    return out;
}

std::string base64(const std::vector<std::uint8_t>& bytes) {
    constexpr char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string out;
    out.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        const std::size_t left = std::min<std::size_t>(3, bytes.size() - i);
        unsigned long group = 0;
        for (std::size_t k = 0; k < 3; ++k) group = group << 8 | (k < left ? bytes[i + k] : 0u);
        for (std::size_t k = 0; k < 4; ++k) out += k <= left ? letters[group >> (18 - 6 * k) & 63] : '=';
    }
    return out;
}

std::string html_head(std::string_view title, std::string_view style) {
    return "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
           "<meta name=\"generator\" content=\"foretone\">"
           "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; "
           "font-src data:; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\">"
           "<meta name=\"viewport\" content=\"width=device-width\"><title>" +
           safe_text(title) + "</title><style>" + std::string(style) + "</style></head>";
}

std::string sheet_html(const layout::Sheet& sheet, const PrintedOn& paper) { return sheets_html({&sheet, 1}, paper); }

std::string sheets_html(std::span<const layout::Sheet> sheets, const PrintedOn& paper) {
    std::string out = html_head(sheets.front().title, style_of(paper)) + "<body>\n";
    for (const layout::Sheet& sheet : sheets) out += page(sheet);
    return out + "</body></html>\n";
}

}  // namespace foretone::format
