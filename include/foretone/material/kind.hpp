#pragma once
/// The kinds of material, and one table of what each kind is: its word in files, its folder in the library, what it is
/// read into, how it takes part in a finish, and how a list shows it. Whoever must know what a kind is asks this table.

#include <optional>
#include <span>
#include <string_view>

namespace foretone::material {

enum class Kind {
    wood,
    dye,
    stock,
    pigment,
    oil,
    film,
    wax,
    liquid,
    stain,
    gel_stain,
    glaze,
    toner,
    filler,
    liming,
    treatment
};

/// How a coat of a kind is put on before anyone says otherwise (common practice).
enum class FirstTry {
    none,     ///< it is no coat by itself
    thinned,  ///< one part in nine of its carrier, at 70 g/m²
    wiped,    ///< one coat, wiped
    brushed,  ///< two coats, brushed; one if it is a resin dissolved to a cut
    sprayed,  ///< one coat, sprayed
};

/// What one kind is. `word` names it in files, messages and JSON.
struct KindFacts {
    Kind kind;
    std::string_view word;
    std::string_view folder;  ///< of the library
    std::string_view like;    ///< whose figures fill a material of one's own that tells only some; empty: it tells all
    bool base;                ///< what is finished; all others are put on
    bool powder;              ///< weighed, and needs a liquid to carry it
    bool dissolves;           ///< goes into solution whole: can be mixed and thinned at will
    bool colorant;            ///< there for its color: left out of a clear finish
    bool sinks;               ///< without a film former beside it, soaks into open wood
    bool closes;              ///< lies on the wood once dry, and closes it
    bool bare_liquid;         ///< leaves again, and goes without saying where it carries something
    int clear_rank;           ///< how well it serves as the clear coat to compare with; lower is better
    FirstTry first_try;       ///< the step a list of materials offers
};

/// All kinds, in the order lists are printed.
std::span<const KindFacts> kinds();

/// The row of one kind.
const KindFacts& facts(Kind kind);

/// "wood", "dye", …
inline std::string_view word(Kind kind) { return facts(kind).word; }

/// Inverse of `word`; empty for any other text.
std::optional<Kind> kind_from(std::string_view text);

/// The kind whose files lie in a folder of the library; empty for any other folder.
std::optional<Kind> kind_of_folder(std::string_view folder);

}  // namespace foretone::material
