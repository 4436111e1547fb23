#include "ageing_verdict.hpp"

#include <nlohmann/json.hpp>

#include "foretone/base/number.hpp"

namespace foretone::report {

std::string ageing_markdown(const job::AgeingVerdict& v) {
    using base::fixed;
    if (v.rows.empty()) return "";
    std::string out =
        "\nBare wood before and after light, as published. Each row is predicted with the common law of wood fitted to "
        "all "
        "other papers; how much light its lamp or window gave is a spread.\n\n| source | wood | light | published "
        "dE\\*ab "
        "| predicted | 90 % range | inside | printed signs |\n|---|---|---|---|---|---|---|---|\n";
    for (const auto& p : v.rows)
        out += "| " + p.row.source + " | " + p.row.species + " | " +
               (p.row.window ? "window, " + fixed(p.row.months, 0) + " months" : "lamp") + " | " +
               fixed(p.due_de_ab, 1) + " | " + fixed(p.de_ab, 1) + " | " + fixed(p.low, 1) + "-" + fixed(p.high, 1) +
               " | " + (p.inside ? "yes" : "no") + " | " + (p.signs_met ? "met" : "not met") + " |\n";
    out += "\n" + std::to_string(v.inside) + " of " + std::to_string(v.rows.size()) + " inside; mean error dE\\*ab " +
           fixed(v.bias, 1) + ", root mean square " + fixed(v.rms, 1) +
           ". Nothing was found of cherry, oaks, tropical woods or any film by a window.\n\n| fitted | before | after "
           "|\n|---|---|---|\n";
    for (const auto& f : v.figures)
        out += "| " + f.what + " | " + fixed(f.before, 2) + " ± " + fixed(f.before_sd, 2) + " | " + fixed(f.after, 2) +
               " ± " + fixed(f.after_sd, 2) + " |\n";
    return out;
}

void add_ageing(nlohmann::ordered_json& to, const job::AgeingVerdict& v) {
    auto& rows = to["published_ageing"] = nlohmann::ordered_json::array();
    for (const auto& p : v.rows)
        rows.push_back({{"source", p.row.source},
                        {"wood", p.row.species},
                        {"light", p.row.window ? "window" : "lamp"},
                        {"months", p.row.months},
                        {"published_dE", p.due_de_ab},
                        {"predicted_dE", p.de_ab},
                        {"predicted_dLab", {p.change.l, p.change.a, p.change.b}},
                        {"range_90", {p.low, p.high}},
                        {"inside", p.inside},
                        {"signs_met", p.signs_met}});
    auto& figures = to["ageing_figures"] = nlohmann::ordered_json::array();
    for (const auto& f : v.figures)
        figures.push_back({{"what", f.what},
                           {"before", f.before},
                           {"before_sd", f.before_sd},
                           {"after", f.after},
                           {"after_sd", f.after_sd}});
}

}  // namespace foretone::report
