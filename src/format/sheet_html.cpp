// The page is one drawing in the sheet's own pixels, scaled to the paper: what a test proves of the sheet holds for the
// print.

#include "foretone/format/sheet_html.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "foretone/format/png.hpp"
#include "foretone/layout/typeface.hpp"
#include "foretone/layout/utf8.hpp"

namespace foretone::format {
namespace {

std::string plain(double value) {
    char digits[64];
    return {digits, std::to_chars(digits, digits + sizeof digits, std::round(value * 100) / 100).ptr};
}

std::string hex(const light::Code& code) {
    constexpr char digits[] = "0123456789abcdef";
    std::string out = "#";
    for (const std::uint8_t c : code) {
        out += digits[c >> 4];
        out += digits[c & 15];
    }
    return out;
}

std::string place(const light::Box& b) {
    return "x=\"" + std::to_string(b.x) + "\" y=\"" + std::to_string(b.y) + "\" width=\"" + std::to_string(b.width) +
           "\" height=\"" + std::to_string(b.height) + "\"";
}

std::string rectangle(const light::Box& b, const light::Code& code) {
    return "<rect " + place(b) + " fill=\"" + hex(code) + "\"/>\n";
}

std::string corner(const light::Box& b, const light::Code& code) {
    const int side = std::min({18, b.width, b.height}), bottom = b.y + b.height;
    return "<path d=\"M" + std::to_string(b.x) + " " + std::to_string(bottom - side) + "V" + std::to_string(bottom) +
           "H" + std::to_string(b.x + side) + "Z\" fill=\"" + hex(code) + "\"/>\n";
}

std::string field(const layout::PlacedField& f, const light::Code& surround) {
    return rectangle(f.box, f.code) + (f.cut_corner ? corner(f.box, surround) : "");
}

std::string picture(const layout::PlacedPicture& p, double dpi) {
    return "<image " + place(p.box) + " role=\"img\" aria-label=\"" + safe_text(p.about) +
           "\" href=\"data:image/png;base64," + base64(encode_png(p.image, {dpi, "", ""})) + "\"/>\n";
}

std::string text(const layout::PlacedText& t) {
    const double width = layout::text_width(t.text, t.style);
    return "<text x=\"" + plain(t.x) + "\" y=\"" + std::to_string(t.baseline) + "\" font-size=\"" +
           plain(t.style.size_px) + "\"" + (t.style.face == layout::Face::bold ? " font-weight=\"700\"" : "") +
           " fill=\"" + hex(t.ink) + "\"" + (width > 0 ? " textLength=\"" + plain(width) + "\"" : "") +
           " lengthAdjust=\"spacingAndGlyphs\">" + safe_text(t.text) + "</text>\n";
}

std::string style_of(const PrintedOn& paper) {
    // A little shorter than the paper, so that rounding never opens a second page.
    const std::string width = plain(paper.width_mm) + "mm", height = plain(paper.height_mm - 0.5) + "mm";
    return "@page{size:" + std::string(paper.css) +
           ";margin:0}html,body{margin:0;padding:0;background:#fff}svg{display:block;width:" + width +
           ";height:" + height +
           ";margin:0 auto;overflow:hidden;font-family:Lato,Carlito,'Helvetica Neue',Arial,sans-serif;white-space:pre;"
           "print-color-adjust:exact;-webkit-print-color-adjust:exact}rect,path{shape-rendering:crispEdges}";
}

}  // namespace

std::string safe_text(std::string_view text) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t from = at;
        const char32_t point = layout::next_code_point(text, at);
        if (layout::glyph_of(layout::Face::regular, point) == layout::no_glyph) continue;
        if (point == '&')
            out += "&amp;";
        else if (point == '<')
            out += "&lt;";
        else if (point == '>')
            out += "&gt;";
        else if (point == '"')
            out += "&quot;";
        else if (point == '\'')
            out += "&#39;";
        else if (point < 0x20 || (point >= 0x7F && point < 0xA0))
            out += ' ';
        else if (point == 0xFFFD)
            out += "\xEF\xBF\xBD";
        else
            out += text.substr(from, at - from);
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

std::string sheet_html(const layout::Sheet& sheet, const PrintedOn& paper) {
    const light::Box whole{0, 0, sheet.width, sheet.height};
    std::string out =
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; font-src data:; "
        "style-src "
        "'unsafe-inline'; base-uri 'none'; form-action 'none'\">"
        "<meta name=\"viewport\" content=\"width=device-width\"><title>" +
        safe_text(sheet.title) + "</title><style>" + style_of(paper) + "</style></head><body>\n<svg viewBox=\"0 0 " +
        std::to_string(sheet.width) + " " + std::to_string(sheet.height) +
        "\" preserveAspectRatio=\"xMidYMin meet\">\n" + rectangle(whole, sheet.surround);
    for (const layout::PlacedRule& r : sheet.panels) out += rectangle(r.box, r.code);
    for (const layout::PlacedField& f : sheet.fields) out += field(f, sheet.surround);
    for (const layout::PlacedPicture& p : sheet.pictures) out += picture(p, sheet.dpi);
    for (const layout::PlacedField& f : sheet.strips) out += field(f, sheet.surround);
    for (const layout::PlacedRule& r : sheet.rules) out += rectangle(r.box, r.code);
    for (const layout::PlacedText& t : sheet.texts) out += text(t);
    return out + "</svg>\n</body></html>\n";
}

}  // namespace foretone::format
