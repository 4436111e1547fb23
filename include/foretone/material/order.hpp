#pragma once
/// What a finisher must know of a material besides its color: what lifts it, what it will not hold on to, how long it
/// waits, what is dangerous about it. Every fact says how sure it is and where it comes from; a fact that the trade
/// disputes is `conflicting`.

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "foretone/material/figure.hpp"

namespace foretone::material {

/// How sure a fact of the trade is, from strong to weak.
enum class Sure { published, practice, stated, conflicting };

/// "published", "practice", "stated", "conflicting".
std::string_view word(Sure sure);
std::optional<Sure> sure_from(std::string_view text);
constexpr Sure weaker(Sure a, Sure b) { return a > b ? a : b; }

/// How sure something is that rests on a figure with that mark.
Sure sure_of(Mark mark);

/// A yes or no, or a list of words.
template <class T>
struct Fact {
    T value{};
    Sure sure = Sure::stated;
    std::string source;
};
using YesNo = Fact<bool>;
using Words = Fact<std::vector<std::string>>;

/// The order, waits and dangers of one material. What is absent is not known, and no rule that needs it speaks.
struct Order {
    std::optional<Words> redissolved_by;         ///< ids of the liquids that lift the dry layer
    std::map<std::string, YesNo> sticks_not_to;  ///< what it cannot hold on to, by words of `underlays`
    std::optional<YesNo> holds_wax;              ///< its dry layer has wax in it or is wax
    std::optional<YesNo> hot_solvent;            ///< its wet coat swells films that are soft
    std::optional<YesNo> wrinkles;               ///< its dry film swells and wrinkles under a hot solvent
    std::optional<YesNo> needs_scuff;            ///< past its window the next coat holds only to a scratch
    std::optional<YesNo> ties;                   ///< a dewaxed coat that most things hold on to
    std::optional<YesNo> suits_wet_places;       ///< stands on a wet place
    std::optional<YesNo> two_component;          ///< cures by a hardener or catalyst
    std::optional<Figure> recoat_early_h;        ///< at 20 °C and 50 % relative humidity
    std::optional<Figure> recoat_late_h;         ///< the same; past it the window is shut
    std::optional<Figure> cure_days;             ///< the same; until then an oil counts as uncured, a film as soft
    std::vector<std::string> cautions;           ///< words of `caution_words`

    /// Says anything that a rule can judge by.
    bool known() const { return redissolved_by || !sticks_not_to.empty() || holds_wax; }
};

/// What a material may be unable to hold on to: a layer of wax, a film with wax in it, an oil that has not cured.
inline constexpr std::array<std::string_view, 3> underlays = {"wax", "waxed-film", "uncured-oil"};

/// Dangers that a material file can name; their texts are in `caution_text`.
inline constexpr std::array<std::string_view, 12> caution_words = {"oily-rags", "flammable",  "vapor",     "dust",
                                                                   "colorant",  "isocyanate", "peroxide",  "lye",
                                                                   "chlorine",  "fire",       "acid-dust", "ammonia"};

/// Dangers and limits that stand under every output, in the order they are printed.
inline constexpr std::array<std::string_view, 5> standing_cautions = {"data-sheet", "voc-waste", "food-toy", "sample",
                                                                      "local-codes"};

/// The sentence to print for one of `caution_words` or `standing_cautions`. Throws std::invalid_argument for any other
/// word.
std::string_view caution_text(std::string_view word);

}  // namespace foretone::material
