#include "foretone/base/large_pages.hpp"

#include <cstdint>

#if defined(__linux__)
#include <sys/mman.h>
#endif

namespace foretone::base {

void prefer_large_pages(void* memory, std::size_t bytes) {
#if defined(__linux__) && defined(MADV_HUGEPAGE)
    constexpr std::uintptr_t page = std::uintptr_t{1} << 21U;  // of most machines; the hint may be of no use on others
    const auto first = reinterpret_cast<std::uintptr_t>(memory), from = (first + page - 1) / page * page,
               end = (first + bytes) / page * page;
    if (end > from) (void)::madvise(reinterpret_cast<void*>(from), end - from, MADV_HUGEPAGE);
#else
    (void)memory, (void)bytes;
#endif
}

}  // namespace foretone::base
