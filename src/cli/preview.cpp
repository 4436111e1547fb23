#include "foretone/job/preview.hpp"

#include <algorithm>
#include <iostream>
#include <memory>

#include "common.hpp"
#include "foretone/appearance/uneven.hpp"
#include "foretone/report/json.hpp"
#include "foretone/report/sureness.hpp"
#include "foretone/scene/output.hpp"
#include "aged.hpp"
#include "findings.hpp"
#include "overview.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/job/end_grain.hpp"
#include "pictures.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {

struct PreviewOptions : Common {
    std::vector<std::string> scenes, woods;
    bool no_pictures = false;
    bool end_grain = false;
};

std::string footing_text(const job::PublishedFooting& footing) {
    if (footing.rows < 0) return "";
    if (footing.without.empty())
        return "published boards of this kind: " + std::to_string(footing.rows) + " (foretone verify)\n";
    std::string kinds;
    for (const auto& kind : footing.without) kinds += (kinds.empty() ? "" : ", ") + kind;
    return "no published board of this kind was found: " + kinds + "; the spread is wider for it\n";
}

void print_finish(const job::SeenFinish& finish, const scene::Look& look, schedule::UnitSystem units) {
    std::cout << "\n" << finish.name << "\n";
    std::vector<std::vector<std::string>> rows(1);
    rows[0] = {"stage", "what", film_head(units), "evenness", "dE00"};
    std::vector<bool> numeric = {false, false, true, false, true};
    const Chips how = chips();
    for (const auto& light : look.lights) {
        rows[0].push_back("");
        rows[0].push_back(light + "  L*     a*     b*");
        rows[0].push_back("hex");
        rows[0].push_back("±dE00");
        numeric.insert(numeric.end(), {false, true, false, true});
    }
    for (const auto& s : finish.stages) {
        std::string what = s.stage.after_step == 0 ? "" : std::to_string(s.stage.after_step) + " " + s.stage.action;
        if (s.stage.coat > 0) what += ", coat " + std::to_string(s.stage.coat);
        std::vector<std::string> row = {std::string(appearance::word(s.stage.kind)),
                                        columns_of(what) > 44 ? left(what, 44) : what,
                                        film_cell(s.stage.film_um, units),
                                        std::string(appearance::uneven_word(s.uneven_de00)), fixed(s.uneven_de00, 1)};
        for (const auto& c : s.colors) {
            row.push_back(chip(c.screen.code, how));
            row.push_back(lab_text(c.lab));
            row.push_back(c.screen.hex() + (c.screen.in_gamut ? "" : "*"));
            row.push_back(fixed(c.spread_de00, 1));
        }
        rows.push_back(std::move(row));
    }
    if (finish.end_grain) {
        std::vector<std::string> row = {"end grain", "the ends of the finished board", "", "", ""};
        for (const auto& c : finish.end_grain->colors) {
            row.push_back(chip(c.screen.code, how));
            row.push_back(lab_text(c.lab));
            row.push_back(c.screen.hex() + (c.screen.in_gamut ? "" : "*"));
            row.push_back("");
        }
        rows.push_back(std::move(row));
    }
    std::cout << table(rows, numeric);
    std::cout << "rests on: " << rests_on(finish.spread) << "\n" << footing_text(finish.footing);
    std::cout << "least sure of:";
    for (std::size_t i = 0; i < finish.spread.contributions.size() && i < 3; ++i)
        std::cout << (i ? "; " : " ") << finish.spread.contributions[i].what << " (dE00 "
                  << fixed(finish.spread.contributions[i].de00, 1) << ")";
    std::cout << "\n";
    for (std::size_t l = 0; l < finish.stages.back().colors.size(); ++l)
        std::cout << "how sure: " << report::sureness_text(finish, l) << "\n";
    std::cout << "to be surer: " << report::measure_next_text(finish.readings, finish.next) << "\n";
    for (const auto& c : finish.stages.back().colors)
        std::cout << "may turn out, " << c.light << ": " << region_text(c.region) << "; 90 % of boards within dE00 "
                  << fixed(c.region.de00_90, 1) << "\n";
    std::cout << findings_text(finish.findings) << aged_text(finish, look);
}

