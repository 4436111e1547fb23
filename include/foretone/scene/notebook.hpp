#pragma once
/// The job notebook: what was put on, what was predicted and what was read, kept as one plain text file (TOML) beside
/// the scene.
///
/// Entries are only ever added; what stands in the file is never rewritten, comments and hand-written lines included.

#include <optional>
#include <string>
#include <vector>

#include "foretone/scene/output.hpp"
#include "foretone/color/lab.hpp"

namespace foretone::scene {

/// A color under one light.
struct NotedColor {
    std::string light, observer;
    color::Lab lab;
};

/// One entry.
struct NotebookEntry {
    std::string date;    ///< as the user gives it: YYYY-MM-DD
    std::string finish;  ///< of the scene, by name
    std::string recipe;  ///< the mixing line as it was put on
    std::string wood;
    std::string geometry;
    std::vector<NotedColor> predicted;
    std::string sample;  ///< name of the reading; empty if nothing was read
    std::vector<NotedColor> read;
    std::optional<double> de00;  ///< largest between the two
    std::string changed;         ///< what is changed for the next board
    std::string note;
};

struct Notebook {
    std::string file;
    std::vector<NotebookEntry> entries;  ///< in the file's order
    bool there = false;                  ///< the file exists
};

/// "stool-maple.job.toml" beside "stool-maple.toml".
std::filesystem::path notebook_path(const std::filesystem::path& scene);

/// Reads the notebook of a scene; none is an empty one. Throws InputError with everything found wrong in it.
Notebook read_notebook(const std::filesystem::path& scene);

/// The file with one more entry at its end, all that stands in it kept to the byte. Throws InputError: as
/// `read_notebook`, date-syntax.
OutputFile with_entry(const std::filesystem::path& scene, const std::string& title, const NotebookEntry& entry);

}  // namespace foretone::scene
