#pragma once
/// The boards of the client's sheet.

#include <cstdint>

#include "foretone/grain/grain.hpp"
#include "foretone/job/client_sheet.hpp"

namespace foretone::job {

/// Which piece of wood they are cut from.
struct SheetBoards {
    grain::Cut cut = grain::Cut::flat;
    std::uint64_t seed = 0;
};

/// Paints the boards of `work`, which must outlive the painter: grain at true size, the same piece of wood under every
/// finish.
layout::BoardPainter board_painter(const ClientSheetWork& work, const scene::Library& library, const SheetBoards& how);

}  // namespace foretone::job
