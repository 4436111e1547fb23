#include "foretone/job/aged.hpp"
#include "foretone/job/coats.hpp"
#include "foretone/report/json.hpp"

#include <iostream>
#include <memory>

#include "common.hpp"
#include "foretone/layout/coats_chart.hpp"
#include "foretone/format/sheet_png.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/search/words.hpp"
#include "pictures.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {

struct CoatsOptions : Common {
    std::string scene;
    job::CoatsQuestion question;
    bool no_pictures = false;
};

std::string coats_text(int n) { return n == 0 ? "none" : std::to_string(n) + (n == 1 ? " coat" : " coats"); }

const appearance::Spread& weakest(const job::Coats& c) {
    const auto* out = &c.counts.front().rests_on;
    for (const auto& r : c.counts)
        if (r.rests_on.rests_on > out->rests_on) out = &r.rests_on;
    return *out;
}

layout::CoatsChart chart(const scene::Scene& scene, const job::Coats& c) {
    layout::CoatsChart out;
    out.scene = scene.title;
    out.finish = c.finish;
    out.step = c.what;
    out.wood = scene.materials.at(scene.wood).name;
    out.geometry = scene::geometry_text(scene.look.geometry);
    out.observer = observer_text(c.target ? c.target->observer : scene.look.observer);
    out.lights = c.lights;
    if (c.target) {
        out.target = fields(c.target->colors);
        out.target_name = c.target->name;
    }
    for (const auto& r : c.counts) {
        layout::CoatsColumn column{coats_text(r.coats), "", {}, r.added};
        if (c.verdict.nearest == r.coats) column.remark = "nearest the target";
        if (c.verdict.settled == r.coats)
            column.remark += (column.remark.empty() ? "more, up to " : "; more, up to ") +
                             std::to_string(c.counts.back().coats) + ", is not seen";
        for (std::size_t l = 0; l < r.colors.size(); ++l)
            column.by_light.push_back({field(r.colors[l]), c.target ? r.to_target[l] : 0, c.target ? r.words[l] : ""});
        out.columns.push_back(std::move(column));
    }
    out.rests_on = rests_on(weakest(c));
    return out;
}

void print_table(const job::Coats& c, schedule::UnitSystem units) {
    const Chips how = chips();
    std::vector<std::vector<std::string>> rows = {{"coats", film_head(units)}};
    std::vector<bool> numeric = {true, true};
    for (const auto& light : c.lights) {
        rows[0].insert(rows[0].end(), {"", light + "  L*     a*     b*", "±dE00", "coat adds"});
        numeric.insert(numeric.end(), {false, true, true, true});
        if (!c.target) continue;
        rows[0].emplace_back("to target");
        numeric.push_back(true);
    }
    const bool several = c.target && c.lights.size() > 1;
    if (several) {
        rows[0].insert(rows[0].end(), {"worst", "metamerism"});
        numeric.insert(numeric.end(), {true, true});
    }
    if (c.target) {
        rows[0].insert(rows[0].end(), {"seen", "two boards", several ? "it is, at worst" : "it is"});
        numeric.insert(numeric.end(), {true, true, false});
    }
    for (const auto& r : c.counts) {
        std::vector<std::string> row = {std::to_string(r.coats), film_cell(r.film_um, units)};
        for (std::size_t l = 0; l < r.colors.size(); ++l) {
            const auto& seen = r.colors[l];
            row.insert(row.end(), {chip(seen.screen.code, how), lab_text(seen.lab), fixed(seen.spread_de00, 1),
                                   r.added.empty() ? "" : fixed(r.added[l], 1)});
            if (c.target) row.push_back(fixed(r.to_target[l], 1));
        }
        if (several)
            row.insert(row.end(), {fixed(largest(r.to_target), 1),
                                   r.special_index.empty() ? "" : fixed(largest(r.special_index), 1)});
        if (c.target)
            row.insert(row.end(), {fixed(100 * r.chance, 0) + " %", fixed(100 * r.chance_other_board, 0) + " %",
                                   worst_words(r.to_target, r.words)});
        rows.push_back(std::move(row));
    }
    std::cout << table(rows, numeric);
}

