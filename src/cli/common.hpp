#pragma once
/// What every verb shares: its common options, the library they name, where results go.

#include <CLI/CLI.hpp>
#include <filesystem>
#include <string>

#include "foretone/scene/library.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/layout/client_sheet.hpp"
#include "foretone/scene/scene.hpp"

namespace foretone::cli {

struct Common {
    std::string json;         ///< file, "-" for standard output, empty for none
    std::string out = "out";  ///< folder for pictures
    std::string spectra;      ///< library folder; empty: the compiled-in one
    std::string units;        ///< "us", "metric", empty: as the input is written
    bool quiet = false;
    bool cautions = false;  ///< every caution in full
    bool replace = false;   ///< write also over inputs, and over what is not this program's

    bool json_to_stdout() const { return json == "-"; }
    bool speaks() const { return !quiet && !json_to_stdout(); }
    /// What this run may write over.
    scene::WriteRules rules() const;
};

/// An option says what makes no sense: wrong usage, exit status 2.
struct UsageError : scene::InputError {
    using InputError::InputError;
};

/// Checks an option's number: nan and inf are none.
CLI::Validator finite();

/// Adds --json, --out, --quiet, --replace, --spectra, --units and --cautions to a verb; not what it has already.
void add_common(CLI::App& verb, Common& common);

/// What --units says, if it says anything. Throws InputError units-unknown.
std::optional<schedule::UnitSystem> units_said(const Common& common);

/// The units to print in: --units, else [look] units, else those of `amount` as written on the command line, else those
/// that the scene is written in.
schedule::UnitSystem units_for(const Common& common, const scene::Scene& scene, const std::string& amount = "");

/// The paper of a page: as said ("a4", "letter", in any case), else Letter where units are US. Throws InputError
/// paper-unknown.
layout::Paper paper_for(const std::string& said, schedule::UnitSystem units);

/// The library the options name.
scene::Library library(const Common& common);

/// The file that --json names, if it names one.
std::vector<scene::OutputFile> json_file(const Common& common, const std::string& json);

/// Writes a result: its files, and its JSON where --json asked for it; all of them, or none.
void deliver(const Common& common, std::vector<scene::OutputFile> files, const std::string& json);

/// Puts a result's JSON where --json asked for it; nothing if it was not asked for.
void put_json(const Common& common, const std::string& json);

/// Prints warnings to standard error, each once, unless quiet.
void print_warnings(const Common& common, const std::vector<scene::Problem>& warnings);

/// Prints the cautions for `words` (of material::caution_words) in full, and names those that stand for every job in
/// one line; --cautions prints these in full too. The JSON and every card hold all of them. Nothing where --quiet.
void print_cautions(const Common& common, const std::vector<std::string>& words);

/// One verb: adds itself to the program. What it returns on being run is the exit status.
using Verb = std::function<int()>;
void add_board(CLI::App& app, Verb& run);
void add_coats(CLI::App& app, Verb& run);
void add_match(CLI::App& app, Verb& run);
void add_preview(CLI::App& app, Verb& run);
void add_color(CLI::App& app, Verb& run);
void add_materials(CLI::App& app, Verb& run);
void add_verify(CLI::App& app, Verb& run);
void add_optics(CLI::App& app, Verb& run);
void add_mix(CLI::App& app, Verb& run);
void add_plan(CLI::App& app, Verb& run);
void add_export(CLI::App& app, Verb& run);
void add_sheet(CLI::App& app, Verb& run);
void add_book(CLI::App& app, Verb& run);
void add_fit(CLI::App& app, Verb& run);
void add_correct(CLI::App& app, Verb& run);
void add_new(CLI::App& app, Verb& run);
void add_read(CLI::App& app, Verb& run);
void add_chart(CLI::App& app, Verb& run);
/// Not listed by --help: prints what an installation puts where manual pages and shells look.
void add_manual(CLI::App& app, Verb& run);

/// Gives `app` its name, its options and every verb.
void describe(CLI::App& app, Verb& run);

}  // namespace foretone::cli
