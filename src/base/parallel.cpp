#include "foretone/base/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <utility>

namespace foretone::base {
namespace {

constexpr int band_rows = 64;  // small enough that threads end together, large enough that a band's set-up is nothing

thread_local bool one_of_many = false;  // this thread is working for a parallel_for that has others

class Sharing {
public:
    Sharing() : before_(std::exchange(one_of_many, true)) {}
    ~Sharing() { one_of_many = before_; }
    Sharing(const Sharing&) = delete;
    Sharing& operator=(const Sharing&) = delete;

private:
    bool before_;
};

class Shared {
public:
    Shared(std::size_t count, const std::function<void(std::size_t)>& work) : count_(count), work_(work) {}

    void take_all() {
        const Sharing sharing;
        while (!failed_) {  // what was taken is done: so all below a number that fails are
            const std::size_t i = next_++;
            if (i >= count_) break;
            try {
                work_(i);
            } catch (...) {
                keep(i);
            }
        }
    }

    void rethrow() const {
        if (thrown_) std::rethrow_exception(thrown_);
    }

private:
    // Smaller numbers were begun before: all that will throw below this one are still to be heard of.
    void keep(std::size_t i) {
        const std::lock_guard lock(guard_);
        if (!thrown_ || i < first_) {
            thrown_ = std::current_exception();
            first_ = i;
        }
        failed_ = true;
    }

    const std::size_t count_;
    const std::function<void(std::size_t)>& work_;
    std::atomic<std::size_t> next_{0};
    std::atomic<bool> failed_{false};
    std::mutex guard_;
    std::exception_ptr thrown_;
    std::size_t first_ = 0;
};

}  // namespace

unsigned machine_threads() {
#if defined(__EMSCRIPTEN__) && !defined(__EMSCRIPTEN_PTHREADS__)
    return 1;
#else
    return std::max(1U, std::thread::hardware_concurrency());
#endif
}

void parallel_for(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work) {
    const bool alone = one_of_many || threads == 1 || count < 2 || (threads == 0 && machine_threads() == 1);
    if (alone) {
        for (std::size_t i = 0; i < count; ++i) work(i);
        return;
    }
    const std::size_t hands = std::min<std::size_t>(threads > 0 ? threads : machine_threads(), count);
    Shared shared(count, work);
    std::vector<std::thread> others;
    others.reserve(hands - 1);
    try {
        while (others.size() + 1 < hands) others.emplace_back([&shared] { shared.take_all(); });
    } catch (const std::system_error&) {
        // The machine gives no more threads: those there are do the work.
    }
    shared.take_all();
    for (auto& t : others) t.join();
    shared.rethrow();
}

void parallel_rows(int rows, unsigned threads, const std::function<void(int, int)>& work) {
    const int bands = (rows + band_rows - 1) / band_rows;
    parallel_for(static_cast<std::size_t>(std::max(0, bands)), threads, [&](std::size_t band) {
        const int first = static_cast<int>(band) * band_rows;
        work(first, std::min(rows, first + band_rows));
    });
}

}  // namespace foretone::base
