#pragma once
/// The overview: many finished boards on one page, each with its bare wood below, in groups.

#include <optional>
#include <string>
#include <vector>

#include "foretone/layout/field.hpp"
#include "foretone/layout/sheet.hpp"

namespace foretone::layout {

struct OverviewBoard {
    std::string name;     ///< of the wood or the finish
    std::string remarks;  ///< "will not hold: no-tannin; blotchy"; may be empty
    std::optional<Field> finished,
        bare;  ///< both, or none: then the board could not be worked out, and its place is empty
};

struct OverviewGroup {
    std::string heading, subheading;    ///< may be empty
    std::vector<OverviewBoard> boards;  ///< 1 or more
};

struct Overview {
    std::string title, wood, geometry, observer, light;  ///< UTF-8, printed as given; empty ones are left out
    std::vector<OverviewGroup> groups;                   ///< 1 or more; 1000 boards at most
    std::string rests_on;
    std::vector<std::string> notes;
};

/// Lays the page out for 150 dpi: each group's boards in rows of up to seven; 140 boards and more, and groups that
/// would make a page of more than 16000 pixels, as one run of smaller ones, twelve to a row, with names and remarks
/// alone. Throws std::invalid_argument for a field out of range and for numbers of boards beyond these.
Sheet lay_out(const Overview& overview);

}  // namespace foretone::layout