void print(const scene::Scene& scene, const job::Coats& c, schedule::UnitSystem units) {
    std::cout << scene.title << "\n"
              << scene.materials.at(scene.wood).name << " · " << scene::geometry_text(scene.look.geometry)
              << " · finish \"" << c.finish << "\", step " << c.step << ": " << c.what << "\n";
    if (c.target) std::cout << "target: " << c.target->name << "\n";
    if (scene.target && scene.target->judge_at)
        std::cout << "colors: " << job::after_text(*scene.target->judge_at, scene.look.exposure) << "\n";
    std::cout << "\n";
    print_table(c, units);
    const int last = c.counts.back().coats;
    std::cout << "\n";
    if (c.target) {
        const auto& nearest = c.counts[static_cast<std::size_t>(*c.verdict.nearest)];
        std::cout << "nearest the target: " << coats_text(*c.verdict.nearest) << " (dE00 "
                  << fixed(largest(nearest.to_target), 1) << " under the worst light)\n";
        std::cout << "the target lies within what is not known of the difference: "
                  << (c.verdict.within ? "from " + coats_text(*c.verdict.within)
                                       : "at no count up to " + std::to_string(last))
                  << "\n";
    }
    std::cout << "more coats, up to " << last << ", are not seen (dE00 under 1): "
              << (c.verdict.settled ? "after " + coats_text(*c.verdict.settled) : "they are seen to the last") << "\n";
    if (c.target)
        std::cout << "seen: the chance that a client sees a difference to the target (dE00 above 2) on one board; two "
                     "boards: "
                     "on another piece beside it\n";
    std::cout << "rests on: " << rests_on(weakest(c)) << "\n";
}

// The step as it is printed.
std::string what_in(schedule::UnitSystem units, const scene::Scene& scene, const job::Coats& c) {
    for (const auto& f : scene.finishes)
        if (f.name == c.finish) {
            auto step = f.steps.at(static_cast<std::size_t>(c.step) - 1);
            step.coats = 1;
            return search::mixing_line({"", {step}}, units);
        }
    return c.what;
}

int run_coats(const CoatsOptions& options) {
    const auto lib = library(options);
    const auto scene = scene::read_scene(options.scene, lib);
    auto c = job::coats(scene, lib, appearance::two_flux_solver(), options.question);
    std::vector<scene::OutputFile> files;
    const auto stem = scene::file_stem(options.scene);
    const auto picture = std::filesystem::path(options.out) / (stem + "-coats.png");
    if (!options.no_pictures) files.push_back({picture, format::sheet_png(layout::lay_out(chart(scene, c)))});
    const std::string json = options.json.empty() ? "" : report::coats_json(scene, c);
    deliver(options, std::move(files), json);
    print_warnings(options, c.warnings);
    if (options.speaks()) {
        c.what = what_in(units_for(options, scene), scene, c);
        print(scene, c, units_for(options, scene));
        if (!options.no_pictures) std::cout << "open:\n  " << picture.string() << "\n";
    }
    return 0;
}

}  // namespace

void add_coats(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<CoatsOptions>();
    auto* verb =
        app.add_subcommand("coats", "One step's coats from none upward: tone per coat, the count nearest the target");
    verb->add_option("SCENE", options->scene, "Scene file (TOML)")->required();
    verb->add_option("--finish", options->question.finish, "Finish (default: the first that is not the target)")
        ->type_name("NAME");
    verb->add_option("--step", options->question.step, "Step of it, from 1 (default: the one with the most coats)")
        ->check(CLI::Range(1, 1000));
    verb->add_option("--upto", options->question.upto, "Most coats (default: 6)")->check(CLI::Range(1, 30));
    verb->add_flag("--no-pictures", options->no_pictures, "Work out the colors only");
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_coats(*options); }; });
}

}  // namespace foretone::cli
