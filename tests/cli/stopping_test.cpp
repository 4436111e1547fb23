// A run that is stopped: exit status 128 and the signal's number, what is done kept, nothing half written.

#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <functional>
#include <sstream>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "cli/program.hpp"

namespace foretone::test {
namespace {
namespace fs = std::filesystem;

const std::string stopped_scenes = FORETONE_SCENES;

/// The program in the background, in `folder()`, with what it says in a file.
class Background {
public:
    explicit Background(std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), program());
        std::vector<char*> words;
        for (auto& a : arguments) words.push_back(a.data());
        words.push_back(nullptr);
        id_ = fork();
        if (id_ != 0) return;
        for (const int number : {SIGINT, SIGTERM, SIGHUP})  // the test program's own handlers go; ignored stays ignored
            if (::signal(number, SIG_DFL) == SIG_IGN) ::signal(number, SIG_IGN);
        if (chdir(folder().c_str()) != 0 || !std::freopen("said.txt", "w", stderr) ||
            !std::freopen("/dev/null", "w", stdout))
            _exit(99);
        execv(words[0], words.data());
        _exit(98);
    }
    ~Background() {
        if (id_ > 0) kill(id_, SIGKILL), waitpid(id_, nullptr, 0);
    }
    Background(const Background&) = delete;
    Background& operator=(const Background&) = delete;

    /// Has it put a handler of its own in place for SIGINT? (proc(5): SigCgt, a mask in base 16)
    bool catches() const {
        std::error_code none_yet;
        if (fs::read_symlink("/proc/" + std::to_string(id_) + "/exe", none_yet) != fs::canonical(program()))
            return false;  // still this test, before its exec
        std::ifstream in("/proc/" + std::to_string(id_) + "/status");
        for (std::string line; std::getline(in, line);)
            if (line.starts_with("SigCgt:")) return (std::stoull(line.substr(7), nullptr, 16) >> (SIGINT - 1) & 1) != 0;
        return false;
    }
    void signal(int number) const { kill(id_, number); }
    /// Is it over, though not yet heard out?
    bool ended() const {
        siginfo_t info{};
        return waitid(P_PID, static_cast<id_t>(id_), &info, WEXITED | WNOHANG | WNOWAIT) == 0 && info.si_pid == id_;
    }
    int status() {
        int raw = 0;
        waitpid(std::exchange(id_, -1), &raw, 0);
        return WIFEXITED(raw) ? WEXITSTATUS(raw) : -WTERMSIG(raw);
    }
    static std::string said() {
        std::stringstream all;
        all << std::ifstream(fs::path(folder()) / "said.txt").rdbuf();
        return all.str();
    }

private:
    pid_t id_;
};

/// Waits until something is so, a minute at most.
bool comes(const std::function<bool()>& so) {
    for (int i = 0; i < 6000; ++i, std::this_thread::sleep_for(std::chrono::milliseconds(10)))
        if (so()) return true;
    return false;
}

std::vector<std::string> files_in(const std::string& name) {
    std::vector<std::string> out;
    if (exists(name))
        for (const auto& e : fs::directory_iterator(fs::path(folder()) / name)) out.push_back(e.path().filename());
    return out;
}

// The status of a run that gets Ctrl-C as soon as it listens for it. On a busy machine it may have ended by then: once
// more.
int interrupted(const std::vector<std::string>& arguments) {
    for (int attempt = 0; attempt < 10; ++attempt) {
        fresh_folder();
        Background program(arguments);
        if (!comes([&] { return program.catches() || program.ended(); })) return -1000;
        program.signal(SIGINT);
        if (const int status = program.status(); status != 0) return status;
    }
    return 0;
}

}  // namespace

TEST_CASE("Ctrl-C ends a run that cannot be left in pieces with status 130, and nothing is written", "[cli]") {
    for (const char* verb : {"preview", "coats"}) {
        INFO(verb);
        CHECK(interrupted({verb, stopped_scenes + "/shelf-pine.toml"}) == 130);
        CHECK(Background::said().find("nothing was written") != std::string::npos);
        CHECK(files_in("out").empty());
    }
}

TEST_CASE("Ctrl-C ends boards, exports and searches with status 130, and leaves whole files alone", "[cli]") {
    const std::vector<std::vector<std::string>> runs = {{"board", stopped_scenes + "/shelf-pine.toml"},
                                                        {"export", stopped_scenes + "/shelf-pine.toml"},
                                                        {"match", stopped_scenes + "/chest-ash.toml"}};
    for (const auto& arguments : runs) {
        INFO(arguments[0]);
        CHECK(interrupted(arguments) == 130);
        CHECK(Background::said().find("stopp") != std::string::npos);
        for (const auto& name : files_in("out")) CHECK_FALSE(name.starts_with("."));
    }
}

TEST_CASE("A verdict that is stopped ends with status 130; what it keeps says what was not judged", "[cli]") {
    CHECK(interrupted({"verify", "--worlds", "0"}) == 130);
    for (const auto& name : files_in("out")) {
        CHECK(name == "verify.md");
        std::stringstream text;
        text << std::ifstream(fs::path(folder()) / "out/verify.md").rdbuf();
        CHECK(text.str().find("Stopped by hand. Not judged: ") != std::string::npos);
    }
}

TEST_CASE("A result that waits for a reader is given up at Ctrl-C, and leaves nothing beside its place", "[cli]") {
    fresh_folder();
    REQUIRE(mkfifo((fs::path(folder()) / "pipe").c_str(), 0600) == 0);
    Background program({"preview", stopped_scenes + "/shelf-pine.toml", "--json", "pipe"});
    REQUIRE(comes([] { return !files_in("out").empty(); }));  // pictures lie ready beside their places
    // Once is enough but for the moment between a look at the signal and the wait.
    REQUIRE(comes([&] {
        program.signal(SIGINT);
        return program.ended();
    }));
    CHECK(program.status() == 130);
    CHECK(files_in("out").empty());
    CHECK(fs::is_fifo(fs::path(folder()) / "pipe"));
}

TEST_CASE("A signal that was ignored at the start stays ignored", "[cli]") {
    fresh_folder();
    struct sigaction before {};
    struct sigaction ignore {};
    ignore.sa_handler = SIG_IGN;
    sigaction(SIGHUP, &ignore, &before);
    Background program({"preview", stopped_scenes + "/shelf-pine.toml", "--no-pictures", "--json", "seen.json"});
    sigaction(SIGHUP, &before, nullptr);
    REQUIRE(comes([&] { return program.catches(); }));
    program.signal(SIGHUP);
    CHECK(program.status() == 0);
    CHECK(exists("seen.json"));
}

}  // namespace foretone::test
