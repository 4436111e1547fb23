#pragma once
/// Writes results: all of them, or none; never over what is not this program's own.

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "foretone/scene/names.hpp"
#include "foretone/scene/spool.hpp"

namespace foretone::scene {

struct OutputFile {
    std::filesystem::path path;
    std::vector<std::uint8_t> bytes;
    std::string otherwise = "choose another folder with --out DIR";  ///< what to do if it cannot be written
    bool lasting = false;  ///< must outlive a power cut: file and folder are synced before the run says it is written
    bool grows = false;    ///< holds all that stood there before (a notebook): no question of losing it
    std::shared_ptr<const Spool> rest = {};  ///< what follows `bytes`, if there is more

    static OutputFile text(std::filesystem::path path, const std::string& content) {
        OutputFile out;
        out.path = std::move(path);
        out.bytes.assign(content.begin(), content.end());
        return out;
    }
};

/// What a run may write over.
struct WriteRules {
    std::vector<std::filesystem::path> inputs = {};  ///< files that this run has read
    bool replace = false;  ///< --replace: also over an input, and over what this program has not written
};

/// Makes missing folders, writes each file under a name of its own beside its place and moves all into place at the
/// end. Links are followed, the mode of a file that stood there is kept; what is no regular file (a pipe, a device,
/// /dev/stdout) is written into. Throws InputError with nothing half-written left behind: `out-unwritable` with the
/// cause, `out-twice` if two results would go to one file, `out-is-input` and `out-not-ours` by `rules`.
void write_all(const std::vector<OutputFile>& files, const WriteRules& rules = {});

/// All of `bytes` into an open file, however many calls it takes; returns errno, 0 if all was written.
int write_fully(int descriptor, std::span<const std::uint8_t> bytes);

/// What a number of errno means at the bench: "the disk is full".
std::string cause(int number);

/// Does a file that begins so come from this program? An empty one may be written over too.
bool made_here(std::string_view begin);

}  // namespace foretone::scene
