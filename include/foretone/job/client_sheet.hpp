#pragma once
/// A scene as the client's sheet: which finishes, which lights, which clear control.

#include <optional>
#include <string>
#include <vector>

#include "foretone/layout/client_sheet.hpp"
#include "foretone/job/preview.hpp"

namespace foretone::job {

struct SheetRequest {
    std::vector<std::string> finishes;  ///< names; empty: all of the scene
    std::string date;                   ///< printed on the date's line
};

struct ClientSheetWork {
    Preview preview;                   ///< the shown finishes, then the clear control if it is none of them
    std::size_t shown = 0;             ///< how many of its finishes are on the sheet
    std::optional<std::size_t> clear;  ///< which of its finishes is the clear control
    std::size_t lights_left_out = 0;   ///< of the look, beyond the two that are shown
    std::string clear_name;            ///< how the sheet calls it
};

/// The sheet of one to four finishes. Lights: the look's first two; of a single D65 or A, both; of any other single
/// light, it after D65. Clear control: of the shown finishes' last steps, their colorants left out, the film with the
/// least absorption at 450 nm (an oil, a wax, if there is no film), put on bare wood as that step says; none if nothing
/// but dye is put on. Throws InputError: finish-empty, finish-unknown with the nearest names, finish-too-many with
/// those to choose from, and what `preview` throws.
ClientSheetWork client_sheet(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver,
                             const SheetRequest& request);

}  // namespace foretone::job
