#pragma once
/// Boards whose color before and after coating is published: what the model is checked by, and what its surface is
/// fitted to.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "foretone/color/lab.hpp"
#include "foretone/material/material.hpp"

namespace foretone::job {

/// One row of tests/data/coated_wood_difference.csv. What a paper does not state is a spread here, never a choice.
struct PublishedBoard {
    std::string paper, source;        ///< a key for all rows of one paper; where it was read
    std::string laboratory;           ///< whose instrument read it; its address is printed in two papers of seven, the
                                      ///< others are taken to be of the same by their words and methods
    std::string species, like;        ///< the wood, and the library's wood that lends its shape
    std::optional<color::Lab> bare;   ///< before coating, remembered, D65 and 10°; none: the library's
    std::array<double, 3> bare_sd{};  ///< of L*, a*, b*
    std::optional<double> porosity;   ///< remembered; none: the library's
    std::vector<std::string> finish;  ///< materials, in equal parts if several
    std::string kind;                 ///< of finish, as `finish_kind` or a mix's own
    int coats = 1;
    bool coats_stated = false;
    bool fitted = false;         ///< the calibration goes by it; else it is judged only
    double de_ab = 0;            ///< ΔE*ab, coated against bare
    std::array<int, 3> signs{};  ///< of ΔL*, Δa*, Δb*: −1, 1, or 0 if not told
};

/// All rows, as in the table.
std::vector<PublishedBoard> published_boards();

/// What a binder is to someone who compares boards: "wax", "oil", "oil varnish", "waterborne", "shellac",
/// "polyurethane" or "lacquer", told from its facts. Empty for what is no binder.
std::string finish_kind(const material::Material& binder);

/// Rows of one kind that check the model.
int published_rows(const std::string& kind);

/// The fewest rows that any binder of a finish has (its materials by id), and the kinds that have none; −1 rows for a
/// finish without binder.
struct PublishedFooting {
    int rows = -1;
    std::vector<std::string> without;
};
PublishedFooting published_footing(const std::vector<std::string>& used, const material::Materials& materials);

}  // namespace foretone::job
