#pragma once
/// The boards of the client's sheet.

#include <cstdint>

#include "foretone/picture/grain.hpp"
#include "foretone/scene/client_sheet.hpp"

namespace foretone::cli {

/// Which piece of wood they are cut from.
struct SheetBoards {
    picture::Cut cut = picture::Cut::flat;
    std::uint64_t seed = 0;
};

/// Paints the boards of `work`, which must outlive the painter: grain at true size, the same piece of wood under every
/// finish.
picture::BoardPainter board_painter(const scene::ClientSheetWork& work, const scene::Library& library,
                                    const SheetBoards& how);

}  // namespace foretone::cli
