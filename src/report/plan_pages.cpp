#include "foretone/report/plan_pages.hpp"

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/report/plan_words.hpp"
#include "foretone/schedule/printed.hpp"

namespace foretone::report {
namespace {
using schedule::Dimension;
using schedule::printed;

layout::CardPart mix_part(const job::Plan& p) {
    const auto units = p.request.units;
    layout::CardPart part{
        "Mix", {{1, 7, 4, 4, 9}, {{"step", "what", "how", "wet / dry", "in the pot"}}, false}, {}, false};
    for (std::size_t i = 0; i < p.steps.size(); ++i) {
        const auto& s = p.steps[i];
        std::string how =
            std::to_string(s.coats) + " × " + std::string(material::method_words[static_cast<std::size_t>(s.method)]);
        if (s.sheen_gu60) how += ", " + base::at_most(*s.sheen_gu60, 0) + " GU at 60°";
        const auto rounding = rounding_text(s, units);
        part.table.rows.push_back(
            {std::to_string(i + 1), s.action, how,
             printed(s.wet_um, Dimension::film, units) + " / " + printed(s.dry_um, Dimension::film, units),
             printed(s.pot.measured_ml, Dimension::volume, units) + ": " + measures_text(s.pot, units) +
                 (rounding.empty() ? "" : ". " + rounding)});
    }
    return part;
}

layout::CardPart do_part(const job::Plan& p) {
    layout::CardPart part{
        "Do", {{5, 4, 6, 4, 6}, {{"when", "coat", "first", "wipe off after", "next coat"}}, true}, {}, false};
    for (std::size_t i = 0; i < p.timeline.coats.size(); ++i) {
        const auto& c = p.timeline.coats[i];
        part.table.rows.push_back(
            {p.when[i], "step " + std::to_string(c.step + 1) + ", coat " + std::to_string(c.coat), c.before,
             c.wipe_min > 0 ? base::at_most(c.wipe_min, 0) + " min" : "",
             "after " + base::at_most(c.earliest_h, 1) + " h" +
                 (c.latest_h ? ", before " + base::at_most(*c.latest_h, 0) + " h or scuffed" : "")});
    }
    std::string dry = "Dry: " + p.done + " (" + base::at_most(p.timeline.elapsed_h / 24, 1) + " days)";
    if (p.timeline.cured_days) dry += "; hard about " + base::at_most(*p.timeline.cured_days, 0) + " days later";
    part.lines.push_back(dry + ".");
    return part;
}

layout::CardPart buy_part(const job::Plan& p) {
    layout::CardPart part{"Buy", {{8, 4, 6}, {{"what", "how much", "packs"}}, false}, {}, false};
    for (const auto& b : p.purchases)
        part.table.rows.push_back({b.name, purchase_text(b, p.request.units),
                                   b.packs > 0 ? std::to_string(b.packs) + " pack" + (b.packs > 1 ? "s" : "") + ", " +
                                                     base::at_most(b.cost, 2) + " " + p.currency
                                               : ""});
    if (const auto text = solvent_text(p); !text.empty()) part.lines.push_back(text + ".");
    if (p.cost > 0)
        part.lines.push_back("Together " + base::at_most(p.cost, 2) + " " + p.currency +
                             ", as far as prices are given.");
    return part;
}

layout::CardPart mind_part(const job::Plan& p) {
    layout::CardPart part{"Mind", {}, {}, false};
    for (const auto& f : p.findings) {
        std::string text = std::string(schedule::word(f.severity)) + ", step " + std::to_string(f.step + 1) + ": " +
                           f.what + ". " + f.why + " (" + std::string(material::word(f.sure)) + ").";
        for (std::size_t i = 0; i < f.mends.size(); ++i) text += (i == 0 ? " Mend: " : "; or ") + f.mends[i].text;
        part.lines.push_back(text);
    }
    part.lines.insert(part.lines.end(), p.notes.begin(), p.notes.end());
    return part;
}

layout::Sticker jar_sticker(const job::Plan& p, std::size_t step) {
    const auto& s = p.steps[step];
    const auto units = p.request.units;
    layout::Sticker out{
        p.code,
        "Step " + std::to_string(step + 1),
        {s.action, printed(s.pot.measured_ml, Dimension::volume, units) + ": " + measures_text(s.pot, units)},
        {"mixed ____________ by ______ use by ____________"},
        p.title};
    if (s.pot_life_here_h)
        out.to_write.push_back("keeps " + base::significant(*s.pot_life_here_h, 2) + " h once mixed");
    out.to_write.emplace_back("Dangers: as on the cans' labels");
    return out;
}

layout::Sticker board_sticker(const job::Plan& p) {
    layout::Sticker out{p.code, p.finish, {p.title + " · " + p.wood}, {"board ______ date ____________ by ______"}};
    for (std::size_t i = 3; i + 1 < p.label.size() && i < 7; ++i) out.lines.push_back(p.label[i]);
    return out;
}

}  // namespace

layout::Card plan_card_page(const job::Plan& p) {
    const auto units = p.request.units;
    layout::Card card;
    card.title = p.title;
    card.facts = p.wood + " · " + p.finish + " · " + printed(p.request.area_m2, Dimension::area, units) + " · " +
                 printed(p.request.air.celsius, Dimension::temperature, units) + " · " +
                 base::at_most(p.request.air.humidity_percent, 0) + " % humidity";
    card.parts = {mix_part(p), do_part(p), buy_part(p)};
    if (!p.findings.empty() || !p.notes.empty()) card.parts.push_back(mind_part(p));
    if (!p.job_notes.empty()) card.parts.push_back({"Notes", {}, base::split(p.job_notes, '\n'), true});
    layout::CardPart care{"Cautions", {}, {}, true};
    for (const auto& c : job::all_cautions(p.cautions)) care.lines.push_back(c.text);
    card.parts.push_back(care);
    card.label = p.label;
    return card;
}

std::vector<std::vector<layout::Sticker>> plan_stickers(const job::Plan& p, layout::Paper paper) {
    std::vector<layout::Sticker> all;
    for (std::size_t i = 0; i < p.steps.size(); ++i)
        if (p.steps[i].pot.measures.size() > 1) all.push_back(jar_sticker(p, i));
    const auto room = layout::sticker_room(paper).on_a_page();
    do all.push_back(board_sticker(p));  // at least one board, and the last page is full
    while (all.size() % room != 0);
    std::vector<std::vector<layout::Sticker>> pages;
    for (auto first = all.begin(); first != all.end(); first += static_cast<std::ptrdiff_t>(room))
        pages.emplace_back(first, first + static_cast<std::ptrdiff_t>(room));
    return pages;
}

}  // namespace foretone::report
