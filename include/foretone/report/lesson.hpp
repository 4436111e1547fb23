#pragma once
/// A lesson in words: what it asks, and what the numbers answer.

#include "foretone/job/lesson.hpp"
#include "foretone/layout/lesson.hpp"

namespace foretone::report {

/// Both pages but their pictures. `number` of `count` lessons in the set, from 1.
layout::Lesson lesson_pages(const job::LessonWork& work, std::size_t number, std::size_t count);

/// The answer, sentence by sentence, from the computed numbers alone; the first says which board is which.
std::vector<std::string> lesson_answer(const job::LessonWork& work);

std::string lessons_json(const std::vector<job::LessonWork>& lessons, layout::Paper paper);

}  // namespace foretone::report
