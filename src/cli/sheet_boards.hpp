#pragma once
/// The boards of the client's sheet.

#include "foretone/scene/client_sheet.hpp"

namespace foretone::cli {

/// Paints the boards of `work`, which must outlive the painter.
picture::BoardPainter board_painter(const scene::ClientSheetWork& work);

}  // namespace foretone::cli
