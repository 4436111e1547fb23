#pragma once
/// Reads every file of a library and everything they refer to.

#include <map>
#include <vector>

#include "foretone/scene/library.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::scene {

struct LibraryCheck {
    std::size_t files = 0;
    std::size_t figures = 0;
    std::map<material::Mark, std::size_t> marks;  ///< how many figures have each
    std::vector<Problem> problems;
};

/// Never throws for what is wrong in a file: that is reported.
LibraryCheck check_library(const Library& library);

}  // namespace foretone::scene