// Which finish is nearest to the reference under its worst light, and whether another is as near as can be told.
std::string closest_text(const job::Preview& p) {
    struct Off {
        std::string name;
        double de00 = 0, spread = 0;
    };
    std::vector<Off> all;
    for (const auto& d : p.differences) {
        if (d.from != p.reference && d.to != p.reference) continue;
        const auto& name = d.from == p.reference ? d.to : d.from;
        auto at = std::find_if(all.begin(), all.end(), [&](const Off& o) { return o.name == name; });
        if (at == all.end()) at = all.insert(all.end(), {name, 0, 0});
        if (d.de00 >= at->de00) at->de00 = d.de00, at->spread = d.spread.spread_de00;
    }
    if (all.size() < 2) return "";
    std::stable_sort(all.begin(), all.end(), [](const Off& a, const Off& b) { return a.de00 < b.de00; });
    std::string out = "closest to \"" + p.reference + "\": " + all[0].name + " (dE00 " + fixed(all[0].de00, 1) + ")";
    if (all[1].de00 - all[0].de00 < std::max(all[0].spread, all[1].spread))
        out += "; " + all[1].name + " (" + fixed(all[1].de00, 1) + ") is as near as can be told before a board is made";
    return out + "\n";
}

void print_differences(const job::Preview& p) {
    if (p.finishes.size() < 2) return;
    std::cout << "\nfinished, against \"" << p.reference << "\"\n";
    std::vector<std::vector<std::string>> rows(1);
    rows[0] = {"finish"};
    std::vector<bool> numeric = {false};
    for (const auto& light : p.scene.look.lights) {
        rows[0].insert(rows[0].end(), {light + " dE00", "±", "seen", "it is"});
        numeric.insert(numeric.end(), {true, true, true, false});
    }
    rows[0].push_back("worst");
    numeric.push_back(true);
    for (const auto& f : p.finishes) {
        if (f.name == p.reference) continue;
        std::vector<std::string> row = {f.name};
        double worst = 0;
        for (const auto& light : p.scene.look.lights)
            for (const auto& d : p.differences) {
                const bool onward = d.from == p.reference && d.to == f.name;
                if (d.light != light || !(onward || (d.from == f.name && d.to == p.reference))) continue;
                row.push_back(fixed(d.de00, 1));
                row.push_back(fixed(d.spread.spread_de00, 1));
                row.push_back(fixed(100 * d.chance_seen, 0) + " %");
                row.push_back(onward ? d.words : d.reverse_words);
                worst = std::max(worst, d.de00);
            }
        row.push_back(fixed(worst, 1));
        rows.push_back(std::move(row));
    }
    std::cout << table(rows, numeric)
              << "±: of the difference, on one board; seen: the chance that it is above dE00 2 there\n"
              << closest_text(p);
}

// Lab is told relative to each light's own white; what changes from light to light is told as an adapted eye sees it.
void print_across(const job::Preview& p) {
    if (p.across.empty()) return;
    std::cout << "\nfrom light to light, to an eye that has adapted to each\n";
    std::vector<std::vector<std::string>> rows = {{"finish", "under", "beside", "dE", "looks"}};
    for (const auto& a : p.across) rows.push_back({a.finish, a.to, a.from, fixed(a.de_ucs, 1), a.words});
    std::cout << table(rows, {false, false, false, true, false});
}

// Earlier readings of a finish beside today's prediction.
void print_earlier(const std::vector<job::EarlierReading>& earlier) {
    if (earlier.empty()) return;
    std::vector<std::vector<std::string>> rows = {
        {"read before", "board", "light", "read  L*     a*     b*", "predicted now", "dE00", ""}};
    for (const auto& e : earlier)
        rows.push_back({e.date, e.sample, e.light, lab_text(e.read), lab_text(e.now), fixed(e.de00, 1),
                        e.same_recipe ? "same recipe" : "another recipe"});
    std::cout << table(rows, {false, false, false, true, true, true, false});
}

