#pragma once
/// Many finished boards at once: the finishes of one or more scenes, each on one or many woods. A board that cannot be
/// worked out says why, and the others stand.

#include <optional>
#include <string>
#include <vector>

#include "foretone/job/preview.hpp"

namespace foretone::job {

inline constexpr std::size_t most_overview_boards = 1000;

struct OverviewBoard {
    std::size_t scene = 0;        ///< of those given
    std::string wood, wood_name;  ///< id and name
    SeenFinish seen;    ///< as in a preview, but for `plausible`, `next` and `aged`, which stay empty; no stages where
                        ///< there is a fault
    std::string words;  ///< what the finish makes of the bare wood, under the first light
    std::optional<scene::Problem> fault;  ///< why it could not be worked out

    const SeenStage& bare() const { return seen.stages.front(); }
    const SeenStage& finished() const { return seen.stages.back(); }
};

struct Overview {
    scene::Look look;  ///< of all boards: the first scene's, new
    std::string solver;
    std::vector<scene::Scene> scenes;
    std::vector<std::string> woods;     ///< ids asked for; empty: each scene's own
    std::vector<OverviewBoard> boards;  ///< by scene, then by wood, then by finish
    std::vector<scene::Problem> warnings;
    std::vector<std::string> cautions;  ///< words of material::caution_words
};

/// Every finish of every scene on each of `woods` (ids of the library; none: each scene's own wood), as the first scene
/// looks at it; a warning tells where another looks otherwise. The colors are those that `preview` computes; how far
/// they may be off is drawn from two sets of worlds, where a preview draws six and more, and told of the stages
/// `spread_of` alone: of bare and finished boards in a third of the time. The same whatever the threads
/// (0: all cores). Throws InputError: finish-empty, material-unknown, material-kind, light-unknown, overview-too-many;
/// std::invalid_argument for no scene.
Overview overview(const std::vector<scene::Scene>& scenes, const scene::Library& library,
                  const std::vector<std::string>& woods, const appearance::Solver& solver,
                  appearance::StagesAsked spread_of = appearance::StagesAsked::all, unsigned threads = 0);

}  // namespace foretone::job
