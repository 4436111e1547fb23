#pragma once
/// The client's sheet: one page of A4 or US Letter with up to four finishes on large boards under two lights, the bare
/// wood and a clear finish as controls, what is put on, what will vary, what to mind, and a line to sign.

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "foretone/layout/sheet.hpp"

namespace foretone::layout {

enum class Paper { a4, letter };

inline constexpr double client_sheet_dpi = 200;
inline constexpr std::size_t client_sheet_most = 4;  ///< finishes on one sheet

/// A paper's size. Pixels are at `client_sheet_dpi`, the nearest whole ones.
struct PaperSize {
    std::string_view word;  ///< "a4", "letter"
    std::string_view css;   ///< as style sheets name it
    double width_mm = 0, height_mm = 0;
    int width_px = 0, height_px = 0;
};
PaperSize size_of(Paper paper);

/// One board under one light.
struct ClientBoard {
    light::Code chip{};                  ///< the color computed for it, flat
    bool in_gamut = true;                ///< false: the chip has less chroma than the color
    std::vector<light::Code> plausible;  ///< what real boards may turn out as, pale to dark; 0–48
    std::vector<light::Code> later{};    ///< the same after some time, on the lower half of the strip; 0–48
};

/// One finish. Texts are UTF-8, printed as given; empty ones are left out.
struct ClientRow {
    std::string name;
    std::string sheen;    ///< "satin"
    std::string against;  ///< how it differs from the clear control: "darker, redder"
    std::string spread;   ///< by how much boards may differ, in words
    std::string recipe;
    bool fails = false;  ///< the order rules refuse it: its name is struck with a black tag, and it cannot be chosen
    std::array<ClientBoard, 2> by_light;
};

struct ClientCaution {
    std::string id, text;
};

struct ClientSheet {
    std::string title, wood, facts;
    std::array<std::string, 2> lights;  ///< in words
    ClientRow bare;
    std::optional<ClientRow> clear;
    std::vector<ClientRow> finishes;    ///< 1–4; lettered A to D on the page
    std::vector<std::string> refusals;  ///< in the black bar under the title; one for each finish that fails
    std::vector<std::string> mind;      ///< other findings
    std::string vary;                   ///< what will vary
    std::vector<ClientCaution> cautions;
    std::string boards;  ///< what the pictures are
    std::string
        shop;  ///< figures in small print, for those who make it: lights, geometry, gloss, spread, what it rests on
    std::string notes;  ///< what its maker keeps for the job, in small print; may be empty
    std::string date;   ///< printed on the date's line; may be empty
};

/// Which board is wanted, and how large, pixels at `client_sheet_dpi`. The grain runs along x.
struct BoardWanted {
    enum class Of { bare, clear, finish };
    Of of = Of::bare;
    std::size_t finish = 0;  ///< of `finish`
    std::size_t light = 0;   ///< 0 or 1
    int width = 0, height = 0;
};
using BoardPainter = std::function<light::Image(const BoardWanted&)>;

/// "A" for the first finish, "B" …
std::string letter_of(std::size_t finish);

/// Lays the sheet out on exactly one page of `paper`. The boards take the room that the words leave; where words are
/// many they are set smaller, and shortened with "…" beyond that; cautions never are. Throws std::invalid_argument
/// unless there are 1–4 finishes, at most four refusals and at most 48 plausible colors a board, and if the cautions
/// leave no room for boards.
Sheet lay_out(const ClientSheet& sheet, Paper paper, const BoardPainter& painter);

}  // namespace foretone::layout
