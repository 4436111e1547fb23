#pragma once
/// A preview as pictures: a step board for each finish, one comparison of the finished states.

#include "foretone/layout/field.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/job/preview.hpp"

namespace foretone::cli {

/// The pictures of a preview as files in `folder`, named after the scene file and the finishes.
std::vector<scene::OutputFile> pictures(const job::Preview& preview, const std::filesystem::path& folder);

/// "memory (hard-maple, water)": the weakest mark and what has it.
std::string rests_on(const appearance::Spread& spread);

/// Seen colors as a picture shows them.
layout::Field field(const job::SeenColor& color);
std::vector<layout::Field> fields(const std::vector<job::SeenColor>& colors);

/// "2° observer"
std::string observer_text(const std::string& id);

/// "mean L* 58.2 ± 3.1, a* 18.5 ± 1.2, b* 45.9 ± 3.3": one standard deviation each.
std::string region_text(const appearance::Region& region);

}  // namespace foretone::cli
