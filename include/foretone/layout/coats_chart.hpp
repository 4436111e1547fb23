#pragma once
/// The chart of coats: one step's coats from none upward, the target touching each of them.

#include <string>
#include <vector>

#include "foretone/layout/comparison.hpp"

namespace foretone::layout {

struct CoatsColumn {
    std::string heading;                  ///< "2 coats"
    std::string remark;                   ///< "nearest the target"; may be empty
    std::vector<ComparedField> by_light;  ///< `de00` and `words` against the target; not printed where there is none
    std::vector<double> added;            ///< ΔE00 to the column before, one a light; empty for the first
};

struct CoatsChart {
    std::string scene, finish, step, wood, geometry, observer;  ///< UTF-8, printed as given; empty ones are left out
    std::vector<std::string> lights;                            ///< 1–8 names
    std::vector<Field> target;                                  ///< one a light, or empty for none
    std::string target_name;
    std::vector<CoatsColumn> columns;  ///< 1–64
    std::string rests_on;
    std::vector<std::string> notes;
};

/// Lays the chart out for 150 dpi: columns touch edge to edge, the lower part of each field is the target. More than
/// eight columns are set in several rows. Throws std::invalid_argument as lay_out(StepBoard) does, and for a negative
/// or not finite ΔE00.
Sheet lay_out(const CoatsChart& chart);

}  // namespace foretone::layout
