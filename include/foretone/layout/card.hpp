#pragma once
/// The bench card, and sheets of stickers for jars and boards' backs.

#include <string>
#include <vector>

#include "foretone/layout/client_sheet.hpp"

namespace foretone::layout {

/// Rows of cells; the first is the heads of the columns.
struct CardTable {
    std::vector<int> shares;                     ///< of the width, one a column
    std::vector<std::vector<std::string>> rows;  ///< as many cells each as there are shares
    bool tick = false;                           ///< an empty box to tick stands before each row but the first
};

struct CardPart {
    std::string heading;
    CardTable table;                 ///< no rows: none
    std::vector<std::string> lines;  ///< below it, wrapped
    bool fine = false;               ///< set small
};

struct Card {
    std::string title, facts;
    std::vector<CardPart> parts;
    std::vector<std::string> label;  ///< in a frame at the end, to be cut out
};

/// As many pages as it takes; rows are not parted. Throws std::invalid_argument for a row that has not one cell a
/// share, and for no or too small shares.
std::vector<Sheet> lay_out(const Card& card, Paper paper);

struct Sticker {
    std::string code;                   ///< at its upper right corner
    std::string head;                   ///< bold
    std::vector<std::string> lines;     ///< each whole; from the first that does not go in: "see the card"
    std::vector<std::string> to_write;  ///< at its foot
    std::string if_room = "";           ///< below the lines, one line, if there is room for it
};

/// Stickers that every stationer has, mm; 14 on A4 (99.1 × 38.1), 10 on Letter (4 × 2 in).
struct StickerRoom {
    double top_mm = 0, left_mm = 0, width_mm = 0, height_mm = 0, gap_mm = 0;
    std::size_t rows = 0;
    std::size_t on_a_page() const { return 2 * rows; }
};
StickerRoom sticker_room(Paper paper);

/// One page: the stickers row by row. Throws std::invalid_argument for more than go on it.
Sheet lay_out(const std::vector<Sticker>& stickers, Paper paper);

}  // namespace foretone::layout
