#pragma once
/// Will it hold together? Seven general rules over what the materials say of themselves; no material is named in the
/// rules.
///
/// 1. Layers that share a solvent bleed: worse when wiped, brushed or rolled than when sprayed.
/// 2. Nothing sticks to wax or to uncured oil.
/// 3. What re-melts joins the coat before at any time; what does not needs its window or a scratch. Nothing goes on
/// before the layer below is dry.
/// 4. Hot solvents wrinkle soft films.
/// 5. Dewaxed shellac ties most things, but not in wet places and not under two-component films.
/// 6. Dye over what closes the wood is wiped off, or lies loose until a coat goes over it.
/// 7. Ready colored coats have their place: a glaze between films, a filler under a seal, a treatment on bare wood that
/// holds what it reacts with (order_ready.cpp).

#include <optional>
#include <string>
#include <vector>

#include "foretone/schedule/step.hpp"

namespace foretone::schedule {

/// How bad: worth knowing; may go wrong; will go wrong.
enum class Severity { note, warning, failure };

/// "note", "warning", "failure".
std::string_view word(Severity severity);

/// A change to a schedule.
struct Mend {
    enum class Kind { spray, wait, scuff, seal, swap, leave_out, coat };
    Kind kind = Kind::wait;
    double days = 0;       ///< of `wait`
    std::string material;  ///< of `seal` (put between), `swap` (in place of the layer below), `coat` (put over it)
    std::string text;      ///< what to do, in words
};

/// Something a rule has to say about one step and what lies under it.
struct Finding {
    std::string id;  ///< bleeds, wax-below, uncured-below, too-early, needs-scratch, wrinkles, tie-wet-place,
                     ///< tie-two-component, dye-wiped-off, dye-rubs-off, order-unknown, no-tannin, no-dye-below,
                     ///< no-iron-below, treatment-over-finish, neutralize, glaze-on-bare, glaze-uncovered,
                     ///< stain-over-film, filler-over-film, filler-unsealed
    Severity severity = Severity::note;
    int step = 0;             ///< 0-based step that goes on
    std::string under, over;  ///< names of the two layers; `under` is empty for bare wood
    std::string what, why;
    material::Sure sure = material::Sure::practice;  ///< the weakest fact it rests on
    std::vector<Mend> mends;                         ///< smallest change first
};

/// All findings of a finish, by step; what is worst in a step first. A tie coat named in a mend is the first material
/// of `materials` that ties, by id; if there is none, "a dewaxed shellac" is said in words. Throws Fault for a mix that
/// cannot be worked out.
/// With `wood`, treatments are judged by what that wood holds.
std::vector<Finding> check_order(const Finish& finish, const material::Materials& materials,
                                 const material::Wood* wood = nullptr);

/// True if any finding is a failure.
bool fails(const std::vector<Finding>& findings);

/// The finish with one mend of one finding made. Throws std::invalid_argument for a mend that names a material not on
/// the materials.
Finish mended(const Finish& finish, const Finding& finding, const Mend& mend, const material::Materials& materials);

}  // namespace foretone::schedule
