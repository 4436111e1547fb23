#include "foretone/job/plan.hpp"
#include "foretone/base/number.hpp"
#include "foretone/job/plan_rounding.hpp"
#include "foretone/report/plan_calendar.hpp"
#include "foretone/report/plan_card.hpp"
#include "foretone/print/pdf.hpp"
#include "foretone/report/plan_labels.hpp"
#include "foretone/report/plan_pages.hpp"
#include "foretone/report/plan_words.hpp"
#include "foretone/report/json.hpp"

#include <algorithm>
#include <iostream>
#include <memory>

#include "findings.hpp"
#include "foretone/schedule/printed.hpp"
#include "foretone/schedule/units.hpp"
#include "foretone/scene/output.hpp"
#include "terminal.hpp"
#include "tools.hpp"

namespace foretone::cli {
namespace {
using schedule::Dimension;

struct PlanOptions : Common {
    std::string scene, finish, area, temp = "20C", humidity = "50%", start, scale, syringe, paper, hours;
    bool weekdays = false, labels = false, pdf = false;
};

std::string first_finish(const scene::Scene& s) {
    return s.target && !s.target->finish.empty() ? s.target->finish : s.finishes.front().name;
}

job::PlanRequest request_of(const PlanOptions& o, const scene::Scene& s) {
    job::PlanRequest r;
    const std::string wanted = o.finish.empty() ? first_finish(s) : o.finish;
    std::vector<std::string> names;
    for (const auto& f : s.finishes) names.push_back(f.name);
    const auto at = std::find(names.begin(), names.end(), wanted);
    if (at == names.end())
        throw scene::InputError("finish-unknown", {o.finish.empty() ? s.file : "--finish"},
                                "there is no finish \"" + wanted + "\"." + scene::suggestion(wanted, names));
    r.finish = static_cast<std::size_t>(at - names.begin());
    r.area_m2 = at_option("--area", [&] { return schedule::amount_in(o.area, Dimension::area, 1e-4, 1e5); });
    r.air.celsius = at_option("--temp", [&] { return schedule::read_amount(o.temp, Dimension::temperature).stored(); });
    // "50" and "50%" are the same humidity.
    const bool bare = o.humidity.find_first_not_of("+-.0123456789 ") == std::string::npos;
    r.air.humidity_percent = at_option("--humidity", [&] {
        return schedule::read_amount(bare ? o.humidity + "%" : o.humidity, Dimension::share).stored();
    });
    at_option("--temp, --humidity", [&] { return schedule::check(r.air); });
    r.units = units_for(o, s, o.area);
    r.tools = tools_of(o.scale, o.syringe, r.units);
    r.start = o.start;
    if (!o.hours.empty()) r.hours = job::read_hours(o.hours);
    r.hours.weekends = !o.weekdays;
    if (!o.start.empty()) at_option("--start", [&] { return job::moment(o.start, 0); });
    return r;
}

void print_steps(const job::Plan& p) {
    const auto units = p.request.units;
    const auto in = [&](double v, Dimension d) { return schedule::printed(v, d, units); };
    std::vector<std::vector<std::string>> rows = {{"step", "what", "how", "wet", "dry", "covers", "loss", "mix"}};
    for (std::size_t i = 0; i < p.steps.size(); ++i) {
        const auto& s = p.steps[i];
        rows.push_back(
            {std::to_string(i + 1), s.action,
             std::to_string(s.coats) + " x " + std::string(material::method_words[static_cast<std::size_t>(s.method)]),
             in(s.wet_um, Dimension::film), in(s.dry_um, Dimension::film), in(s.coverage_m2_per_l, Dimension::coverage),
             fixed(100 * s.loss, 0) + " %", in(s.pot.measured_ml, Dimension::volume)});
    }
    std::cout << table(rows, {true, false, false, true, true, true, true, true}) << "\nmix\n";
    for (std::size_t i = 0; i < p.steps.size(); ++i) {
        std::cout << "  step " << i + 1 << ": " << report::measures_text(p.steps[i].pot, units) << "\n";
        if (const auto text = report::rounding_text(p.steps[i], units); !text.empty())
            std::cout << "    " << text << "\n";
    }
}

// Where each coat goes, on the board's mean: in grams a square metre, or ounces a hundred square feet.
void print_accounts(const job::Plan& p) {
    const bool us = p.request.units == schedule::UnitSystem::us;
    const double g_per_m2 = us ? schedule::g_per_oz / (100 * schedule::m2_per_ft2) : 1;
    std::vector<std::vector<std::string>> rows = {
        {"step", "coat", us ? "oz/100 ft² of" : "g/m2 of", "laid", "in", "on", "wiped", "gone"}};
    for (std::size_t i = 0; i < p.steps.size(); ++i)
        for (std::size_t c = 0; c < p.steps[i].accounts.size(); ++c) {
            const auto& a = p.steps[i].accounts[c];
            const std::pair<const char*, const schedule::Fate*> parts[] = {
                {"liquid", &a.liquid}, {"binder", &a.binder}, {"dye", &a.dye}, {"pigment", &a.pigment}};
            for (const auto& [name, f] : parts) {
                if (!(f->laid > 0)) continue;
                const auto cell = [&](double g) { return fixed(g / g_per_m2, f->laid / g_per_m2 < 2 ? 3 : 1); };
                rows.push_back({std::to_string(i + 1), std::to_string(c + 1), name, cell(f->laid), cell(f->in),
                                cell(f->on), cell(f->wiped), cell(f->gone)});
            }
        }
    std::cout << "\nwhere it goes\n" << table(rows, {true, true, false, true, true, true, true, true});
}

void print_times(const job::Plan& p) {
    std::vector<std::vector<std::string>> rows = {{"when", "coat", "first", "wipe", "next from", "until"}};
    for (std::size_t i = 0; i < p.timeline.coats.size(); ++i) {
        const auto& c = p.timeline.coats[i];
        rows.push_back({p.when[i], "step " + std::to_string(c.step + 1) + " coat " + std::to_string(c.coat), c.before,
                        c.wipe_min > 0 ? fixed(c.wipe_min, 0) + " min" : "", fixed(c.earliest_h, 1) + " h",
                        c.latest_h ? fixed(*c.latest_h, 0) + " h" : ""});
    }
    std::cout << "\n"
              << table(rows, {false, false, false, true, true, true}) << "dry: " << p.done << " ("
              << fixed(p.timeline.elapsed_h / 24, 1) << " days)";
    if (p.timeline.cured_days) std::cout << "; hard about " << fixed(*p.timeline.cured_days, 0) << " days later";
    std::cout << "\n";
}

void print(const job::Plan& p) {
    std::cout << p.title << "\n"
              << p.wood << " · " << p.finish << " · "
              << schedule::printed(p.request.area_m2, Dimension::area, p.request.units) << " · "
              << schedule::printed(p.request.air.celsius, Dimension::temperature, p.request.units) << " · "
              << base::at_most(p.request.air.humidity_percent, 0) << " % humidity\n\n";
    if (!p.job_notes.empty()) std::cout << p.job_notes << "\n\n";
    print_steps(p);
    print_accounts(p);
    print_times(p);
    std::cout << "\nbuy\n";
    for (const auto& b : p.purchases)
        std::cout << "  " << b.name << ": " << report::purchase_text(b, p.request.units)
                  << (b.packs > 0 ? " = " + std::to_string(b.packs) + " pack(s), " + fixed(b.cost, 2) + " " + p.currency
                                  : "")
                  << "\n";
    if (p.cost > 0)
        std::cout << "  together " << fixed(p.cost, 2) << " " << p.currency << ", as far as prices are given\n";
    if (const auto text = report::solvent_text(p); !text.empty()) std::cout << "  " << text << "\n";
    std::cout << findings_text(p.findings);
    for (const auto& n : p.notes) std::cout << "note: " << n << "\n";
    std::cout << "\nlabel for the back of the board\n";
    for (const auto& line : p.label) std::cout << "  " << line << "\n";
}

// The same beside the HTML files, ready for a printer.
void add_pdfs(const PlanOptions& o, const job::Plan& p, layout::Paper paper, std::filesystem::path card,
              std::filesystem::path labels, std::vector<scene::OutputFile>& files, std::vector<std::string>& written) {
    const auto size = layout::size_of(paper);
    const auto add = [&](std::filesystem::path& file, const std::vector<layout::Sheet>& pages, const char* what) {
        file.replace_extension(".pdf");
        files.push_back({file, print::sheets_pdf(pages, {size.width_mm, size.height_mm}, p.title + ": " + what)});
        written.push_back(file.string());
    };
    add(card, layout::lay_out(report::plan_card_page(p), paper), "bench card");
    if (!o.labels) return;
    std::vector<layout::Sheet> pages;
    for (const auto& page : report::plan_stickers(p, paper)) pages.push_back(layout::lay_out(page, paper));
    add(labels, pages, "labels");
}

int run_plan(const PlanOptions& o) {
    const auto lib = library(o);
    const auto s = scene::read_scene(o.scene, lib);
    const auto request = request_of(o, s);
    auto p = job::plan(s, request);
    job::work_out_rounding(p, s, lib, appearance::two_flux_solver());
    const auto card = std::filesystem::path(o.out) /
                      (scene::file_stem(o.scene) + "-" + scene::finish_words(s).at(p.finish) + "-card.html");
    std::vector<scene::OutputFile> files = {
        scene::OutputFile::text(card, report::plan_card(p, paper_for(o.paper, request.units)))};
    auto calendar = card;
    calendar.replace_extension(".ics");
    if (!o.start.empty()) files.push_back(scene::OutputFile::text(calendar, report::plan_calendar(p)));
    auto labels = card;
    labels.replace_filename(scene::file_stem(o.scene) + "-" + scene::finish_words(s).at(p.finish) + "-labels.html");
    if (o.labels)
        files.push_back(scene::OutputFile::text(labels, report::plan_labels(p, paper_for(o.paper, request.units))));
    std::vector<std::string> pdfs;
    if (o.pdf) add_pdfs(o, p, paper_for(o.paper, request.units), card, labels, files, pdfs);
    deliver(o, std::move(files), report::plan_json(p));
    print_warnings(o, s.warnings);
    if (o.speaks()) {
        print(p);
        std::cout << "\nopen:\n  " << card.string() << "\n";
        if (!o.start.empty()) std::cout << "  " << calendar.string() << " (a calendar's)\n";
        if (o.labels) std::cout << "  " << labels.string() << " (stickers: print at 100 %)\n";
        for (const auto& file : pdfs) std::cout << "  " << file << "\n";
    }
    print_cautions(o, p.cautions);
    return 0;
}

}  // namespace

void add_plan(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<PlanOptions>();
    auto* verb =
        app.add_subcommand("plan", "The bench schedule of a finish: amounts, order, waits, cautions; a card to print");
    auto& o = *options;
    verb->add_option("SCENE", o.scene, "Scene file (TOML)")->required();
    verb->add_option("--area", o.area, "Area to be finished, as '2.5m2' or '27ft2'")->required();
    verb->add_option("--finish", o.finish, "Name of the finish (default: the target's, or the first)");
    verb->add_option("--temp", o.temp, "Temperature of the shop, as '20C' or '68F' (default 20C)");
    verb->add_option("--humidity", o.humidity, "Relative humidity, percent (default 50)");
    verb->add_option("--start", o.start, "When the first coat goes on, as '2026-03-02 08:00' or '3/2/2026 8:00 AM'");
    verb->add_option("--hours", o.hours, "When the shop is open, as '8-17' or '8am-5pm' (default: day and night)");
    verb->add_flag("--weekdays", o.weekdays, "No coat goes on on a Saturday or Sunday");
    verb->add_flag("--labels", o.labels, "Also a sheet of stickers for jars and the backs of boards");
    verb->add_flag("--pdf", o.pdf, "Write the card, and the stickers, as PDF files too");
    verb->add_option("--paper", o.paper,
                     "Of the card and the stickers: a4 or letter (default: letter where units are US)")
        ->type_name("PAPER:{a4,letter}");
    add_tools(*verb, o.scale, o.syringe);
    add_common(*verb, *options);
    verb->callback(
        [options, &chosen] { chosen = [options] { return with_place("plan", [&] { return run_plan(*options); }); }; });
}

}  // namespace foretone::cli
