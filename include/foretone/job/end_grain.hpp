#pragma once
/// The ends of a finished board, which take a few times as much as its face.

#include "foretone/job/preview.hpp"

namespace foretone::job {

/// Adds `end_grain` to every finish of a preview: the finished state where the wood takes its `end_uptake` times as
/// much. The bare wood's own color is taken as the face's; a spread is not worked out. A wood without grain figures is
/// refused with InputError `end-grain-unknown`.
void see_end_grain(Preview& preview, const scene::Library& library, const appearance::Solver& solver);

}  // namespace foretone::job
