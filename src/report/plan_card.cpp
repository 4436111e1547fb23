// The bench card: one HTML page, no outside files, readable on paper. Every piece of text is escaped.

#include <fmt/core.h>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/format/sheet_html.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/report/plan_card.hpp"
#include "foretone/report/plan_words.hpp"
#include "foretone/schedule/printed.hpp"

namespace foretone::report {
namespace {

using schedule::Dimension;
using schedule::printed;

// Small enough that a plan of three steps is one page of Letter, cautions and label included.
constexpr const char* style =
    "body{font:8.5pt/1.25 sans-serif;color:#111;max-width:195mm;margin:0 auto}h1{font-size:14pt;margin:0}"
    "h2{font-size:10.5pt;margin:2mm 0 .5mm}p{margin:1mm 0}table{border-collapse:collapse;width:100%}"
    "th,td{border-bottom:1px solid #bbb;padding:.6mm 2mm .6mm 0;text-align:left;vertical-align:top}"
    "td.n{text-align:right;white-space:nowrap}td.box{width:5mm;border:1px solid #111}td.box+td{padding-left:2mm}"
    ".buy{columns:2;column-gap:8mm}.label{border:1px dashed #111;padding:2mm;margin-top:2mm;page-break-inside:avoid}"
    ".warn{font-weight:bold}ul{margin:0;padding-left:5mm}.small{font-size:7.5pt}";

std::string cell(const std::string& text, const char* kind = "") {
    return "<td" + std::string(kind) + ">" + base::xml_escaped(text) + "</td>";
}

std::string rounding_line(const job::PlanStep& s, schedule::UnitSystem units) {
    const auto text = rounding_text(s, units);
    return text.empty() ? "" : "<br><span class=\"small\">" + base::xml_escaped(text) + "</span>";
}

std::string steps_table(const job::Plan& p) {
    const auto units = p.request.units;
    std::string out =
        "<h2>Mix</h2><table><tr><th>step</th><th>what</th><th>how</th><th>wet / dry, one coat</th><th>in the "
        "pot</th></tr>";
    for (std::size_t i = 0; i < p.steps.size(); ++i) {
        const auto& s = p.steps[i];
        std::string how =
            std::to_string(s.coats) + " x " + std::string(material::method_words[static_cast<std::size_t>(s.method)]);
        if (s.sheen_gu60) how += ", " + base::at_most(*s.sheen_gu60, 0) + " GU at 60°";
        out += "<tr>" + cell(std::to_string(i + 1)) + cell(s.action) + cell(how) +
               cell(printed(s.wet_um, Dimension::film, units) + " / " + printed(s.dry_um, Dimension::film, units)) +
               "<td>" +
               base::xml_escaped(printed(s.pot.measured_ml, Dimension::volume, units) + ": " +
                                 measures_text(s.pot, units)) +
               rounding_line(s, units) + "</td></tr>";
    }
    return out + "</table>";
}

std::string time_table(const job::Plan& p) {
    std::string out =
        "<h2>Do</h2><table><tr><th></th><th>when</th><th>coat</th><th>first</th><th>wipe off after</th><th>next "
        "coat</th></tr>";
    for (std::size_t i = 0; i < p.timeline.coats.size(); ++i) {
        const auto& c = p.timeline.coats[i];
        out += "<tr><td class=\"box\"></td>" + cell(p.when[i]) +
               cell("step " + std::to_string(c.step + 1) + ", coat " + std::to_string(c.coat)) + cell(c.before) +
               cell(c.wipe_min > 0 ? base::at_most(c.wipe_min, 0) + " min" : "") +
               cell("after " + base::at_most(c.earliest_h, 1) + " h" +
                    (c.latest_h ? ", before " + base::at_most(*c.latest_h, 0) + " h or scuffed" : "")) +
               "</tr>";
    }
    out +=
        "</table><p>Dry: " + base::xml_escaped(p.done) + " (" + base::at_most(p.timeline.elapsed_h / 24, 1) + " days)";
    if (p.timeline.cured_days) out += "; hard about " + base::at_most(*p.timeline.cured_days, 0) + " days later";
    return out + ".</p>";
}

std::string buy_table(const job::Plan& p) {
    std::string out = "<h2>Buy</h2><div class=\"buy\"><table>";
    for (const auto& b : p.purchases)
        out += "<tr>" + cell(b.name) + cell(purchase_text(b, p.request.units), " class=\"n\"") +
               cell(b.packs > 0 ? std::to_string(b.packs) + " pack" + (b.packs > 1 ? "s" : "") + ", " +
                                      base::at_most(b.cost, 2) + " " + p.currency
                                : "") +
               "</tr>";
    out += "</table></div>";
    if (const auto text = solvent_text(p); !text.empty())
        out += "<p class=\"small\">" + base::xml_escaped(text) + ".</p>";
    if (p.cost > 0)
        out += "<p>Together " + base::at_most(p.cost, 2) + " " + base::xml_escaped(p.currency) +
               ", as far as prices are given.</p>";
    return out;
}

std::string notes_part(const job::Plan& p) {
    if (p.job_notes.empty()) return "";
    std::string lines;
    for (const auto& line : base::split(p.job_notes, '\n'))
        lines += (lines.empty() ? "" : "<br>") + base::xml_escaped(line);
    return "<p class=\"small\"><b>Notes:</b> " + lines + "</p>\n";
}

std::string findings_list(const job::Plan& p) {
    if (p.findings.empty() && p.notes.empty()) return "";
    std::string out = "<h2>Mind</h2><ul>";
    for (const auto& f : p.findings) {
        out += fmt::format("<li><span class=\"warn\">{}, step {}:</span> {} ({}).", schedule::word(f.severity),
                           f.step + 1, base::xml_escaped(f.what + ". " + f.why), material::word(f.sure));
        for (std::size_t i = 0; i < f.mends.size(); ++i)
            out += (i == 0 ? " Mend: " : "; or ") + base::xml_escaped(f.mends[i].text);
        out += "</li>";
    }
    for (const auto& n : p.notes) out += "<li>" + base::xml_escaped(n) + "</li>";
    return out + "</ul>";
}

}  // namespace

std::string plan_card(const job::Plan& p, const layout::Paper paper) {
    const auto& air = p.request.air;
    const auto units = p.request.units;
    const std::string page = "@page{size:" + std::string(layout::size_of(paper).css) + ";margin:10mm}";
    std::string out = fmt::format(
        "{}<body>\n<h1>{}</h1><p>{} · {} · {} · {} · {} % humidity</p>\n",
        format::html_head(p.title + ": " + p.finish, page + style), base::xml_escaped(p.title),
        base::xml_escaped(p.wood), base::xml_escaped(p.finish), printed(p.request.area_m2, Dimension::area, units),
        printed(air.celsius, Dimension::temperature, units), base::at_most(air.humidity_percent, 0));
    out += notes_part(p);
    out += steps_table(p) + "\n" + time_table(p) + "\n" + buy_table(p) + "\n" + findings_list(p) +
           "\n<h2>Cautions</h2><ul class=\"small\">";
    for (const auto& c : job::all_cautions(p.cautions)) out += "<li>" + base::xml_escaped(c.text) + "</li>";
    out += "</ul>\n<div class=\"label\">";
    for (const auto& line : p.label) out += base::xml_escaped(line) + "<br>";
    return out + "</div>\n</body></html>\n";
}

}  // namespace foretone::report
