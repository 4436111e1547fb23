#include "foretone/job/correct.hpp"
#include "foretone/report/json.hpp"

#include <algorithm>
#include <iostream>
#include <memory>

#include "common.hpp"
#include "foretone/job/board_code.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/scene/notebook.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/search/words.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {

struct CorrectOptions : Common {
    std::string scene, measured, keep, code;
    job::CorrectQuestion question;
};

void print_comparison(const job::Correction& c) {
    std::cout << c.finish << ": " << c.recipe << "\nboard \"" << c.sample << "\" · " << c.geometry << " · observer "
              << c.observer << " · target: " << c.target << "\n\n";
    std::vector<std::vector<std::string>> rows = {{"light", "board  L*     a*     b*", "predicted  L*     a*     b*",
                                                   "target  L*     a*     b*", "to prediction", "to target",
                                                   "the board is"}};
    for (const auto& l : c.lights)
        rows.push_back({l.light, lab_text(l.measured), lab_text(l.predicted), lab_text(l.target),
                        fixed(l.to_prediction, 1), fixed(l.to_target, 1), l.words});
    std::cout << table(rows, {false, true, true, true, true, true, false});
    std::cout << "noise: 95 of 100 boards of exactly these materials come within dE00 " << fixed(c.noise.bound_de00, 1)
              << " of the prediction (one standard deviation each: reading " << fixed(c.noise.reading_de00, 1)
              << ", wood from board to board " << fixed(c.noise.board_de00, 1) << ", place on the board "
              << fixed(c.noise.place_de00, 1) << ", hand " << fixed(c.noise.hand_de00, 1)
              << ");\n       preview's \"90 % of boards\" is said before any board is read, and holds what is not "
                 "known of the "
                 "materials too\n";
    std::cout << (c.prediction_holds
                      ? "the board is what was predicted, within the noise\n"
                      : "the board is not what was predicted: the materials are fitted again to the reading\n");
}

void print_proposal(const std::string& head, const job::Proposal& p, const job::Correction& c) {
    std::cout << head << p.text << "\n    expected:";
    for (std::size_t l = 0; l < p.expected.size(); ++l)
        std::cout << (l ? ";" : "") << " " << c.lights[l].light << " " << lab_text(p.expected[l]) << ", dE00 "
                  << fixed(p.change.de00[l], 1) << " to the target";
    std::cout << "; ± " << fixed(p.spread_de00, 1) << " (materials " << fixed(p.spread_materials_de00, 1) << ", boards "
              << fixed(p.spread_boards_de00, 1) << ")\n";
    if (!p.caution.empty()) std::cout << "    caution: " << p.caution << "\n";
}

void print(const job::Correction& c) {
    print_comparison(c);
    if (c.done) {
        std::cout << "\nthe board is within the noise of " << (c.target_is_prediction ? "the prediction" : "the target")
                  << ": change nothing; another board would differ by as much\n";
        if (c.proposals.empty()) return;
        std::cout << "if a second board comes out the same way, it is no chance; what follows then mends it\n";
    }
    if (!c.learned.empty()) {
        std::vector<std::vector<std::string>> rows = {
            {"material", "figure", "library", "by this board", "95 % interval"}};
        for (const auto& f : c.learned) {
            const int digits = std::abs(f.value) >= 10 ? 1 : std::abs(f.value) >= 1 ? 2 : 3;
            rows.push_back(
                {f.material, f.figure, fixed(f.library, digits), fixed(f.value, digits),
                 fixed(f.low(), digits) + " to " + fixed(f.high(), digits) + (f.cut() ? " (cut at its limit)" : "")});
        }
        std::cout << "\nwhat the reading says of the materials\n" << table(rows, {false, false, true, true, true});
    }
    std::cout << "\nunchanged, the next board comes to dE00 " << fixed(largest(c.unchanged_de00), 1)
              << " from the target\n";
    for (std::size_t i = 0; i < c.proposals.size(); ++i)
        print_proposal(i == 0 ? "change one thing: " : "or: ", c.proposals[i], c);
    if (c.on_this_board) print_proposal("on this board as it stands: ", *c.on_this_board, c);
    for (const auto& a : c.advice) std::cout << "note: " << a << "\n";
}

