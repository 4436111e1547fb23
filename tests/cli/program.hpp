#pragma once
/// Runs the built program as a user would.

#include <string>

namespace foretone::test {

struct Run {
    int status = -1;
    std::string out, err;
};

/// The program's path: what the variable FORETONE of the environment says, as `ctest` sets it.
std::string program();

/// The program with `arguments` (shell words) in a fresh temporary folder as working directory (its path is
/// `folder()`).
Run run(const std::string& arguments);

/// The folder that `run` works in; emptied by `fresh_folder`.
std::string folder();
void fresh_folder();

/// A file in that folder.
void write(const std::string& name, const std::string& content);
void link(const std::string& name, const std::string& target);
bool exists(const std::string& name);

}  // namespace foretone::test
