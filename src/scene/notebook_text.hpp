#pragma once
// The notebook as text.

#include "foretone/scene/notebook.hpp"

namespace foretone::scene {

struct BookText {
    std::string text;  ///< what can be read
    std::string torn;  ///< what stands behind it: an entry that was cut off
    std::vector<NotebookEntry> entries = {};
    bool tables = false;  ///< there are entries, each a table under a head of its own: one more can stand below them
};

/// The notebook in `text`. Throws InputError with everything found wrong in it; a last entry that ends in the middle of
/// a line and cannot be read is torn, not wrong.
BookText read_book(const std::string& text, const std::string& file);

/// What a new notebook begins with.
std::string book_head(const std::filesystem::path& scene, const std::string& title);

std::string entry_text(const NotebookEntry& entry);

/// Throws InputError date-syntax.
void require_date(const std::string& date, const std::string& file);

}  // namespace foretone::scene
