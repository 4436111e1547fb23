#pragma once
/// What every verb shares: its common options, the library they name, where results go.

#include <CLI/CLI.hpp>
#include <filesystem>
#include <string>

#include "foretone/scene/library.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::cli {

struct Common {
    std::string json;         ///< file, "-" for standard output, empty for none
    std::string out = "out";  ///< folder for pictures
    std::string spectra;      ///< library folder; empty: the compiled-in one
    bool quiet = false;
    bool replace = false;  ///< write also over inputs, and over what is not this program's

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

/// Adds --json, --out, --quiet, --replace and --spectra to a verb.
void add_common(CLI::App& verb, Common& common);

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

/// Prints the cautions for `words` (of material::caution_words) and the standing ones. They are never switched off:
/// where the verb says nothing else (--quiet, JSON to standard output) one line on standard error names them.
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
void add_fit(CLI::App& app, Verb& run);
void add_correct(CLI::App& app, Verb& run);
/// Not listed by --help: prints what an installation puts where manual pages and shells look.
void add_manual(CLI::App& app, Verb& run);

/// Gives `app` its name, its options and every verb.
void describe(CLI::App& app, Verb& run);

}  // namespace foretone::cli
