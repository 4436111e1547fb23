#pragma once
/// The solvers' verdict as a page.

#include "foretone/job/verdict.hpp"

namespace foretone::report {

/// As a Markdown table and as JSON.
std::string verdict_markdown(const job::Verdict& verdict);

}  // namespace foretone::report
