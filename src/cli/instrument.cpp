#include "instrument.hpp"

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <cstring>
#include <thread>

#include "foretone/scene/problem.hpp"

extern char** environ;

namespace foretone::cli {
namespace {

// Argyll's programs then take keys as lines from standard input, and hold nothing back that they print.
const char* const by_lines = "ARGYLL_NOT_INTERACTIVE=1";

[[noreturn]] void missing(const std::string& program, int error) {
    throw scene::InputError(
        "instrument-missing", {program},
        (error == ENOENT ? std::string("there is no such program")
                         : "the program cannot be started: " + std::string(std::strerror(error))) +
            "; spotread comes with the package argyll. Without it read the boards with the instrument's own program "
            "and export them (CSV, CGATS text, CxF3)");
}

}  // namespace

Instrument::Instrument(const std::string& program, const std::vector<std::string>& arguments) {
    int keys[2], output[2];
    if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, keys) != 0) missing(program, errno);
    if (pipe2(output, O_CLOEXEC) != 0) {
        const int error = errno;
        close(keys[0]), close(keys[1]);
        missing(program, error);
    }
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, keys[1], STDIN_FILENO);
    posix_spawn_file_actions_adddup2(&actions, output[1], STDOUT_FILENO);
    posix_spawn_file_actions_adddup2(&actions, output[1], STDERR_FILENO);

    std::vector<std::string> words = {program};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<char*> argv, environment;
    for (auto& w : words) argv.push_back(w.data());
    argv.push_back(nullptr);
    for (char** e = environ; *e; ++e) environment.push_back(*e);
    std::string lines = by_lines;
    environment.push_back(lines.data());
    environment.push_back(nullptr);
    const int error = posix_spawnp(&id_, program.c_str(), &actions, nullptr, argv.data(), environment.data());
    posix_spawn_file_actions_destroy(&actions);
    close(keys[1]), close(output[1]);
    if (error != 0) {
        close(keys[0]), close(output[0]);
        missing(program, error);
    }
    keys_ = keys[0];
    output_ = output[0];
}

Instrument::~Instrument() {
    press('q');
    close(keys_);
    for (int tenths = 0; tenths < 30; ++tenths) {  // three seconds to park its lamp
        if (waitpid(id_, nullptr, WNOHANG) == id_) id_ = -1;
        if (id_ < 0) break;
        if (tenths == 15) kill(id_, SIGTERM);
        std::this_thread::sleep_for(std::chrono::milliseconds(100));
    }
    if (id_ > 0) {
        kill(id_, SIGKILL);
        waitpid(id_, nullptr, 0);
    }
    close(output_);
}

void Instrument::press(char key) const {
    const char line[] = {key, '\n'};
    if (send(keys_, line, sizeof line, MSG_NOSIGNAL) < 0) return;  // it has ended: its output says so
}

}  // namespace foretone::cli
