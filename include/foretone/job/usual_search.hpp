#pragma once
/// What `match` may try with what a shop has at hand: a [search] from a list of materials.

#include <string>
#include <vector>

#include "foretone/scene/edit.hpp"
#include "foretone/scene/library.hpp"

namespace foretone::job {

/// The keys of [search] for the materials `use` of the library, or of the job's `own`, in the order given (common
/// practice): dyes at most two at once, thinned 10 to 100 times, at 70 g/m² wet; stains, oils and glazes as they are;
/// toners in one or two passes; resins dissolved to a cut as sprayed sealers of 1 or 2 lb under two coats of a film, or
/// as topcoats of 1 to 4 coats where there is no film; at most four steps. What is none of these is left out. Throws
/// InputError: `search-topcoat` without a film, and as Library::material.
scene::WrittenTable usual_search(const scene::Library& library, const std::vector<std::string>& use,
                                 const material::Materials& own = {});

}  // namespace foretone::job
