#include "cli/program.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace foretone::test {
namespace fs = std::filesystem;
namespace {

std::string slurp(const fs::path& p) {
    std::ifstream in(p, std::ios::binary);
    std::stringstream s;
    s << in.rdbuf();
    return s.str();
}

}  // namespace

std::string program() {
    const char* const named = std::getenv("FORETONE");
    if (!named) throw std::runtime_error("FORETONE names the program that these tests run: it is not set");
    return named;
}

std::string folder() {
    // Its own, so that two runs of the tests beside each other do not meet; a child of a fork keeps its parent's.
    struct Own {
        pid_t maker = getpid();
        fs::path path = fs::temp_directory_path() / ("foretone-cli-test-" + std::to_string(maker));
        ~Own() {
            std::error_code left;
            if (getpid() == maker) fs::remove_all(path, left);
        }
    };
    static const Own own;
    return own.path.string();
}

void fresh_folder() {
    fs::remove_all(folder());
    fs::create_directories(folder());
}

void write(const std::string& name, const std::string& content) {
    const auto path = fs::path(folder()) / name;
    fs::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << content;
}

void link(const std::string& name, const std::string& target) {
    fs::create_directory_symlink(target, fs::path(folder()) / name);
}

bool exists(const std::string& name) { return fs::exists(fs::path(folder()) / name); }

Run run(const std::string& arguments) {
    // Under the sanitizers looking for what was not freed takes as long as a short run: one in eight is looked at.
    static int runs = 0;
    const std::string leaks = runs++ % 8 == 0 ? "" : "ASAN_OPTIONS=\"$ASAN_OPTIONS:detect_leaks=0\" ";
    const auto out = fs::path(folder() + ".out"), err = fs::path(folder() + ".err");
    const std::string command = "cd '" + folder() + "' && " + leaks + "'" + program() + "' " + arguments + " >'" +
                                out.string() + "' 2>'" + err.string() + "'";
    const int raw = std::system(command.c_str());
    return {WIFEXITED(raw) ? WEXITSTATUS(raw) : -1, slurp(out), slurp(err)};
}

}  // namespace foretone::test
