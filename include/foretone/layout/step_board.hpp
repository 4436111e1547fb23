#pragma once
/// The step board: one finish, every stage beside the one before it, under every light.

#include <string>
#include <vector>

#include "foretone/layout/field.hpp"
#include "foretone/layout/sheet.hpp"

namespace foretone::layout {

struct StageColumn {
    std::string stage;            ///< "bare", "damp", "coat 1" …
    std::string action;           ///< what was done: "amber shellac, coat 2"; may be empty
    std::vector<Field> by_light;  ///< one a light, in the order of `StepBoard::lights`
};

/// What the finished board may turn out as under one light.
struct Plausible {
    std::vector<light::Code> codes;  ///< plausible colors in the order they are shown, 1–48
    bool in_gamut = true;            ///< false: some of them have less chroma than the color
    std::string words;               ///< how far they reach: "90 % within ΔE00 4.1 of ..."; may be empty
};

struct StepBoard {
    std::string scene, finish, wood, geometry, observer;  ///< UTF-8, printed as given; empty ones are left out
    std::vector<std::string> lights;                      ///< 1–8 names
    std::vector<StageColumn> columns;                     ///< 1–64, first stage first
    std::vector<Plausible> plausible;                     ///< one a light, or empty: not shown
    std::string rests_on;            ///< the weakest provenance mark, with what it is about; may be empty
    std::vector<std::string> notes;  ///< printed at the foot
};

/// Lays the board out for 150 dpi. Stages touch edge to edge; more than eight are set in several rows, and each later
/// row begins with the last stage of the row above, so that no two neighbours are parted. Every field is captioned with
/// L* a* b*, its sRGB code and its spread. Below stand, for each light, a strip of what the finished board may turn out
/// as, and under it a bar of the color computed for it. Names too long for their room are wrapped, and shortened with
/// "…" beyond that. Throws std::invalid_argument, naming the column and light: no or too many columns or lights, a
/// column without one field a light, a value that is not finite, a negative spread, a `hex` that is not that of `code`.
Sheet lay_out(const StepBoard& board);

}  // namespace foretone::layout
