#include "folder_lock.hpp"

#include <fcntl.h>
#include <sys/file.h>

#include <cerrno>
#include <chrono>
#include <thread>

#include "foretone/scene/problem.hpp"

namespace foretone::scene {
namespace {
using namespace std::chrono_literals;

constexpr auto between_tries = 2ms;
constexpr int most_tries = 30'000;  // a minute; an entry takes some milliseconds

// Returns errno, EWOULDBLOCK if another run holds it to the end.
int lock(int descriptor) {
    for (int tries = 0; tries < most_tries; ++tries) {
        if (flock(descriptor, LOCK_EX | LOCK_NB) == 0) return 0;
        if (errno != EWOULDBLOCK && errno != EINTR) return errno;
        std::this_thread::sleep_for(between_tries);
    }
    return EWOULDBLOCK;
}

}  // namespace

FolderLock::FolderLock(const std::filesystem::path& file) {
    const auto folder = folder_of(file);
    held_ = Descriptor(open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    int error = held_ ? lock(held_.get()) : errno;
    if (error != 0 && error != EWOULDBLOCK && held_) {
        const auto beside = folder / ("." + file.filename().string() + ".lock");
        held_ = Descriptor(open(beside.c_str(), O_RDWR | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0666));
        error = held_ ? lock(held_.get()) : errno;
    }
    if (error == EWOULDBLOCK)
        throw InputError("notebook-busy", {file.string()},
                         "another run has been writing here for a minute; end it, or wait for it, and try again");
    if (error != 0)
        throw InputError("out-unwritable", {file.string()},
                         "the folder cannot be locked against other runs: " + cause(error));
}

}  // namespace foretone::scene
