// The table of kinds, and the blank that a file of each kind is read into.

#include "foretone/material/kind.hpp"

#include <array>

#include "foretone/material/material.hpp"

namespace foretone::material {
namespace {

constexpr bool no = false, yes = true;

// One row a kind. What it is read into stands in `blank` below, its figures in figures.cpp, what it names in
// references.cpp, and what a coat of it leaves in the schedule room.
constexpr std::array table = {
    //        kind           word       folder      like              base pow  diss color sinks closes bare rank first
    KindFacts{Kind::wood, "wood", "woods", "hard-maple", yes, no, no, no, no, no, no, 2, FirstTry::none},
    KindFacts{Kind::dye, "dye", "dyes", "", no, yes, yes, yes, yes, no, no, 2, FirstTry::none},
    KindFacts{Kind::stock, "stock", "stocks", "", no, no, no, yes, yes, no, no, 2, FirstTry::thinned},
    KindFacts{Kind::pigment, "pigment", "pigments", "", no, yes, no, yes, no, no, no, 2, FirstTry::none},
    KindFacts{Kind::oil, "oil", "oils", "boiled-linseed", no, no, no, no, yes, no, no, 1, FirstTry::wiped},
    KindFacts{Kind::film, "film", "films", "oil-varnish", no, no, no, no, no, yes, no, 0, FirstTry::brushed},
    KindFacts{Kind::wax, "wax", "waxes", "paste-wax", no, no, no, no, no, yes, no, 2, FirstTry::wiped},
    KindFacts{Kind::liquid, "liquid", "liquids", "water", no, no, no, no, no, no, yes, 2, FirstTry::none},
    KindFacts{Kind::stain, "stain", "stains", "walnut-stain", no, no, no, yes, yes, no, no, 2, FirstTry::wiped},
    KindFacts{Kind::gel_stain, "gel-stain", "gel-stains", "chestnut-gel", no, no, no, yes, no, no, no, 2,
              FirstTry::wiped},
    KindFacts{Kind::glaze, "glaze", "glazes", "umber-glaze", no, no, no, yes, no, no, no, 2, FirstTry::wiped},
    KindFacts{Kind::toner, "toner", "toners", "amber-toner", no, no, no, yes, no, yes, no, 2, FirstTry::sprayed},
    KindFacts{Kind::filler, "grain-filler", "fillers", "natural-filler", no, no, no, yes, no, no, no, 2,
              FirstTry::wiped},
    KindFacts{Kind::liming, "liming", "liming", "liming-wax", no, no, no, yes, no, yes, no, 2, FirstTry::wiped},
    KindFacts{Kind::treatment, "treatment", "treatments", "", no, no, no, yes, yes, no, no, 2, FirstTry::wiped},
};

// Row i is kind i: `facts` looks a kind up by its number.
constexpr bool in_order() {
    for (std::size_t i = 0; i < table.size(); ++i)
        if (static_cast<std::size_t>(table[i].kind) != i) return false;
    return true;
}
static_assert(in_order());

}  // namespace

std::span<const KindFacts> kinds() { return table; }

const KindFacts& facts(Kind kind) { return table.at(static_cast<std::size_t>(kind)); }

std::optional<Kind> kind_from(std::string_view text) {
    for (const auto& row : table)
        if (row.word == text) return row.kind;
    return std::nullopt;
}

std::optional<Kind> kind_of_folder(std::string_view folder) {
    for (const auto& row : table)
        if (row.folder == folder) return row.kind;
    return std::nullopt;
}

Data blank(Kind kind) {
    switch (kind) {
        case Kind::wood:
            return Wood{};
        case Kind::dye:
            return Dye{};
        case Kind::stock:
            return Stock{};
        case Kind::pigment:
            return Pigment{};
        case Kind::oil:
        case Kind::film:
        case Kind::wax:
            return Binder{};
        case Kind::liquid:
            return Liquid{};
        case Kind::stain:
        case Kind::gel_stain:
        case Kind::glaze:
        case Kind::toner:
        case Kind::filler:
        case Kind::liming:
            return Colored{};
        case Kind::treatment:
            return Treatment{};
    }
    return Wood{};
}

}  // namespace foretone::material
