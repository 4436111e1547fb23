#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include "foretone/report/tool_json.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/report/json.hpp"
#include "foretone/job/verdict.hpp"
#include "ageing_verdict.hpp"
#include "published.hpp"

namespace foretone::report {
namespace {

std::string tiny(double v) { return base::scientific(v, 1); }
std::string difference(double v) { return base::fixed(v, 2); }

std::string learning_markdown(const job::Learning& l) {
    if (l.worlds == 0) return "";
    std::string out = "\nLearning from step boards, over " + std::to_string(l.worlds) +
                      " hidden worlds drawn from the library's spreads (stated: 90 % lie within the radius; of a "
                      "difference: inside the interval, half of which is the radius):\n\n"
                      "| step boards | read as | predicted | on | cases | inside | radius, median ΔE00 | error, median "
                      "ΔE00 |\n|---|---|---|---|---|---|---|---|\n";
    for (const auto& r : l.rows)
        out += "| " + std::to_string(r.boards) + " | " + r.readings + " | " + r.what + " | " + r.board + " | " +
               std::to_string(r.cases) + " | " + base::fixed(100 * r.coverage, 0) + " % | " +
               base::fixed(r.median_radius, 2) + " | " + base::fixed(r.median_error, 2) + " |\n";
    if (l.refused > 0) out += "\nNo fit, and left out: " + std::to_string(l.refused) + ".\n";
    return out;
}

}  // namespace

std::string verdict_markdown(const job::Verdict& v) {
    std::string out;
    if (!v.left_out.empty()) out += "Stopped by hand. Not judged: " + base::joined(v.left_out, ", ", " and ") + ".\n\n";
    out +=
        "| table (source) | quantity | rows | solver | median error | worst error | worst row "
        "|\n|---|---|---|---|---|---|---|\n";
    for (const auto& t : v.tables)
        out += fmt::format("| `{}` ({}) | {} | {} | {} | {} | {} | {} |\n", t.table, t.source, t.quantity, t.rows,
                           t.solver, tiny(t.median), tiny(t.worst), t.worst_row);
    const auto& a = v.agreement;
    if (a.woods > 0)
        out += fmt::format(
            "\nAngular solver: {} streams. The two solvers over {} woods × {} finishes (45/0, D65, 2°): ΔE00 median "
            "{}, 95th percentile {}, worst {} on {} ({} without its haze, {} without its dye).\n",
            v.streams, a.woods, a.finishes, difference(a.median), difference(a.p95), difference(a.worst), a.worst_board,
            difference(a.worst_without_haze), difference(a.worst_without_dye));
    return out + published_markdown(v) + ageing_markdown(v.ageing) + learning_markdown(v.learning);
}

std::string verdict_json(const job::Verdict& v) {
    nlohmann::ordered_json j;
    j["tool"] = tool_json();
    j["streams"] = v.streams;
    j["tables"] = nlohmann::ordered_json::array();
    for (const auto& t : v.tables)
        j["tables"].push_back({{"table", t.table},
                               {"source", t.source},
                               {"quantity", t.quantity},
                               {"solver", t.solver},
                               {"rows", t.rows},
                               {"median", t.median},
                               {"worst", t.worst},
                               {"worst_row", t.worst_row}});
    const auto& a = v.agreement;
    j["agreement"] = nullptr;
    if (a.woods > 0)
        j["agreement"] = {{"woods", a.woods},
                          {"finishes", a.finishes},
                          {"median_dE00", a.median},
                          {"p95_dE00", a.p95},
                          {"worst_dE00", a.worst},
                          {"worst_board", a.worst_board},
                          {"worst_without_haze_dE00", a.worst_without_haze},
                          {"worst_without_dye_dE00", a.worst_without_dye}};
    add_published(j, v);
    add_ageing(j, v.ageing);
    j["learning"] = nlohmann::ordered_json::array();
    for (const auto& r : v.learning.rows)
        j["learning"].push_back({{"step_boards", r.boards},
                                 {"readings", r.readings},
                                 {"what", r.what},
                                 {"board", r.board},
                                 {"cases", r.cases},
                                 {"coverage_of_90", r.coverage},
                                 {"median_radius_dE00", r.median_radius},
                                 {"median_error_dE00", r.median_error}});
    j["learning_worlds"] = v.learning.worlds;
    j["learning_refused"] = v.learning.refused;
    if (!v.left_out.empty()) j["stopped_before"] = v.left_out;
    return j.dump(2) + "\n";
}

}  // namespace foretone::report
