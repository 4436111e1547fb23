#pragma once
/// Arguments out of their range.

#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"

namespace foretone::optics {

/// Throws std::invalid_argument "WHAT is VALUE" unless `good`.
inline void require(bool good, const char* what, double value) {
    if (!good) throw std::invalid_argument(std::string(what) + " is " + base::shortest(value));
}

}  // namespace foretone::optics
