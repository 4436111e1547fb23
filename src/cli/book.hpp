#pragma once
// What the pages of a book and of lessons have in common on the command line.

#include <vector>

#include "common.hpp"
#include "foretone/grain/grain.hpp"
#include "foretone/layout/sheet.hpp"

namespace foretone::cli {

struct BookOptions : Common {
    std::vector<std::string> scenes, woods;
    std::string paper, light, cut = "flat", title;
    bool cards = false, lesson = false;
};

grain::Cut cut_of(const BookOptions& o);

/// Pages as STEM-a4.pdf and .html in the options' folder, with the JSON, if asked for; returns the files' paths.
std::vector<std::string> deliver_pages(const BookOptions& o, const std::vector<layout::Sheet>& pages,
                                       layout::Paper paper, const std::string& stem, const std::string& json);

/// `book --lesson`.
int run_lesson(const BookOptions& o);

}  // namespace foretone::cli
