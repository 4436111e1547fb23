#pragma once
// The middle of some numbers (of an even count the upper of the two in the middle); at least one.

#include <algorithm>
#include <vector>

namespace foretone::photo {

inline double median(std::vector<double> v) {
    const auto half = v.begin() + std::ptrdiff_t(v.size() / 2);
    std::nth_element(v.begin(), half, v.end());
    return *half;
}

}  // namespace foretone::photo
