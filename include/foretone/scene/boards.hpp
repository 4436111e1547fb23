#pragma once
/// Step boards in a file (TOML), their readings beside it, and what a fit makes of them.

#include <map>
#include <set>
#include <string>
#include <vector>

#include "foretone/learn/fit.hpp"
#include "foretone/scene/library.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::scene {

struct BoardsFile {
    std::string file, title;
    std::string by;               ///< whose boards, when read: the source of every fitted figure
    std::string light, observer;  ///< that differences are stated for
    learn::FitQuestion question;
    std::map<std::string, std::string> names;  ///< fitted ids by library id, where the file says them
    std::set<std::string> own;                 ///< ids of materials that the file itself brings along
    std::vector<Problem> warnings;

    /// The id under which a material is written: as `names` says, else "my-" and its own; a liquid keeps its own.
    std::string written_as(const std::string& id) const;
    /// "bare", "after step 1", "step 2, coat 1"
    std::string state(std::size_t reading) const;
};

/// Reads a boards file, the materials and the readings that it names. Throws InputError with everything found wrong in
/// it.
BoardsFile read_boards(const std::filesystem::path& file, const Library& library);

/// Fits. Throws InputError: learn::NoFit with its id, a step that cannot be worked out.
learn::Fit fit_boards(const BoardsFile& boards);

/// The fitted materials as a file that a scene takes by `materials = ["..."]`: every figure in full, those that were
/// told marked `fitted`.
std::string fitted_toml(const BoardsFile& boards, const learn::FitResult& result);

}  // namespace foretone::scene
