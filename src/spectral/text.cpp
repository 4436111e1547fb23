#include "foretone/spectral/text.hpp"

#include <array>
#include <charconv>

namespace foretone::spectral {

std::string text(double v) {
    std::array<char, 32> buffer{};
    const auto done = std::to_chars(buffer.data(), buffer.data() + buffer.size(), v);
    return {buffer.data(), done.ptr};
}

}  // namespace foretone::spectral
