#pragma once
/// Many boards as one page and as JSON, and what is said of each in a word or two.

#include <string>
#include <vector>

#include "foretone/job/overview.hpp"
#include "foretone/layout/overview.hpp"

namespace foretone::report {

/// What is to be known of a board, worst first: "will not hold: no-tannin", "may not hold: bleeds", "blotchy", "beyond
/// the screen"; "not worked out: step-amount" where there is a fault; in a table's few columns without the findings'
/// ids. Empty: nothing.
enum class Remarks { full, brief };
std::string remarks(const job::OverviewBoard& board, Remarks how = Remarks::full);

/// A board's finish among the others of its group: its name, with its scene's title before it where scenes mix there.
std::string finish_of(const job::Overview& all, const job::OverviewBoard& board);

/// Boards under one heading, as indices into `boards`: of one finish on many woods; else of one wood, or of one scene.
struct OverviewGroup {
    std::string heading;
    bool by_wood = false;  ///< its boards differ in their woods; else in their finishes
    std::vector<std::size_t> boards;
};
std::vector<OverviewGroup> grouped(const job::Overview& all);

/// "3 finishes on 28 woods"
std::string overview_title(const job::Overview& all);

/// The page: all boards under the first light, each with its bare wood.
layout::Overview overview_page(const job::Overview& all);

/// {"tool", "scenes", "boards": [{"scene", "wood", "wood_name", then as in preview's "finishes", or "fault"}],
/// "warnings", "cautions"}
std::string overview_json(const job::Overview& all);

}  // namespace foretone::report
