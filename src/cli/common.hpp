#pragma once
/// What every verb shares: its common options, the library they name, where results go.

#include <CLI/CLI.hpp>
#include <filesystem>
#include <string>

#include "foretone/scene/library.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::cli {

struct Common {
    std::string json;          ///< file, "-" for standard output, empty for none
    std::string out = "out";   ///< folder for pictures
    std::string spectra;       ///< library folder; empty: the compiled-in one
    bool quiet = false;

    bool json_to_stdout() const { return json == "-"; }
    bool speaks() const { return !quiet && !json_to_stdout(); }
};

/// Adds --json, --out, --quiet and --spectra to a verb.
void add_common(CLI::App& verb, Common& common);

/// The library the options name.
scene::Library library(const Common& common);

/// Prints warnings to standard error, each once, unless quiet.
void print_warnings(const Common& common, const std::vector<scene::Problem>& warnings);

/// One verb: adds itself to the program. What it returns on being run is the exit status.
using Verb = std::function<int()>;
void add_coats(CLI::App& app, Verb& run);
void add_match(CLI::App& app, Verb& run);
void add_preview(CLI::App& app, Verb& run);
void add_color(CLI::App& app, Verb& run);
void add_materials(CLI::App& app, Verb& run);
void add_verify(CLI::App& app, Verb& run);
void add_optics(CLI::App& app, Verb& run);

}  // namespace foretone::cli
