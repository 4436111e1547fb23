#pragma once
/// The verdict: both solvers against every table the project carries, and against each other over the library.

#include <functional>
#include <string>
#include <vector>

#include "foretone/job/ageing_verdict.hpp"
#include "foretone/job/calibration.hpp"
#include "foretone/job/rankings.hpp"
#include "foretone/job/learning.hpp"
#include "foretone/scene/library.hpp"
#include "foretone/schedule/step.hpp"

namespace foretone::job {

/// One solver against one quantity of one table. Errors are absolute differences of reflectance or transmittance.
struct TableError {
    std::string table;     ///< file name without ".csv"
    std::string source;    ///< author, year; or what it was computed from
    std::string quantity;  ///< in words
    std::string solver;
    std::size_t rows = 0;
    double median = 0, worst = 0;
    std::string worst_row;  ///< the row's own name
};

/// The solvers against each other: ΔE00 of finished boards, D65, 2°, 45/0.
struct Agreement {
    std::size_t woods = 0, finishes = 0;
    double median = 0, p95 = 0, worst = 0;
    std::string worst_board;        ///< wood and finish
    double worst_without_haze = 0;  ///< ΔE00 of that board if its films did not scatter
    double worst_without_dye = 0;   ///< ΔE00 of that board without its colorants
};

struct Verdict {
    int streams = 0;
    std::vector<TableError> tables;
    Agreement agreement;
    Calibration calibration;            ///< published boards, each predicted without its paper
    std::vector<Ranking> rankings;      ///< published orders
    AgeingVerdict ageing;               ///< published changes by light, each predicted without its paper
    Learning learning;                  ///< no worlds: it was not asked for
    std::vector<std::string> left_out;  ///< what was not judged because the run was stopped, in words
};

/// The fixed set of finishes that the solvers are compared over: 8 colors × 5 seals × 5 topcoats.
std::vector<schedule::Finish> compared_finishes();

/// All that `compared_finishes` name is in the library. Throws scene::InputError `material-unknown` for all it lacks.
void require_compared(const scene::Library& library);

/// Both solvers against the tables.
std::vector<TableError> check_tables(int streams);

/// Both solvers over all woods of the library and `compared_finishes`, every `stride`-th board (1: all), on up to
/// `threads` threads; the result does not depend on their number. `progress` is told the share done, by one thread at
/// a time. Throws scene::InputError `material-unknown` for all that the library lacks of them.
Agreement compare_solvers(const scene::Library& library, int streams, std::size_t stride, unsigned threads,
                          const std::function<void(double)>& progress);

}  // namespace foretone::job
