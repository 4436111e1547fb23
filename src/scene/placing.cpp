#include "placing.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <charconv>
#include <chrono>
#include <cstring>

#include <fmt/core.h>

namespace foretone::scene {
namespace {
namespace fs = std::filesystem;

constexpr int most_links = 40;  // as the kernel counts

// The open file that a name means: 1 for /dev/stdout, N for /dev/fd/N. Opened anew it would begin at its first byte.
int open_file_named(const fs::path& path) {
    if (path == "/dev/stdout") return STDOUT_FILENO;
    if (path == "/dev/stderr") return STDERR_FILENO;
    const auto folder = path.parent_path();
    if (folder != "/dev/fd" && folder != "/proc/self/fd") return -1;
    const std::string name = path.filename().string();
    int number = -1;
    const auto read = std::from_chars(name.data(), name.data() + name.size(), number);
    return read.ec == std::errc{} && read.ptr == name.data() + name.size() ? number : -1;
}

// A name that no other run and no other thread has; that it is new is O_EXCL's business, this only makes it likely.
fs::path name_beside(const fs::path& path) {
    static std::atomic<unsigned> count{0};
    const auto now = std::chrono::steady_clock::now().time_since_epoch().count();
    return folder_of(path) / fmt::format(".foretone-{}-{:x}-{}.part", getpid(), now, count++);
}

// Mode and owner of what stood there. An owner that may not be given away stays the writer.
int take_on(int descriptor, const struct stat& from) {
    if (from.st_uid != geteuid() || from.st_gid != getegid())
        if (fchown(descriptor, from.st_uid, from.st_gid) != 0 &&
            fchown(descriptor, static_cast<uid_t>(-1), from.st_gid) != 0)
            errno = 0;
    return fchmod(descriptor, from.st_mode & 07777) == 0 ? 0 : errno;
}

using Stop = std::function<bool()>;

int open_again(const char* path, int flags, mode_t mode = 0, const Stop& stop = {}) {
    int descriptor = -1;
    do descriptor = ::open(path, flags | O_CLOEXEC, mode);
    while (descriptor < 0 && errno == EINTR && !(stop && stop()));
    return descriptor;
}

int write_all_of(int descriptor, std::span<const std::uint8_t> bytes, const Stop& stop) {
    while (!bytes.empty()) {
        const auto n = ::write(descriptor, bytes.data(), bytes.size());
        if (n < 0 && errno == EINTR && !(stop && stop())) continue;
        if (n <= 0) return n < 0 ? errno : EIO;
        bytes = bytes.subspan(static_cast<std::size_t>(n));
    }
    return 0;
}

int write_whole(int descriptor, const OutputFile& file, const Stop& stop) {
    const int error = write_all_of(descriptor, file.bytes, stop);
    if (error != 0 || !file.rest) return error;
    return file.rest->each([&](auto bytes) { return write_all_of(descriptor, bytes, stop); });
}

}  // namespace

fs::path folder_of(const fs::path& path) { return path.has_parent_path() ? path.parent_path() : fs::path("."); }

Descriptor::~Descriptor() { close(); }

int Descriptor::close() {
    if (number_ < 0) return 0;
    const int failed = ::close(number_);
    number_ = -1;
    return failed == 0 || errno == EINTR ? 0 : errno;
}

std::string cause(int number) {
    switch (number) {
        case ENOSPC:
            return "the disk is full";
        case EDQUOT:
            return "your share of the disk is used up";
        case EACCES:
        case EPERM:
            return "you are not allowed to write here";
        case EROFS:
            return "this disk can only be read";
        case ENAMETOOLONG:
            return "the name is too long";
        case EPIPE:
            return "what reads it has closed";
        case EBADF:
            return "it is closed";
        case EIO:
            return "the disk reports a fault";
        case EINTR:
            return "stopped while it waited for a reader";
        case ELOOP:
            return "links lead in a circle";
        case ENOTDIR:
            return "part of the path is a file, not a folder";
        case ENXIO:
            return "this is a socket, or a device that is not there";
        default:
            return std::strerror(number);
    }
}

bool Destination::same_as(const Destination& other) const {
    if (open_as >= 0 || other.open_as >= 0) return open_as == other.open_as;
    if (there && other.there) return there->st_dev == other.there->st_dev && there->st_ino == other.there->st_ino;
    return !there && !other.there &&
           fs::absolute(path).lexically_normal() == fs::absolute(other.path).lexically_normal();
}

Destination destination_of(fs::path path) {
    Destination out;
    for (int links = 0;; ++links) {
        out.path = path;
        if (out.open_as = open_file_named(path); out.open_as >= 0) return out;
        struct stat here {};
        if (lstat(path.c_str(), &here) != 0) {
            out.error = errno == ENOENT ? 0 : errno;
            return out;
        }
        if (!S_ISLNK(here.st_mode)) {
            out.there = here;
            return out;
        }
        std::error_code error;
        const auto to = fs::read_symlink(path, error);
        out.error = links == most_links ? ELOOP : error ? error.value() : 0;
        if (out.error != 0) return out;
        path = to.is_absolute() ? to : folder_of(path) / to;
    }
}

int write_fully(int descriptor, std::span<const std::uint8_t> bytes) { return write_all_of(descriptor, bytes, {}); }

int write_into(const Destination& target, const OutputFile& file, const Stop& stop) {
    if (stop && stop()) return EINTR;
    if (target.open_as >= 0) return write_whole(target.open_as, file, stop);
    Descriptor out(open_again(target.path.c_str(), O_WRONLY | O_NOCTTY, 0, stop));
    if (!out) return errno;
    const int error = write_whole(out.get(), file, stop);
    const int closed = out.close();
    return error != 0 ? error : closed;
}

fs::path write_beside(const Destination& target, const OutputFile& file, int& error) {
    fs::path path;
    Descriptor out;
    do {
        path = name_beside(target.path);
        out = Descriptor(open_again(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW, 0666));
    } while (!out && errno == EEXIST);
    if (!out) {
        error = errno;
        return {};
    }
    error = target.there ? take_on(out.get(), *target.there) : 0;
    if (error == 0) error = write_whole(out.get(), file, {});
    if (error == 0 && file.lasting && fsync(out.get()) != 0) error = errno;
    if (const int closed = out.close(); error == 0) error = closed;
    if (error != 0) ::unlink(path.c_str());
    return error == 0 ? path : fs::path();
}

int sync_folder(const fs::path& path) {
    Descriptor folder(open_again(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY));
    if (!folder) return errno;
    return fsync(folder.get()) == 0 || errno == EINVAL ? 0 : errno;  // some file systems have nothing to sync there
}

}  // namespace foretone::scene
