#pragma once
// The verdict on ageing, as Markdown and JSON.

#include <nlohmann/json_fwd.hpp>

#include "foretone/job/ageing_verdict.hpp"

namespace foretone::report {

std::string ageing_markdown(const job::AgeingVerdict& v);

/// Adds "published_ageing" and "ageing_figures".
void add_ageing(nlohmann::ordered_json& to, const job::AgeingVerdict& v);

}  // namespace foretone::report
