#pragma once
/// A lesson on two pages: boards and a question on the front, the answer on the back.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "foretone/layout/client_sheet.hpp"

namespace foretone::layout {

/// One board. Texts are UTF-8, shortened where they do not fit.
struct TaughtBoard {
    std::string letter;
    std::string name;     ///< what it is: on the back
    std::string figures;  ///< likewise
    light::Code code{};   ///< the color computed for it, flat
    bool in_gamut = true;
    std::vector<light::Code> plausible;  ///< what real boards may turn out as; on the back; 0–48
};

struct Lesson {
    std::string overline;  ///< "A lesson in finishing: 3 of 10"
    std::string title, facts, question;
    std::vector<std::string> choices;   ///< what the boards are, in an order that gives nothing away
    std::vector<TaughtBoard> boards;    ///< 2–6, by letter
    std::vector<std::size_t> in_order;  ///< of the boards, as the back shows them
    bool bare = true;                   ///< the bare wood stands beside them on the front
    light::Code bare_code{};
    std::vector<std::string> answer;                        ///< sentences; the first is the answer itself
    std::vector<std::pair<std::string, std::string>> made;  ///< letter, recipe
    std::string mind;                                       ///< what the pictures are
    std::vector<ClientCaution> cautions;
    std::string shop;  ///< small print
};

/// A board's picture, by its place among the boards; none: the bare wood.
using TaughtPainter = std::function<light::Image(std::optional<std::size_t> board, int width, int height)>;

/// Front and back. Throws std::invalid_argument unless there are 2–6 boards, each in the order once, with at most 48
/// plausible colors.
std::vector<Sheet> lay_out(const Lesson& lesson, Paper paper, const TaughtPainter& painter);

}  // namespace foretone::layout
