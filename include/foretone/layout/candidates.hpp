#pragma once
/// Candidates for a target: every recipe's color with the target touching it.

#include <string>
#include <vector>

#include "foretone/layout/comparison.hpp"

namespace foretone::layout {

struct CandidateColumn {
    std::string heading;  ///< "1", "2" …
    std::string recipe;   ///< the mixing line, printed in full below the colors
    std::string effort;   ///< "3 steps, 2 dyes"
    std::string chance;   ///< "12 %"
    std::vector<ComparedField> by_light;
};

struct Candidates {
    std::string scene, wood, geometry, observer;  ///< UTF-8, printed as given; empty ones are left out
    std::vector<std::string> lights;              ///< 1–8 names
    std::vector<Field> bare;                      ///< the control: one a light, or empty for none
    std::vector<Field> target;                    ///< one a light
    std::string target_name;
    std::vector<CandidateColumn> columns;  ///< 1–64
    std::string rests_on;
    std::vector<std::string> notes;
};

/// Lays the page out for 150 dpi: control and target first, then the candidates, the lower part of each being the
/// target; below, the recipes in full. Throws std::invalid_argument as lay_out(Comparison) does.
Sheet lay_out(const Candidates& candidates);

}  // namespace foretone::layout
