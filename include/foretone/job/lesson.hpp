#pragma once
/// A scene as a lesson: boards that differ in one thing, lettered so that their order gives nothing away.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "foretone/grain/grain.hpp"
#include "foretone/job/preview.hpp"
#include "foretone/light/image.hpp"

namespace foretone::job {

inline constexpr std::size_t least_lesson_boards = 2, most_lesson_boards = 6;

/// The one thing that differs.
enum class Varies {
    cut,       ///< how much resin the solution holds
    coats,     ///< how many
    strength,  ///< the same color, thinned more or less
    order,     ///< the same steps, one before the other
    grit,      ///< the paper before a step
    topcoat,   ///< what goes on last
    material,  ///< what goes on in a step before the last
    sheen,     ///< the gloss of a coat
    amount,    ///< how thick a coat goes on, or is left
    method,    ///< wiped, brushed, sprayed, rolled
    waiting,   ///< how long was waited
    readying,  ///< how the wood was readied: wetted first, scuffed, flooded
    step,      ///< one step, which some lack
    light,     ///< one board under several lights
    stage,     ///< one board as the work goes on
    years      ///< one board as time goes by
};

/// "cut", "coats" …; and as a question may name it: "how many coats there are".
std::string_view word(Varies varies);
std::string_view meaning(Varies varies);

/// What finishes differ in. Throws InputError lesson-differs, placed at `file`, if it is nothing or more than one
/// thing, with what it is.
Varies difference_of(const std::vector<schedule::Finish>& finishes, const std::string& file);

/// One board of the lesson.
struct LessonBoard {
    std::string name;  ///< the answer: what it is
    std::size_t finish = 0, stage = 0, light = 0;
    std::optional<std::size_t> time;  ///< of the look's `after`; none: new
};

struct LessonWork {
    Preview preview;
    Varies varies = Varies::coats;
    std::vector<LessonBoard> boards;    ///< in the scene's order
    std::vector<std::size_t> lettered;  ///< boards[lettered[0]] is A

    const SeenColor& color(const LessonBoard& board) const;
    std::string letter(std::size_t board) const;
};

/// Several finishes: those, finished and new, under the first light; a warning says what else of the look is left out.
/// One finish: after the look's times, else under its lights,
/// else stage by stage. Throws InputError: lesson-boards (fewer than two, more than six, or a single finish that varies
/// in two things), lesson-differs, and what `preview` throws.
LessonWork lesson(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver);

/// Paints a board of `work`, which must outlive it, at 200 dpi; none: the bare wood. One piece of wood for all.
using LessonPainter = std::function<light::Image(std::optional<std::size_t> board, int width, int height)>;
LessonPainter lesson_painter(const LessonWork& work, const scene::Library& library, grain::Cut cut);

}  // namespace foretone::job
