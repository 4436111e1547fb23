#pragma once
/// The job notebook: what was put on, what was predicted and what was read, kept as one plain text file (TOML) beside
/// the scene.
///
/// Entries are only ever added; what stands in the file is never rewritten, comments and hand-written lines included.

#include <optional>
#include <string>
#include <vector>

#include "foretone/color/lab.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::scene {

/// A color under one light.
struct NotedColor {
    std::string light, observer;
    color::Lab lab;
};

/// One entry.
struct NotebookEntry {
    int id = 0;          ///< its number in the notebook, from 1; 0: written by hand without one
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
    std::vector<Problem> notes;          ///< an entry that is cut off, ids that stand twice
};

/// "stool-maple.job.toml" beside "stool-maple.toml".
std::filesystem::path notebook_path(const std::filesystem::path& scene);

/// Reads the notebook of a scene; none is an empty one. A last entry that was cut off in the middle of a line is told
/// and left out. Throws InputError with everything else found wrong in it.
Notebook read_notebook(const std::filesystem::path& scene);

struct KeptEntry {
    std::filesystem::path file;
    int id = 0;
    std::vector<Problem> notes;  ///< an entry that was cut off, and where it is kept aside
};

/// Adds an entry at the end of the notebook, all that stands in it kept to the byte, and writes the files of `with` in
/// the same go: all, or none. Runs that keep entries at the same time wait for each other; an entry has the next id,
/// and is on the disk when this returns. Throws InputError: as `read_notebook` and `write_all`, date-syntax,
/// file-too-large, notebook-busy.
KeptEntry keep_entry(const std::filesystem::path& scene, const std::string& title, NotebookEntry entry,
                     std::vector<OutputFile> with = {}, const WriteRules& rules = {});

}  // namespace foretone::scene
