#include <catch2/catch.hpp>

#include <vector>

#include "foretone/base/large_pages.hpp"

TEST_CASE("memory asked for in large pages holds what it held") {
    std::vector<int> numbers;
    numbers.reserve(3U << 20U);
    foretone::base::prefer_large_pages(numbers.data(), numbers.capacity() * sizeof(int));
    numbers.assign(3U << 20U, 7);
    CHECK(numbers.front() == 7);
    CHECK(numbers.back() == 7);
    foretone::base::prefer_large_pages(nullptr, 0);
    foretone::base::prefer_large_pages(numbers.data(), 5);
}
