#pragma once
/// A treatment on one spot of a board: what it takes out of the wood and what it makes there.

#include "foretone/appearance/board.hpp"

namespace foretone::appearance {

/// `share` of the coat goes in here.
void change_wood(Board& board, const schedule::WoodChange& change, double share);

}  // namespace foretone::appearance
