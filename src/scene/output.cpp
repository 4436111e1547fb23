#include "foretone/scene/output.hpp"

#include <unistd.h>

#include <cerrno>

#include "foretone/scene/problem.hpp"
#include "foretone/scene/writing.hpp"
#include "losing.hpp"
#include "placing.hpp"

namespace foretone::scene {
namespace {
namespace fs = std::filesystem;

WritingWatch& watching() {
    static WritingWatch watch;
    return watch;
}

// A result on its way: where it leads, and what is ready beside its place.
struct Staged {
    const OutputFile* file;
    Destination target;
    fs::path ready;
};

[[noreturn]] void unwritable(const OutputFile& file, const fs::path& path, const std::string& why) {
    throw InputError("out-unwritable", {path.string()}, why + "; " + file.otherwise);
}

[[noreturn]] void unwritten(const OutputFile& file, int error) {
    unwritable(file, file.path, "this file cannot be written: " + cause(error));
}

void make_folder(const OutputFile& file, const Destination& target) {
    const auto folder = target.path.parent_path();
    if (folder.empty() || target.there || target.open_as >= 0) return;
    std::error_code made;
    fs::create_directories(folder, made);
    if (made) unwritable(file, folder, "this folder cannot be made: " + cause(made.value()));
}

// Read-only is a word of its owner's: not even root writes over it unasked.
void require_writable(const Staged& s) {
    if (!s.target.there) return;
    if (S_ISDIR(s.target.there->st_mode)) unwritable(*s.file, s.file->path, "a folder of this name is in the way");
    if (s.target.stream()) return;
    if ((s.target.there->st_mode & 0222) == 0 || access(s.target.path.c_str(), W_OK) != 0)
        unwritable(*s.file, s.file->path, "a file of this name stands there and is read-only");
}

void require_apart(const std::vector<Staged>& staged) {
    for (std::size_t i = 1; i < staged.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (!staged[i].target.stream() && staged[i].target.same_as(staged[j].target))
                throw InputError("out-twice", {staged[i].file->path.string()},
                                 "two results of this run would go into this one file; give the second another name");
}

std::vector<Staged> checked(const std::vector<OutputFile>& files, const WriteRules& rules) {
    std::vector<Staged> staged;
    for (const auto& f : files) {
        Staged s{&f, destination_of(f.path), {}};
        if (s.target.error != 0) unwritten(f, s.target.error);
        require_writable(s);
        if (!f.grows) require_no_loss(f.path, s.target, rules);
        staged.push_back(std::move(s));
    }
    require_apart(staged);
    return staged;
}

void clear_away(const std::vector<Staged>& staged) {
    for (const auto& s : staged)
        if (!s.ready.empty()) ::unlink(s.ready.c_str());
}

// Everything that can fail, but for the moves: so that what fails has changed nothing yet.
void write_out(std::vector<Staged>& staged) {
    for (auto& s : staged) {
        make_folder(*s.file, s.target);
        if (s.target.stream()) continue;
        int error = 0;
        s.ready = write_beside(s.target, *s.file, error);
        if (error != 0) unwritten(*s.file, error);
    }
    for (const auto& s : staged)
        if (s.target.stream())
            if (const int error = write_into(s.target, *s.file, watching().stop); error != 0) unwritten(*s.file, error);
}

void move_in(std::vector<Staged>& staged) {
    for (auto& s : staged) {
        if (s.ready.empty()) continue;
        if (::rename(s.ready.c_str(), s.target.path.c_str()) != 0) unwritten(*s.file, errno);
        s.ready.clear();
        if (!s.file->lasting) continue;
        if (const int error = sync_folder(s.target.path); error != 0) unwritten(*s.file, error);
    }
}

// Told for as long as files under names of their own may lie about.
class Writing {
public:
    Writing() { tell(true); }
    ~Writing() { tell(false); }
    Writing(const Writing&) = delete;
    Writing& operator=(const Writing&) = delete;

private:
    static void tell(bool under_way) {
        if (watching().under_way) watching().under_way(under_way);
    }
};

}  // namespace

void watch_writing(WritingWatch watch) { watching() = std::move(watch); }

void write_all(const std::vector<OutputFile>& files, const WriteRules& rules) {
    auto staged = checked(files, rules);
    const Writing now;
    try {
        write_out(staged);
        move_in(staged);
    } catch (...) {
        clear_away(staged);
        throw;
    }
}

}  // namespace foretone::scene
