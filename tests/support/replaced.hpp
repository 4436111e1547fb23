#pragma once
/// A text with one piece of it put otherwise.

#include <catch2/catch.hpp>
#include <string>

namespace foretone::test {

/// `text` with its first `from` as `to`; the test fails if there is none.
inline std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

}  // namespace foretone::test
