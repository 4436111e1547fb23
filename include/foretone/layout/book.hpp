#pragma once
/// The swatch book: many chips on few pages, or cards to cut out and hang on a ring; an index at the end.

#include <string>
#include <vector>

#include "foretone/layout/client_sheet.hpp"

namespace foretone::layout {

/// How the chips stand: close together, or as cards with cut marks and a place for the ring's hole.
enum class BookForm { pages, cards };

/// Pixels of a chip's picture, and how many chips go on a page.
struct ChipRoom {
    int width = 0, height = 0;
    std::size_t columns = 0, rows = 0;
    std::size_t on_a_page() const { return columns * rows; }
};
ChipRoom chip_room(Paper paper, BookForm form);

/// One chip. Texts are UTF-8, printed as given, shortened where they do not fit.
struct Chip {
    std::string number;  ///< our own running number
    std::string name;    ///< of the finish
    std::string wood, light;
    std::string vary;    ///< in words; cards alone have room for it
    std::string recipe;  ///< likewise
    bool fails = false;  ///< the order rules refuse it: a black tag stands in the light's place
    light::Code code{};  ///< the color computed for it, flat
    bool in_gamut = true;
    std::vector<light::Code> plausible;  ///< what real boards may turn out as, pale to dark; 0–48
    light::Image picture;                ///< of `chip_room`'s size
};

/// One entry of the index: a bold word, what stands under it, and where it is found.
struct IndexEntry {
    std::string head, text;
    std::string where{};
};

struct Book {
    std::string title, facts;
    std::vector<Chip> chips;  ///< 1 to 1000
    std::string how_to_read;  ///< below the title of the index
    std::vector<IndexEntry> finishes, woods;
    std::vector<ClientCaution> cautions;
    std::string shop;  ///< figures in small print
};

/// Pages of chips, then the index. Throws std::invalid_argument for no chips or too many, and for a picture that is not
/// of the room's size.
std::vector<Sheet> lay_out(const Book& book, Paper paper, BookForm form);

}  // namespace foretone::layout
