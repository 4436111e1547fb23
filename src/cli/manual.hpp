#pragma once
// What the parser knows of the program, as text for a manual page and for shells. The same words as --help, in the
// order in which they were given: the same bytes every time.

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace foretone::cli {

/// An option, or an argument if it has no names.
struct OptionWords {
    std::vector<std::string> names;    ///< "--json"; none for an argument
    std::string value;                 ///< "FILE"; empty for a switch
    std::vector<std::string> choices;  ///< of the value; empty if it is free
    std::string says;
    bool required = false;
};

/// All that `verb` accepts, arguments first.
std::vector<OptionWords> options_of(const CLI::App& verb);

/// The verbs of `app` that --help lists.
std::vector<const CLI::App*> verbs_of(const CLI::App& app);

/// The program and every verb below it, each with the words that call it: {"", program}, {"mix", …}, {"mix cut", …}.
std::vector<std::pair<std::string, const CLI::App*>> all_verbs(const CLI::App& app);

/// The page for section 1 of the manual (roff, man macros).
std::string manual_page(const CLI::App& app);

std::string bash_completion(const CLI::App& app);
std::string zsh_completion(const CLI::App& app);

}  // namespace foretone::cli
