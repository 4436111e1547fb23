// Sheets of stickers in the two layouts that every stationer has (common practice). Printed at 100 %, they meet their
// stickers; on plain paper the fine lines are for scissors.

#include "foretone/report/plan_labels.hpp"

#include <fmt/core.h>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/format/sheet_html.hpp"
#include "foretone/layout/card.hpp"
#include "foretone/report/plan_words.hpp"
#include "foretone/schedule/printed.hpp"

namespace foretone::report {
namespace {
using schedule::Dimension;
using schedule::printed;

constexpr const char* sticker_style =
    "*{box-sizing:border-box}body{margin:0;color:#111}.s{position:absolute;overflow:hidden;"
    "padding:2mm 3mm;border:.1mm solid #ccc}.s b{font-size:1.2em}.c{float:right;font:bold 13pt monospace;"
    "margin-left:2mm}.w{position:absolute;left:3mm;right:3mm;bottom:1.5mm;background:#fff}";

std::string line(const std::string& text) { return base::xml_escaped(text) + "<br>"; }

std::string first_of(const std::string& text, std::size_t most) {
    if (text.size() <= most) return text;
    std::size_t end = most;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;  // whole letters of UTF-8
    return text.substr(0, end) + " …";
}

/// Half a mix is a wrong mix.
std::string mix_text(const std::string& text) { return text.size() <= 240 ? text : "see the card"; }

std::string jar(const job::Plan& p, std::size_t step) {
    const auto& s = p.steps[step];
    const auto units = p.request.units;
    std::string out =
        "<span class=\"c\">" + p.code + "</span><b>Step " + std::to_string(step + 1) + "</b><br>" +
        line(first_of(s.action, 110)) +
        line(mix_text(printed(s.pot.measured_ml, Dimension::volume, units) + ": " + measures_text(s.pot, units))) +
        line(first_of(p.title, 60));
    out += "<div class=\"w\">mixed ____________ by ______ use by ____________";
    if (s.pot_life_here_h) out += "<br>keeps " + base::significant(*s.pot_life_here_h, 2) + " h once mixed";
    return out + "<br>Dangers: as on the cans' labels</div>";
}

std::string back(const job::Plan& p) {
    std::string out = "<span class=\"c\">" + p.code + "</span><b>" + base::xml_escaped(first_of(p.finish, 60)) +
                      "</b><br>" + line(first_of(p.title + " · " + p.wood, 80));
    for (std::size_t i = 3; i + 1 < p.label.size() && i < 7; ++i) out += line(first_of(p.label[i], 95));
    return out + "<div class=\"w\">board ______ date ____________ by ______</div>";
}

}  // namespace

std::string plan_labels(const job::Plan& p, layout::Paper paper) {
    const auto sheet = layout::sticker_room(paper);
    const auto size = layout::size_of(paper);
    const std::string page = "@page{size:" + std::string(size.css) +
                             ";margin:0}body{font:" + (paper == layout::Paper::letter ? "9pt" : "7.5pt") +
                             "/1.2 sans-serif}.p{position:relative;height:" + base::at_most(size.height_mm - 1, 1) +
                             "mm}.p+.p{break-before:page}";
    std::string out = format::html_head(p.title + ": labels", page + sticker_style) + "<body>\n";
    std::vector<std::string> stickers;
    for (std::size_t i = 0; i < p.steps.size(); ++i)
        if (p.steps[i].pot.measures.size() > 1) stickers.push_back(jar(p, i));
    const auto room = sheet.on_a_page();
    do stickers.push_back(back(p));  // at least one board, and the last sheet is full
    while (stickers.size() % room != 0);
    for (std::size_t i = 0; i < stickers.size(); ++i) {
        const auto at = i % room;
        const double left = sheet.left_mm + static_cast<double>(at % 2) * (sheet.width_mm + sheet.gap_mm),
                     top = sheet.top_mm + static_cast<double>(at / 2) * sheet.height_mm;
        if (at == 0) out += i == 0 ? "<div class=\"p\">\n" : "</div>\n<div class=\"p\">\n";
        out += fmt::format("<div class=\"s\" style=\"left:{}mm;top:{}mm;width:{}mm;height:{}mm\">{}</div>\n",
                           base::at_most(left, 2), base::at_most(top, 2), base::at_most(sheet.width_mm, 2),
                           base::at_most(sheet.height_mm, 2), stickers[i]);
    }
    return out + "</div></body></html>\n";
}

}  // namespace foretone::report
