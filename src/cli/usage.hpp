#pragma once
/// What is wrong with a command line, and the verb or option that is nearest to what was written.

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace foretone::cli {

/// `arguments` in the order in which they were written, without the program's name.
std::string usage_words(const CLI::App& app, const CLI::ParseError& error, const std::vector<std::string>& arguments);

}  // namespace foretone::cli
