#pragma once
// Words that a lesson's front and back share.

#include "foretone/job/lesson.hpp"

namespace foretone::report {

/// What a board is, with lights by their names.
std::string board_name(const job::LessonWork& work, std::size_t board);

}  // namespace foretone::report
