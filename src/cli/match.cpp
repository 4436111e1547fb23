#include "foretone/appearance/uneven.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/parallel.hpp"
#include "foretone/job/match.hpp"
#include "foretone/job/match_part.hpp"
#include "foretone/report/json.hpp"
#include "foretone/report/match_part.hpp"

#include <atomic>
#include <chrono>
#include <iostream>
#include <memory>

#include "common.hpp"
#include "findings.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/layout/candidates.hpp"
#include "foretone/format/sheet_png.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/search/words.hpp"
#include "pictures.hpp"
#include "terminal.hpp"
#include "watch.hpp"

namespace foretone::cli {
namespace {
using Clock = std::chrono::steady_clock;

struct MatchOptions : Common {
    std::string scene;
    unsigned threads = 0;
    double budget_s = 0;
    bool no_pictures = false;
    std::string part;                ///< "3/64": this share of the ways alone
    std::vector<std::string> parts;  ///< files to join
};

struct Outcome {
    job::Search::Examined examined;
    std::string stopped;  ///< why not all were: "the budget of 5 s was used up"
};

/// Every recipe, or those of a share, until the budget is used up or the user stops it.
Outcome examine_all(const job::Search& search, const MatchOptions& options, unsigned threads, Clock::time_point start,
                    const job::MatchPart& part) {
    std::atomic<int> why{0};
    const auto go_on = [&] {
        if (stop_asked())
            why = 2;
        else if (options.budget_s > 0 && std::chrono::duration<double>(Clock::now() - start).count() > options.budget_s)
            why = 1;
        return why == 0;
    };
    Outcome out{search.examine(
                    threads, go_on,
                    [&](double share) {
                        tell("recipes judged: " + std::to_string(static_cast<int>(100 * share)) + " % of " +
                             std::to_string(search.space().size()));
                    },
                    part.number - 1, part.of),
                {}};
    const std::size_t ways = search.space().ways.size();
    if (out.examined.ways == (ways + part.of - part.number) / part.of) return out;
    if (why == 1) out.stopped = "the budget of " + fixed(options.budget_s, 1) + " s was used up";
    if (why == 2) out.stopped = "stopped by hand";
    return out;
}

std::string percent(double share) { return share > 0 && share < 0.01 ? "< 1 %" : fixed(100 * share, 0) + " %"; }

std::string effort_text(const search::Effort& e) {
    return std::to_string(e.steps) + (e.steps == 1 ? " step, " : " steps, ") + std::to_string(e.coats) +
           (e.coats == 1 ? " coat" : " coats") +
           (e.colorants ? ", " + std::to_string(e.colorants) + (e.colorants == 1 ? " color" : " colors") : "");
}

layout::Candidates candidates(const scene::Scene& scene, const job::Match& m) {
    layout::Candidates out;
    out.scene = scene.title;
    out.wood = scene.materials.at(scene.wood).name;
    out.geometry = scene::geometry_text(scene.look.geometry);
    out.observer = observer_text(m.target.observer);
    out.lights = m.target.lights;
    out.target = fields(m.target.colors);
    out.target_name = m.target.name;
    const job::Candidate* weakest = &m.candidates.front();
    for (std::size_t i = 0; i < m.candidates.size(); ++i) {
        const auto& c = m.candidates[i];
        layout::CandidateColumn column{std::to_string(i + 1), c.line, effort_text(c.effort), percent(c.chance), {}};
        if (c.chance_within) column.chance += "; within " + percent(*c.chance_within);
        for (std::size_t l = 0; l < c.colors.size(); ++l)
            column.by_light.push_back({field(c.colors[l]), c.de00[l], c.words[l]});
        out.columns.push_back(std::move(column));
        if (c.rests_on.rests_on > weakest->rests_on.rests_on) weakest = &c;
    }
    out.rests_on = rests_on(weakest->rests_on);
    if (scene.target->tolerance_de00)
        out.notes.push_back("Within: the chance that the board lies within ΔE00 " +
                            base::at_most(*scene.target->tolerance_de00, 1) + " of the target.");
    if (!m.unreachable.empty()) out.notes.push_back("Out of reach: " + m.unreachable + ".");
    return out;
}

void print_candidates(const job::Match& m) {
    std::vector<std::vector<std::string>> rows = {{"", ""}};
    std::vector<bool> numeric = {true, false};
    const Chips how = chips();
    for (const auto& light : m.target.lights) {
        rows[0].insert(rows[0].end(), {"", light + "  L*     a*     b*", "dE00"});
        numeric.insert(numeric.end(), {false, true, true});
    }
    const bool several = m.target.lights.size() > 1;
    rows[0].insert(rows[0].end(),
                   {several ? "worst" : "", several ? "metamerism" : "", "±dE00", "seen", "two boards", "within",
                    "angular", "its order", "steps", "colors", several ? "it is, at worst" : "it is"});
    numeric.insert(numeric.end(), 10, true);
    numeric.push_back(false);
    const auto row_of = [&](const std::string& name, const std::vector<job::SeenColor>& colors) {
        std::vector<std::string> row = {name, ""};
        for (const auto& c : colors) row.insert(row.end(), {chip(c.screen.code, how), lab_text(c.lab), ""});
        return row;
    };
    rows.push_back(row_of("target", m.target.colors));
    rows.back().resize(numeric.size());
    for (std::size_t i = 0; i < m.candidates.size(); ++i) {
        const auto& c = m.candidates[i];
        auto row = row_of(std::to_string(i + 1), c.colors);
        row[1] = c.best_of_kind ? "*" : "";
        for (std::size_t l = 0; l < c.colors.size(); ++l) row[2 + 3 * l + 2] = fixed(c.de00[l], 2);
        row.insert(row.end(),
                   {several ? fixed(c.worst, 2) : "",
                    several && !c.special_index.empty() ? fixed(largest(c.special_index), 2) : "", fixed(c.spread, 1),
                    percent(c.chance), percent(c.chance_other_board), c.chance_within ? percent(*c.chance_within) : "",
                    fixed(c.angular_worst, 2), std::to_string(c.angular_place), std::to_string(c.effort.steps),
                    std::to_string(c.effort.colorants), worst_words(c.de00, c.words)});
        rows.push_back(std::move(row));
    }
    std::cout << table(rows, numeric) << "\n";
    for (std::size_t i = 0; i < m.candidates.size(); ++i)
        std::cout << right(std::to_string(i + 1), 3) << "  " << m.candidates[i].line << " · "
                  << appearance::uneven_word(m.candidates[i].uneven_de00) << ", dE00 "
                  << fixed(m.candidates[i].uneven_de00, 1) << " over the board\n"
                  << findings_text(m.candidates[i].findings);
}

void print(const scene::Scene& scene, const job::Match& m, double seconds) {
    std::cout << scene.title << "\n"
              << scene.materials.at(scene.wood).name << " · " << scene::geometry_text(scene.look.geometry)
              << " · observer " << m.target.observer << " · target: " << m.target.name << "\n";
    std::cout << m.examined << " of " << m.recipes << " recipes judged in " << fixed(seconds, 1) << " s\n";
    if (!m.not_examined.empty()) std::cout << m.not_examined << "\n";
    if (!m.left_out.empty()) std::cout << m.left_out << "\n";
    if (m.candidates.empty()) {
        std::cout << "no recipe was judged\n";
        return;
    }
    std::cout << "\n";
    print_candidates(m);
    std::cout << "\n* none is as close with as few steps and as few colors. Order: "
              << (m.candidates.front().chance_within ? "the chance to be within the tolerance, then " : "")
              << "closeness under the worst light in "
                 "steps of "
              << fixed(job::Search::as_good, 1) << ", then the smaller spread, then fewer steps, then fewer colors.\n";
    std::cout
        << "seen: the chance that a client sees a difference (dE00 above 2) on one board; two boards: on another piece "
           "beside it; within: to be within the target's tolerance_dE00. angular: worst dE00 by the angular "
           "solver ("
        << m.streams << " streams), and its order among the " << m.solved_again << " recipes it was asked about.\n";
    if (!m.unreachable.empty()) std::cout << "out of reach: " << m.unreachable << "\n";
    for (const auto& edge : m.edges) std::cout << "on the edge of what is allowed: " << edge << "\n";
    std::cout << "recommended: " << m.candidates.front().line
              << "\nrests on: " << rests_on(m.candidates.front().rests_on) << "\n";
}

/// One share, into a file that is joined with the others later.
int run_part(const MatchOptions& options, const job::Search& search, unsigned threads, Clock::time_point start,
             job::MatchPart part) {
    part.problem = job::problem_of(search);
    part.recipes = search.space().size();
    const auto outcome = examine_all(search, options, threads, start, part);
    if (!outcome.stopped.empty())
        throw scene::InputError("part-stopped", {"--part"},
                                outcome.stopped + ": a part is written whole or not at all");
    part.kept = job::kept_of(outcome.examined.best);
    deliver(options, {}, report::match_part_json(part));
    if (options.speaks())
        std::cout << "part " << part.number << " of " << part.of << ": the closest " << part.kept.size() << " of "
                  << outcome.examined.ways << " ways' recipes are in " << options.json
                  << "\nwhen all parts are there: foretone match " << options.scene << " --join FILES\n";
    return 0;
}

job::Search::Examined join(const MatchOptions& options, const job::Search& search) {
    const auto problem = job::problem_of(search);
    std::vector<job::MatchPart> parts;
    for (const auto& file : options.parts) parts.push_back(report::read_match_part(file));
    return {job::joined(search, problem, parts), search.space().ways.size()};
}

int run_match(const MatchOptions& options) {
    const Stoppable by_hand;
    if (!options.part.empty() && options.json.empty())
        throw UsageError("part-without-file", {"--part"}, "say where the part goes: --json part.json");
    const auto part = options.part.empty() ? job::MatchPart{} : job::part_asked(options.part);
    const auto start = Clock::now();
    const auto lib = library(options);
    const auto scene = scene::read_scene(options.scene, lib);
    const auto solver = appearance::two_flux_solver();
    const unsigned threads = options.threads ? options.threads : base::machine_threads();
    const job::Search search(scene, lib, solver);
    if (!options.part.empty()) return run_part(options, search, threads, start, part);
    const auto outcome =
        options.parts.empty() ? examine_all(search, options, threads, start, {}) : Outcome{join(options, search), {}};
    const double seconds = std::chrono::duration<double>(Clock::now() - start).count();
    auto match = search.conclude(outcome.examined.best, outcome.examined.ways,
                                 [threads](std::size_t n, const auto& job) { base::parallel_for(n, threads, job); });
    if (!outcome.stopped.empty() && !match.not_examined.empty())
        match.not_examined = outcome.stopped + ": " + match.not_examined;

    const std::string json = options.json.empty() ? "" : report::match_json(scene, match);
    for (auto& c : match.candidates) c.line = search::mixing_line(c.finish, units_for(options, scene));
    std::vector<scene::OutputFile> files;
    const auto picture = std::filesystem::path(options.out) / (scene::file_stem(options.scene) + "-match.png");
    const bool pictured = !options.no_pictures && !match.candidates.empty();
    if (pictured) files.push_back({picture, format::sheet_png(layout::lay_out(candidates(scene, match)))});
    deliver(options, std::move(files), json);
    print_warnings(options, match.warnings);
    if (options.speaks()) {
        print(scene, match, seconds);
        if (pictured) std::cout << "open:\n  " << picture.string() << "\n";
    }
    if (!match.candidates.empty())
        print_cautions(options, job::cautions_of(scene.materials, match.candidates.front().finish));
    return 0;
}

}  // namespace

void add_match(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<MatchOptions>();
    auto* verb = app.add_subcommand("match", "Searches dyes, strengths, oils, sealers and coats for a target");
    verb->add_option("SCENE", options->scene, "Scene file (TOML) with [target] and [search]")->required();
    verb->add_option("--threads", options->threads, "Threads (default: one a core); the result does not depend on it")
        ->check(CLI::Range(1, 256));
    verb->add_option("--budget", options->budget_s, "Seconds for judging recipes (default: until all are judged)")
        ->check(CLI::PositiveNumber & finite());
    verb->add_flag("--no-pictures", options->no_pictures, "Work out the recipes only");
    auto* part = verb->add_option("--part", options->part,
                                  "Judge one share of the recipes, such as 3/64, and write it to --json FILE");
    auto* parts =
        verb->add_option("--join", options->parts, "Files of all parts: the answer of one run, to the last byte");
    part->excludes(parts)->excludes("--budget");
    parts->excludes("--budget");
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_match(*options); }; });
}

}  // namespace foretone::cli
