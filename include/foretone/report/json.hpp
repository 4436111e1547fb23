#pragma once
/// Results as JSON text: two-space indent, keys in a fixed order, numbers in the shortest form that reads back the
/// same.

#include <string>

#include "foretone/job/fit_next.hpp"
#include "foretone/job/board.hpp"
#include "foretone/job/board_photo.hpp"
#include "foretone/job/coats.hpp"
#include "foretone/job/correct.hpp"
#include "foretone/job/earlier.hpp"
#include "foretone/job/export.hpp"
#include "foretone/job/match.hpp"
#include "foretone/job/plan.hpp"
#include "foretone/job/preview.hpp"
#include "foretone/job/verdict.hpp"
#include "foretone/scene/boards.hpp"
#include "foretone/scene/stack_file.hpp"

namespace foretone::report {

/// The whole preview; with a notebook that is there, each finish has "earlier": its readings beside what is predicted
/// now.
std::string preview_json(const job::Preview& preview, const scene::Notebook& notebook = {});

/// The colors of one reflectance: {"colors": [...]}.
std::string colors_json(const std::vector<job::SeenColor>& colors, const std::string& observer,
                        const std::string& geometry, const std::vector<scene::Problem>& warnings);

/// {"tool", "scene", "wood", "board", "boards": [...], "finishes": [{name, findings}], "cautions", "warnings"}
std::string boards_json(const job::Boards& boards);

/// The whole as JSON; without a card nothing but differences from bare. `pictures`: files written, in the order bare,
/// finishes, then others.
std::string board_photo_json(const job::BoardPhoto& board, const std::vector<std::string>& pictures,
                             const scene::Scene& scene);

/// The ladder of one step's coats: each count with its colors and what it is off by; the verdict.
std::string coats_json(const scene::Scene& scene, const job::Coats& coats);

/// What was searched, the recipes found with their colors, and what keeps the target out of reach.
std::string match_json(const scene::Scene& scene, const job::Match& match);

/// The board as read against prediction and target, and the changes that would mend it.
std::string correct_json(const scene::Scene& scene, const job::Correction& correction);

/// Files, materials with their losses, the finishes' findings, cautions, and warnings.
std::string export_json(const job::Export& made);

std::string plan_json(const job::Plan& plan);

std::string verdict_json(const job::Verdict& verdict);

/// Figures, readings and notes of a fit; `next` as `measure_next`.
std::string fit_json(const scene::BoardsFile& boards, const learn::FitResult& result,
                     const std::vector<job::FitNext>& next, const std::string& material_file);

/// What a solver made of it, as JSON: {"solver", "wavelengths_nm", "reflectance", "surface_reflectance",
/// "transmittance"}.
std::string fluxes_json(const std::string& solver, const scene::StackFile& file, const optics::Fluxes& fluxes);

}  // namespace foretone::report
