#pragma once
/// Finishes of one or more scenes on one or more woods, as the chips of a swatch book.

#include <string>
#include <vector>

#include "foretone/color/srgb.hpp"
#include "foretone/grain/grain.hpp"
#include "foretone/appearance/region.hpp"
#include "foretone/light/image.hpp"
#include "foretone/scene/scene.hpp"
#include "foretone/schedule/order_rules.hpp"

namespace foretone::job {

inline constexpr std::size_t most_book_chips = 1000;

struct BookRequest {
    std::vector<std::string> woods;  ///< ids; every finish on each of them; empty: each scene's own wood
    std::string light;               ///< id; empty: the first scene's first
    grain::Cut cut = grain::Cut::flat;
    int width = 0, height = 0;  ///< pixels of a chip's picture
    double dpi = 200;
};

struct BookChip {
    std::size_t scene = 0;  ///< of those given
    std::string wood;       ///< id
    std::string wood_name;
    std::string name;         ///< of the finish; "bare wood"
    schedule::Finish finish;  ///< no steps: bare wood
    color::Lab lab;
    color::Display screen;
    appearance::Region region;              ///< what the color may turn out as
    std::vector<color::Display> plausible;  ///< pale to dark
    bool fails = false;                     ///< the order rules refuse it
    light::Image picture;
    std::size_t piece = 0;  ///< of wood, counted through the book
};

struct Book {
    std::string light, observer;
    std::vector<BookChip> chips;  ///< by wood: bare, then the finishes in order; the same piece of each wood. Scenes
                                  ///< that mean two woods by one id have two pieces
    std::vector<scene::Problem> warnings;
    material::Mark rests_on = material::Mark::measured;
    std::vector<std::string> cautions;  ///< words of material::caution_words, for job::all_cautions
};

/// All chips at 45/0 under one light, by the first scene's observer; where another scene's look differs, a warning says
/// so. How far boards may differ is drawn from fewer worlds than a preview's. Throws InputError: finish-empty,
/// material-unknown, material-kind, light-unknown, book-too-many, and a step's fault with its place.
Book book(const std::vector<scene::Scene>& scenes, const scene::Library& library, const BookRequest& request);

}  // namespace foretone::job
