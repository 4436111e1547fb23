#include "standard_output.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>

#include "foretone/scene/output.hpp"

namespace foretone::cli {
namespace {

// A stream that is closed gets a file that cannot be written, so that no result is opened in its place.
void hold_open() {
    for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
        if (fcntl(stream, F_GETFD) < 0 && errno == EBADF) [[maybe_unused]]
            const int held = open("/dev/null", O_RDONLY);
}

}  // namespace

StandardOutput::StandardOutput() : held_(1 << 16), before_(std::cout.rdbuf(this)) {
    hold_open();
    std::signal(SIGPIPE, SIG_IGN);
    setp(held_.data(), held_.data() + held_.size());
}

StandardOutput::~StandardOutput() { std::cout.rdbuf(before_); }

void StandardOutput::write_out() {
    const auto* bytes = reinterpret_cast<const std::uint8_t*>(pbase());
    if (error_ == 0) error_ = scene::write_fully(STDOUT_FILENO, {bytes, static_cast<std::size_t>(pptr() - pbase())});
    setp(held_.data(), held_.data() + held_.size());
}

StandardOutput::int_type StandardOutput::overflow(int_type c) {
    write_out();
    if (!traits_type::eq_int_type(c, traits_type::eof())) sputc(traits_type::to_char_type(c));
    return error_ == 0 ? traits_type::not_eof(c) : traits_type::eof();
}

int StandardOutput::sync() {
    write_out();
    return error_ == 0 ? 0 : -1;
}

std::string StandardOutput::finish() {
    write_out();
    if (error_ == 0 && close(STDOUT_FILENO) != 0 && errno != EINTR) error_ = errno;
    return error_ == 0 ? "" : scene::cause(error_);
}

}  // namespace foretone::cli
