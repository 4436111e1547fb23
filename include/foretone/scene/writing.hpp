#pragma once
/// What a program that catches signals is told about writing, and is asked.

#include <functional>

namespace foretone::scene {

struct WritingWatch {
    std::function<void(bool)> under_way = {};  ///< true before the first byte, false when all is in place or undone
    std::function<bool()> stop = {};           ///< has a signal come? What waits for a reader is then given up
};

/// Signals are the whole program's, and so is this: `write_all` uses what was given last.
void watch_writing(WritingWatch watch);

}  // namespace foretone::scene
