// The words of the marks, in the order of `Mark`: from measured, the strongest, to memory.

#include "foretone/material/figure.hpp"

#include <array>

namespace foretone::material {
namespace {
constexpr std::array<std::string_view, 7> words = {"measured", "published", "computed", "fitted",
                                                   "practice", "stated",    "memory"};
}

std::string_view word(Mark mark) { return words[static_cast<std::size_t>(mark)]; }

std::optional<Mark> mark_from(std::string_view text) {
    for (std::size_t i = 0; i < words.size(); ++i)
        if (words[i] == text) return static_cast<Mark>(i);
    return std::nullopt;
}

}  // namespace foretone::material
