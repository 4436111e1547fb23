#pragma once
/// What may be used to reach a target, and every recipe that can be made of it.
///
/// A recipe is its steps in this order: dye, stain, oil, sealer, glaze, toner, topcoat. All but the last may be left
/// out unless said otherwise.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "foretone/schedule/step.hpp"

namespace foretone::search {

inline constexpr std::size_t most_stocks = 12;      ///< dyes to choose from
inline constexpr std::size_t most_mixes = 300'000;  ///< ways to mix the dyes
inline constexpr std::size_t most_ways = 200'000;   ///< ways to do all that follows the dye

/// Ready dyes, mixed in whole parts and thinned.
struct DyeChoices {
    std::vector<std::string> use;  ///< stocks of one liquid
    int at_once = 1;               ///< most of them in one mix
    int most_parts = 1;            ///< largest number of parts of one of them
    std::vector<int> water;        ///< parts of the liquid to one part of dye, each ≥ 0
    double wet_g_per_m2 = 70;
    bool always = false;  ///< no recipe without it
};

/// Coats of one material, as they may vary.
struct CoatChoices {
    std::vector<std::string> use;
    std::vector<double> cut_lb;  ///< for resins dissolved to a cut; empty: their usual one
    std::vector<int> coats = {1};
    std::optional<material::Method> method;
    std::vector<double> sheen_gu60;    ///< empty: as supplied
    std::vector<std::string> tint;     ///< powder dyes, one at a time
    std::vector<double> tint_percent;  ///< of the mix by weight
    bool always = false;
    std::vector<double> remainder = {};       ///< of what is wiped: a glaze, a stain; empty: as supplied
    std::vector<double> passes = {};          ///< of what is sprayed; empty: one
    std::vector<double> toner_strength = {};  ///< empty: as supplied
};

/// The rooms of a recipe after its dye, in the order they are kept; `put_on` is the order they go on.
enum Room : std::size_t { oil_room, sealer_room, topcoat_room, stain_room, glaze_room, toner_room };
inline constexpr std::size_t rooms = 6;
inline constexpr std::array<Room, rooms> put_on = {stain_room, oil_room,   sealer_room,
                                                   glaze_room, toner_room, topcoat_room};
inline constexpr std::array<const char*, rooms> room_words = {"oil", "sealer", "topcoat", "stain", "glaze", "toner"};
inline constexpr int longest_recipe = 7;

struct Choices {
    std::optional<DyeChoices> dye;
    std::optional<CoatChoices> oil, sealer, topcoat, stain, glaze, toner;
    int most_steps = 4;

    const std::optional<CoatChoices>& of(Room room) const;
};

/// A dye mix in least terms: parts of each stock, and parts of liquid to one part of dye.
struct DyeMix {
    std::array<std::uint8_t, most_stocks> parts{};
    int water = 0;

    int colorants() const;
    int total() const;  ///< parts of dye
};

/// One way to do a step of coats.
struct CoatOption {
    schedule::Step step;
    int colorants = 0;
};

/// What follows the dye, each as an index into the space's options of that room; −1 where left out.
struct Way {
    std::array<int, rooms> option = {-1, -1, -1, -1, -1, -1};
    int steps = 0, coats = 0, colorants = 0;
};

/// All recipes: number = way · mixes + mix. Ways are sorted by steps, then coats, then colorants, so that simple
/// recipes have low numbers.
struct Space {
    std::vector<std::string> stocks;
    std::string liquid;
    double dye_wet_g_per_m2 = 70;
    std::vector<std::optional<DyeMix>> mixes;            ///< nothing: no dye
    std::array<std::vector<CoatOption>, rooms> options;  ///< by `Room`
    std::vector<Way> ways;
    int most_steps = 4;

    /// Mixes that go with a way without taking more steps than allowed: the first so many of `mixes`.
    std::size_t mixes_with(const Way& way) const;
    /// Recipes from way `first` up to, not including, `last`.
    std::uint64_t recipes(std::size_t first, std::size_t last) const;
    std::uint64_t size() const { return recipes(0, ways.size()); }
};

/// Everything `choices` allow. Each dye mix appears once: 2 + 2 + 40 parts is 1 + 1 + 20. The materials tells which
/// materials take a cut, and the stocks' liquid. Throws std::invalid_argument: no topcoat, an empty list, more than the
/// limits above, stocks of several liquids, no recipe within `most_steps`.
Space make_space(const Choices& choices, const material::Materials& materials);

/// The dye step of a mix, parts as they are measured: whole numbers.
schedule::Step dye_step(const Space& space, const DyeMix& mix);

/// Recipe `number` as a finish; its name is empty. Throws std::out_of_range.
schedule::Finish recipe(const Space& space, std::uint64_t number);

/// How much trouble a recipe is.
struct Effort {
    int steps = 0, coats = 0, colorants = 0;
    bool operator==(const Effort&) const = default;
};
Effort effort(const Space& space, std::uint64_t number);

}  // namespace foretone::search
