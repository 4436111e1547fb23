#pragma once
/// Rows of a picture shared out among threads. The caller's work on a row must depend on that row alone: then the
/// result is the same for any number of threads.

#include <functional>

namespace foretone::grain {

/// Calls work(first, end) for bands that together are 0 … rows − 1, each row once. `threads` 0: as many as the machine
/// has; 1: in the caller's thread. An exception in a band is thrown again here.
void for_rows(int rows, int threads, const std::function<void(int first, int end)>& work);

}  // namespace foretone::grain
