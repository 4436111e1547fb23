#pragma once
// One file into its place, by the calls of POSIX: fstream has neither O_EXCL nor a cause for what fails.

#include <sys/stat.h>

#include <filesystem>
#include <functional>
#include <optional>
#include <span>
#include <string>

#include "foretone/scene/output.hpp"

namespace foretone::scene {

/// An open file; closed at the end of its life.
class Descriptor {
public:
    explicit Descriptor(int number = -1) : number_(number) {}
    Descriptor(Descriptor&& other) noexcept : number_(other.number_) { other.number_ = -1; }
    Descriptor& operator=(Descriptor&& other) noexcept {
        std::swap(number_, other.number_);
        return *this;
    }
    ~Descriptor();
    int get() const { return number_; }
    explicit operator bool() const { return number_ >= 0; }
    /// Closes; returns errno, 0 if all went well. What a disk could not take may be told only here.
    int close();

private:
    int number_;
};

/// Where a name leads: links followed to the end, also to a file that is not there yet.
struct Destination {
    std::filesystem::path path;
    std::optional<struct stat> there;  ///< what stands there
    int open_as = -1;                  ///< /dev/stdout and its kind: the open file that the name means
    int error = 0;                     ///< errno, if the way there leads nowhere

    /// Something that is written into, not replaced: a pipe, a device, an open file.
    bool stream() const { return open_as >= 0 || (there && !S_ISREG(there->st_mode)); }
    bool same_as(const Destination& other) const;
};
Destination destination_of(std::filesystem::path path);

/// The folder a path lies in, "." if it names none.
std::filesystem::path folder_of(const std::filesystem::path& path);

/// The file's bytes straight into a stream. Where it waits for a reader, a signal after which `stop` is true ends it.
/// Returns errno, EINTR if it was stopped.
int write_into(const Destination& target, const OutputFile& file, const std::function<bool()>& stop);

/// The file's bytes under a name of their own beside `target`, with the mode and owner of what stands there, ready to
/// be moved; synced if it is lasting. On failure `error` holds errno and nothing is left behind.
std::filesystem::path write_beside(const Destination& target, const OutputFile& file, int& error);

/// Has the folder of `path` on the disk as it stands now. Returns errno.
int sync_folder(const std::filesystem::path& path);

}  // namespace foretone::scene
