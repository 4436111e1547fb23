#pragma once
/// A swatch book in words, and as JSON.

#include "foretone/job/book.hpp"
#include "foretone/layout/book.hpp"

namespace foretone::report {

/// The pages' texts and pictures. `scenes` are those the book was made of; `title` empty: that of the one scene, or
/// "Swatch book". Pictures are moved out of `book`.
layout::Book book_pages(job::Book& book, const std::vector<scene::Scene>& scenes, const std::string& title);

std::string book_json(const job::Book& book, const std::vector<scene::Scene>& scenes, const std::string& title,
                      layout::Paper paper, std::size_t pages);

}  // namespace foretone::report