scene::NotebookEntry entry_of(const scene::Scene& scene, const job::Correction& c, const std::string& date) {
    scene::NotebookEntry e;
    e.date = date;
    e.finish = c.finish;
    e.recipe = c.recipe;
    e.wood = scene.materials.at(scene.wood).name;
    e.geometry = c.geometry;
    e.sample = c.sample;
    double worst = 0;
    for (const auto& l : c.lights) {
        e.predicted.push_back({l.light, c.observer, l.predicted});
        e.read.push_back({l.light, c.observer, l.measured});
        worst = std::max(worst, l.to_prediction);
    }
    e.de00 = worst;
    e.changed = c.done ? "nothing: within the noise" : c.proposals.empty() ? "" : c.proposals.front().text;
    return e;
}

// The finish whose code is on the board.
std::string finish_asked(const CorrectOptions& options, const scene::Scene& scene) {
    const auto& name = scene.finishes[job::finish_of_code(scene, options.code)].name;
    if (!options.question.finish.empty() && options.question.finish != name)
        throw scene::InputError("code-contradicts", {"--code"},
                                options.code + " is \"" + name + "\", but --finish says \"" + options.question.finish +
                                    "\"; one of the two is wrong");
    return name;
}

// As it is printed, not kept: a notebook compares recipes by their metric line.
job::Correction in_us_units(job::Correction c, const scene::Scene& scene) {
    constexpr auto us = schedule::UnitSystem::us;
    const auto before = std::find_if(scene.finishes.begin(), scene.finishes.end(),
                                     [&](const schedule::Finish& f) { return f.name == c.finish; });
    if (before == scene.finishes.end()) return c;
    c.recipe = search::mixing_line(*before, us);
    for (auto& p : c.proposals) p.text = search::sentence(p.change, *before, scene.materials, us);
    return c;
}

int run_correct(const CorrectOptions& options) {
    const auto lib = library(options);
    const auto scene = scene::read_scene(options.scene, lib);
    auto question = options.question;
    question.measured = options.measured;
    if (!options.code.empty()) question.finish = finish_asked(options, scene);
    const auto c = job::correct(scene, lib, question);
    const std::string json = report::correct_json(scene, c);
    const auto units = units_for(options, scene);
    auto warnings = c.warnings;
    std::optional<scene::KeptEntry> kept;
    if (!options.keep.empty()) {
        kept = scene::keep_entry(options.scene, scene.title, entry_of(scene, c, options.keep), json_file(options, json),
                                 options.rules());
        warnings.insert(warnings.end(), kept->notes.begin(), kept->notes.end());
    } else {
        deliver(options, {}, json);
    }
    print_warnings(options, warnings);
    if (kept && options.json_to_stdout()) std::cout << json;
    if (options.speaks()) {
        std::cout << scene.title << "\n";
        print(units == schedule::UnitSystem::us ? in_us_units(c, scene) : c);
        if (kept) std::cout << "kept in " << kept->file.generic_string() << " as entry " << kept->id << "\n";
    }
    print_cautions(options, job::cautions_of(scene));
    return 0;
}

}  // namespace

void add_correct(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<CorrectOptions>();
    auto* verb = app.add_subcommand(
        "correct", "The one change that brings the next board to the target, from a reading of the first");
    verb->add_option("SCENE", options->scene, "Scene file (TOML)")->required();
    verb->add_option("--measured", options->measured, "Reading of the finished board: CGATS, CSV or a list of Lab")
        ->required()
        ->type_name("FILE");
    verb->add_option("--finish", options->question.finish,
                     "Finish that was put on (default: the first that is not the target)")
        ->type_name("NAME");
    verb->add_option("--code", options->code, "The code on the board's back, as K7QM-4: says which finish it is")
        ->type_name("CODE");
    verb->add_option("--sample", options->question.sample, "Name of the reading, if the file holds several")
        ->type_name("NAME");
    verb->add_flag("--buy", options->question.buy,
                   "Propose a touch of any dye of the library, not only of what is on hand");
    verb->add_option("--bare", options->question.bare,
                     "Name of a reading of the same board while bare: tells the wood from the finish")
        ->type_name("NAME");
    verb->add_option("--keep", options->keep,
                     "Keep it in the job notebook beside the scene, under this date (2026-03-02)")
        ->type_name("DATE");
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_correct(*options); }; });
}

}  // namespace foretone::cli
