#pragma once
/// Work shared out among threads: the one way to do so here. What work(i) writes must depend on i alone and lie in a
/// place of its own: then the outcome is the same for any number of threads, and in order.

#include <cstddef>
#include <functional>
#include <vector>

namespace foretone::base {

/// As many as the machine runs side by side, at least 1; 1 where there are no threads (in the browser).
unsigned machine_threads();

/// Calls work(i) for i = 0 … count − 1, each once, beginning them in that order, on up to `threads` threads of which
/// the caller's is one (0: `machine_threads`). Returns when all have ended. Within another parallel_for's threads it
/// stays in the caller's: nesting makes no more threads.
///
/// If work throws, nothing new is begun, what was begun ends, and the exception of the smallest i is thrown again: the
/// one that a plain loop would have met, whatever the threads did.
void parallel_for(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work);

/// On all of the machine's threads: to hand on where it is asked how work is shared out.
inline void parallel_for_all(std::size_t count, const std::function<void(std::size_t)>& work) {
    parallel_for(count, 0, work);
}

/// What work(0) … work(count − 1) return, in order.
template <class Work>
auto parallel_map(std::size_t count, unsigned threads, const Work& work) {
    std::vector<decltype(work(std::size_t{}))> out(count);
    parallel_for(count, threads, [&](std::size_t i) { out[i] = work(i); });
    return out;
}

/// Rows of a picture: calls work(first, end) for bands of up to 64 rows that together are 0 … rows − 1.
void parallel_rows(int rows, unsigned threads, const std::function<void(int first, int end)>& work);

}  // namespace foretone::base