void print(const job::Preview& p, const scene::Notebook& notebook, schedule::UnitSystem units) {
    const auto& look = p.scene.look;
    std::cout << p.scene.title << "\n"
              << p.wood_name << " · " << scene::geometry_text(look.geometry) << " · observer " << look.observer
              << " · solver " << p.solver << "\n";
    for (std::size_t i = 0; i < p.finishes.size(); ++i) {
        print_finish(p.finishes[i], look, units);
        print_earlier(job::earlier_readings(notebook, p, i));
    }
    print_differences(p);
    print_across(p);
    if (!look.after.empty()) std::cout << "\n" << ageing_note(job::age_class(p.scene)) << "\n";
}

// A notebook that cannot be read stops no preview: what is wrong with it goes to the warnings.
scene::Notebook notebook_of(const std::string& scene, std::vector<scene::Problem>& warnings) {
    try {
        auto book = scene::read_notebook(scene);
        warnings.insert(warnings.end(), book.notes.begin(), book.notes.end());
        return book;
    } catch (const scene::InputError& e) {
        for (auto problem : e.problems) {
            problem.text += "; the preview goes on without the job notebook";
            warnings.push_back(std::move(problem));
        }
        return {};
    }
}

// What many boards' picture is called after: the one scene, or the folder; "scenes" where there are several.
std::string stem_of_many(const std::vector<std::string>& given) {
    if (given.size() != 1) return "scenes";
    const auto path = std::filesystem::absolute(given.front()).lexically_normal();
    return scene::file_stem(path.has_filename() ? path : path.parent_path());
}

int run_preview(const PreviewOptions& options) {
    const auto given = scene_files(options.scenes);
    std::error_code error;
    const bool folder = std::filesystem::is_directory(options.scenes.front(), error);
    if (given.size() > 1 || folder || !options.woods.empty()) {
        if (options.end_grain)
            throw UsageError("option-alone", {"--end-grain"},
                             "the ends of boards are shown of one scene on its own wood");
        return run_overview(options, given, stem_of_many(options.scenes), options.woods, !options.no_pictures);
    }
    const auto lib = library(options);
    const auto scene = scene::read_scene(given.front(), lib);
    auto p = job::preview(scene, lib, appearance::two_flux_solver());
    if (options.end_grain) job::see_end_grain(p, lib, appearance::two_flux_solver());
    const auto notebook = notebook_of(given.front().string(), p.warnings);

    std::vector<scene::OutputFile> files;
    if (!options.no_pictures) files = pictures(p, options.out);
    const std::string json = options.json.empty() ? "" : report::preview_json(p, notebook);
    std::vector<std::filesystem::path> opened;
    for (const auto& f : files) opened.push_back(f.path);
    deliver(options, std::move(files), json);

    auto warnings = p.warnings;
    for (const auto& f : p.finishes) warnings.insert(warnings.end(), f.warnings.begin(), f.warnings.end());
    print_warnings(options, warnings);
    if (options.speaks()) {
        print(p, notebook, units_for(options, scene));
        std::cout
            << "\n± is one standard deviation. Screens and prints are not the sample: make one board before the job.\n";
        if (!opened.empty()) {
            std::cout << "open:";
            for (std::size_t i = opened.size(); i-- > 0;) std::cout << "\n  " << opened[i].string();
            std::cout << "\n";
        }
    }
    print_cautions(options, job::cautions_of(scene));
    return 0;
}

}  // namespace

void add_preview(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<PreviewOptions>();
    auto* verb = app.add_subcommand("preview", "Every stage of every finish of a scene: table, colors, swatches");
    verb->add_option("SCENE", options->scenes,
                     "Scene file (TOML); of several, or of a folder of them, the finished boards in one table")
        ->required();
    verb->add_option("--wood,--woods", options->woods,
                     "A wood of the library, or all: the finished boards on it in one table; may be given more than "
                     "once")
        ->type_name("ID")
        ->allow_extra_args(false);
    verb->add_flag("--end-grain", options->end_grain, "Add the ends of each finished board");
    verb->add_flag("--no-pictures", options->no_pictures, "Work out the colors only");
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_preview(*options); }; });
}

}  // namespace foretone::cli
