#pragma once
/// Large memory, asked for in large pages: touching it for the first time is several times as fast.

#include <cstddef>

namespace foretone::base {

/// Says so of memory that is not touched yet. A hint: where it is not understood nothing happens.
void prefer_large_pages(void* memory, std::size_t bytes);

}  // namespace foretone::base
