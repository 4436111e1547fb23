#pragma once
/// The look of the client's sheet. Lengths are pixels at 200 dpi; 25 px are 9 points.
///
/// Words stand on white, as on any paper; the boards stand on a neutral grey darker than pale wood's neighbours on a
/// screen, so that it neither tints nor dazzles. Every ink has a contrast (WCAG 2.1 ratio) of at least 7 on what it
/// stands on.

#include "foretone/layout/canvas.hpp"

namespace foretone::layout::client_style {

inline constexpr light::Code paper{255, 255, 255};
inline constexpr light::Code panel{190, 190, 190};
inline constexpr light::Code ink{20, 20, 20};
inline constexpr light::Code quiet_ink{70, 70, 70};
inline constexpr light::Code panel_ink{20, 20, 20};
inline constexpr light::Code alarm{0, 0, 0};
inline constexpr light::Code alarm_ink{255, 255, 255};
inline constexpr light::Code line{120, 120, 120};

inline constexpr int margin = 78;        // 9.9 mm: inside what printers reach
inline constexpr int panel_edge = 16;    // grey around the boards
inline constexpr int board_gap = 12;     // grey between boards
inline constexpr int strip_height = 30;  // chip and likely boards, below each board
inline constexpr int strip_gap = 4;
inline constexpr int chip_share = 5;  // the chip takes a fifth of the strip
inline constexpr int row_gap = 20;
inline constexpr int column_gap = 40;  // between two columns of words
constexpr int column_of(int width) { return (width - column_gap) / 2; }

inline constexpr TextStyle overline{Face::regular, 23};
inline constexpr TextStyle facts{Face::regular, 24};
inline constexpr TextStyle light{Face::bold, 25};
inline constexpr TextStyle letter{Face::bold, 46};
inline constexpr TextStyle tag{Face::bold, 23};
inline constexpr TextStyle sheen{Face::regular, 25};
inline constexpr TextStyle small{Face::regular, 21};
inline constexpr TextStyle half{Face::regular, 20};
inline constexpr TextStyle heading{Face::bold, 23};
inline constexpr TextStyle strong{Face::bold, 28};
inline constexpr TextStyle sign{Face::regular, 23};

/// How the words are set: the first setting that leaves the boards enough room is taken.
struct Terseness {
    double text_px, fine_px;  // recipes and findings; cautions
    double title_px, name_px, beside_px;
    std::size_t name_lines, spread_lines;
    std::size_t refusal_lines;      // most lines of one refusal
    std::size_t recipe_lines;       // most lines of one recipe
    std::size_t mind_lines, minds;  // lines of one finding that it may have in any case, most findings
    std::size_t vary_lines;
    int board_wanted;  // least height of a board for which this setting will do
};
inline constexpr Terseness settings[] = {
    {22, 20, 44, 29, 21, 4, 4, 4, 4, 3, 6, 7, 250},    //
    {21, 18.5, 44, 29, 21, 3, 4, 3, 3, 3, 5, 7, 215},  //
    {20, 17.5, 42, 28, 20, 3, 4, 3, 2, 3, 4, 6, 165},  //
    {19, 17, 38, 26, 19, 2, 3, 2, 2, 1, 3, 5, 140},    //
    {18, 16, 36, 25, 19, 2, 2, 1, 1, 1, 2, 4, 0},
};

inline constexpr std::size_t mind_lines_most = 6;  // where the boards leave room
inline constexpr int board_least_wanted = 120;     // for longer findings no board becomes less high than 15 mm

}  // namespace foretone::layout::client_style
