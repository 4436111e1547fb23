#pragma once
// A coat on a board, in storage that is there: of boards by the thousand the storage is most of the time.

#include "foretone/appearance/board.hpp"

namespace foretone::appearance {

/// `after_drying` and `while_wet`, into a board, not `before`, whose storage is used again.
void dry_into(Board& after, const Board& before, std::shared_ptr<const schedule::Deposit> deposit,
              const material::Wood& wood);
void damp_into(Board& after, const Board& before, std::shared_ptr<const schedule::Deposit> deposit,
               const material::Wood& wood);

}  // namespace foretone::appearance
