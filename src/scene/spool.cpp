#include "foretone/scene/spool.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <string>

#include "foretone/scene/output.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::scene {
namespace {
namespace fs = std::filesystem;

constexpr std::size_t piece = 1U << 20U;

// A file without a name in that folder: gone with the program, whatever happens to it. -1 and errno if there can be
// none.
int nameless_in(const fs::path& folder) {
    std::string path = (folder / ".foretone-XXXXXX").string();
    const int file = ::mkostemp(path.data(), O_CLOEXEC);
    if (file >= 0) ::unlink(path.c_str());
    return file;
}

// The folder, or the nearest above it that is there.
fs::path standing(fs::path folder) {
    std::error_code none;
    if (folder.empty()) folder = ".";
    folder = fs::absolute(folder, none);
    while (!fs::is_directory(folder, none) && folder.has_relative_path()) folder = folder.parent_path();
    return folder;
}

}  // namespace

Spool::Spool(fs::path folder) : folder_(std::move(folder)) {}

Spool::~Spool() {
    if (file_ >= 0) ::close(file_);
}

void Spool::open() {
    file_ = nameless_in(standing(folder_));
    if (file_ < 0) {
        std::error_code none;
        file_ = nameless_in(fs::temp_directory_path(none));
    }
    if (file_ < 0)
        throw InputError(
            "out-unwritable", {folder_.string()},
            "nothing can be written into this folder: " + cause(errno) + "; choose another with --out DIR");
}

void Spool::add(std::span<const std::uint8_t> bytes) {
    size_ += bytes.size();
    if (file_ < 0) {
        memory_.insert(memory_.end(), bytes.begin(), bytes.end());
        if (memory_.size() <= held) return;
        open();
        bytes = memory_;
    }
    if (const int error = write_fully(file_, bytes); error != 0)
        throw InputError("out-unwritable", {folder_.string()},
                         "a picture cannot be kept here until all are drawn: " + cause(error) +
                             "; choose another folder with --out DIR");
    memory_ = {};
}

int Spool::each(const std::function<int(std::span<const std::uint8_t>)>& take) const {
    if (file_ < 0) return memory_.empty() ? 0 : take(memory_);
    std::vector<std::uint8_t> buffer(piece);
    for (std::uint64_t at = 0; at < size_;) {
        const auto got =
            ::pread(file_, buffer.data(), std::min<std::uint64_t>(piece, size_ - at), static_cast<off_t>(at));
        if (got < 0 && errno == EINTR) continue;
        if (got <= 0) return got < 0 ? errno : EIO;
        if (const int error = take({buffer.data(), static_cast<std::size_t>(got)}); error != 0) return error;
        at += static_cast<std::uint64_t>(got);
    }
    return 0;
}

}  // namespace foretone::scene
