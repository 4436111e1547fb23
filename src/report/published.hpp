#pragma once
/// Published boards beside the model, as tables and as JSON.

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "foretone/job/verdict.hpp"

namespace foretone::report {

std::string published_markdown(const job::Verdict& verdict);

/// Adds `published_boards`, `coverage`, `fitted` and `rankings`.
void add_published(nlohmann::ordered_json& to, const job::Verdict& verdict);

}  // namespace foretone::report
