#include "watch.hpp"

#include <signal.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <iostream>
#include <memory>
#include <mutex>
#include <string_view>
#include <thread>

#include "foretone/scene/writing.hpp"

namespace foretone::cli {
namespace {

constexpr std::array signals = {SIGINT, SIGTERM, SIGHUP};

enum Phase { working, under_way, written };
std::atomic<int> signal_number{0}, stoppable{0}, phase{working};
static_assert(std::atomic<int>::is_always_lock_free, "a signal's handler may touch nothing else");

void say(std::string_view words) {
    if (write(STDERR_FILENO, words.data(), words.size()) < 0) return;  // nobody listens: nothing to be done
}

extern "C" void on_signal(int number) {
    const bool again = signal_number.exchange(number) != 0;
    if (phase == under_way) return;
    if (stoppable > 0 && !again) {
        say("\nstopping when what is under way is done; Ctrl-C again stops at once\n");
        return;
    }
    say(phase == written ? "\nstopped\n" : "\nstopped; nothing was written\n");
    _exit(128 + number);
}

/// The line on the terminal. Its thread is the only one outside base/parallel.hpp: it waits and prints.
class Line {
public:
    explicit Line(std::string verb) : verb_(std::move(verb)), hand_([this] { show(); }) {}
    ~Line() {
        {
            const std::lock_guard hold(lock_);
            over_ = true;
        }
        changed_.notify_all();
        hand_.join();
        if (shown_) std::cerr << "\r\x1b[K" << std::flush;
    }
    Line(const Line&) = delete;
    Line& operator=(const Line&) = delete;

    void tell(const std::string& words) {
        const std::lock_guard hold(lock_);
        words_ = words;
    }

private:
    void show() {
        using namespace std::chrono;
        const auto start = steady_clock::now();
        std::unique_lock hold(lock_);
        for (auto next = start + seconds(2); !changed_.wait_until(hold, next, [this] { return over_; });
             next += milliseconds(500)) {
            const auto passed = duration_cast<seconds>(steady_clock::now() - start).count();
            std::cerr << "\r\x1b[K" << verb_ << ": " << passed << " s" << (words_.empty() ? "" : ", ") << words_
                      << std::flush;
            shown_ = true;
        }
    }

    std::mutex lock_;
    std::condition_variable changed_;
    bool over_ = false, shown_ = false;
    std::string verb_, words_;
    std::thread hand_;
};

std::unique_ptr<Line> line;

}  // namespace

Watch::Watch(std::string verb, bool quiet) {
    signal_number = 0;
    phase = working;
    // Files under names of their own may lie about while results are written: no signal ends the run there.
    scene::watch_writing({[](bool now) {
                              if (now) end_progress();
                              phase = now ? under_way : written;
                          },
                          stop_asked});
    if (!quiet && isatty(STDERR_FILENO)) {
        // The line's thread takes no signals: a write that waits for a reader is to be woken by them.
        sigset_t all, before;
        sigfillset(&all);
        pthread_sigmask(SIG_SETMASK, &all, &before);
        line = std::make_unique<Line>(std::move(verb));
        pthread_sigmask(SIG_SETMASK, &before, nullptr);
    }
    for (const int number : signals) {
        struct sigaction action {};
        if (sigaction(number, nullptr, &action) != 0 || action.sa_handler == SIG_IGN) continue;
        action = {};
        action.sa_handler = on_signal;
        sigaction(number, &action, nullptr);
    }
}

Watch::~Watch() { end_progress(); }

void tell(const std::string& words) {
    if (line) line->tell(words);
}

void end_progress() { line.reset(); }

Stoppable::Stoppable() { ++stoppable; }
Stoppable::~Stoppable() { --stoppable; }

bool stop_asked() { return signal_number != 0; }

int status_after(int status) { return signal_number != 0 ? 128 + signal_number : status; }

}  // namespace foretone::cli
