#pragma once
/// The client's sheet in words: all that stands on it but the boards, which are painted when it is laid out.

#include "foretone/job/client_sheet.hpp"
#include "foretone/layout/client_sheet.hpp"

namespace foretone::report {

struct WrittenSheet : job::ClientSheetWork {
    layout::ClientSheet page;
    std::vector<std::string> gloss;  ///< of each shown finish: "30 gloss units"; empty where there is no film
    std::string rests_on;            ///< the weakest mark, what it means, and whose figures have it
};

/// What `job::client_sheet` chooses, with every word. Throws as it does.
WrittenSheet client_sheet(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver,
                          const job::SheetRequest& request);

/// The same as JSON.
std::string client_sheet_json(const WrittenSheet& sheet, layout::Paper paper);

}  // namespace foretone::report
