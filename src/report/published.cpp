#include "published.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "foretone/base/number.hpp"

namespace foretone::report {
namespace {

using base::fixed;

std::string finish_of(const job::PublishedBoard& b) {
    std::string out;
    for (const auto& id : b.finish) out += (out.empty() ? "" : " + ") + id;
    return out;
}

std::string signs(const std::array<int, 3>& told) {
    std::string out;
    for (const int s : told) out += s > 0 ? '+' : s < 0 ? '-' : '.';
    return out;
}

std::string signs(const color::Lab& d) {
    std::string out;
    for (const double v : {d.l, d.a, d.b}) out += v > 0 ? '+' : v < 0 ? '-' : '.';
    return out;
}

std::string boards(const job::Calibration& c) {
    std::string out =
        "\nBoards whose difference from bare wood is published. Each is predicted with figures fitted to all other "
        "papers; what its own paper does not state is a spread.\n\n| source | wood | finish | coats | published "
        "dE\\*ab | signs of dL\\*, da\\*, db\\* | predicted | signs | 90 % range | inside |\n"
        "|---|---|---|---|---|---|---|---|---|---|\n";
    for (const auto& j : c.boards) {
        const auto& b = j.board;
        out += "| " + b.source + " | " + b.species + " | " + finish_of(b) + " | " +
               (b.coats_stated ? std::to_string(b.coats) : "not stated") + " | " + fixed(b.de_ab, 2) + " | `" +
               signs(b.signs) + "` | " + fixed(j.de_ab, 1) + " | `" + signs(j.change) + "` | " + fixed(j.low, 1) + "-" +
               fixed(j.high, 1) + " | " + (j.inside ? "yes" : "no") + " |\n";
    }
    return out;
}

std::string coverage(const job::Calibration& c) {
    std::string out =
        "\n| kind of finish | boards | inside the 90 % range | mean error dE\\*ab | root mean square "
        "|\n|---|---|---|---|---|\n";
    for (const auto& k : c.coverage)
        out += "| " + k.kind + " | " + std::to_string(k.rows) + " | " + std::to_string(k.inside) + " | " +
               fixed(k.bias, 1) + " | " + fixed(k.rms, 1) + " |\n";
    return out + "\nNo published board was found of: waterborne, polyurethane, shellac, lacquer, plain oil.\n";
}

std::string figures(const job::Calibration& c) {
    std::string out = "\n| fitted | before | after |\n|---|---|---|\n";
    for (const auto& f : c.figures)
        out += "| " + f.what + " | " + fixed(f.before, 2) + " ± " + fixed(f.before_sd, 2) + " | " + fixed(f.after, 2) +
               " ± " + fixed(f.after_sd, 2) + " |\n";
    return out;
}

std::string rankings(const std::vector<job::Ranking>& all) {
    std::string out =
        "\n| published order | source | met | chance of it | found, dE\\*ab | what decides it "
        "|\n|---|---|---|---|---|---|\n";
    for (const auto& r : all)
        out += "| " + r.claim + " | " + r.source + " | " + (r.met ? "yes" : "no") + " | " +
               (std::isnan(r.chance) ? "" : fixed(100 * r.chance, 0) + " %") + " | " + r.found + " | " + r.decides +
               " |\n";
    return out +
           "\nThe chance is that of the order's closest pair, by the stated spreads of both finishes' figures; each "
           "figure is put from one finish into the other by itself, so the parts need not add up.\n";
}

}  // namespace

std::string published_markdown(const job::Verdict& v) {
    const auto& c = v.calibration;
    return (c.boards.empty() ? "" : boards(c) + coverage(c) + figures(c)) +
           (v.rankings.empty() ? "" : rankings(v.rankings));
}

void add_published(nlohmann::ordered_json& to, const job::Verdict& v) {
    auto& rows = to["published_boards"] = nlohmann::ordered_json::array();
    for (const auto& j : v.calibration.boards)
        rows.push_back({{"source", j.board.source},
                        {"wood", j.board.species},
                        {"finish", finish_of(j.board)},
                        {"class", j.board.kind},
                        {"coats", j.board.coats},
                        {"coats_stated", j.board.coats_stated},
                        {"published_dE", j.board.de_ab},
                        {"published_signs", signs(j.board.signs)},
                        {"predicted_dE", j.de_ab},
                        {"predicted_dLab", {j.change.l, j.change.a, j.change.b}},
                        {"range_90", {j.low, j.high}},
                        {"inside", j.inside},
                        {"signs_met", j.signs_met},
                        {"fitted", j.board.fitted}});
    auto& kinds = to["coverage"] = nlohmann::ordered_json::array();
    for (const auto& k : v.calibration.coverage)
        kinds.push_back(
            {{"class", k.kind}, {"rows", k.rows}, {"inside", k.inside}, {"mean_error", k.bias}, {"rms_error", k.rms}});
    auto& fitted = to["fitted"] = nlohmann::ordered_json::array();
    for (const auto& f : v.calibration.figures)
        fitted.push_back({{"what", f.what},
                          {"before", f.before},
                          {"before_sd", f.before_sd},
                          {"after", f.after},
                          {"after_sd", f.after_sd}});
    auto& orders = to["rankings"] = nlohmann::ordered_json::array();
    for (const auto& r : v.rankings) {
        orders.push_back({{"claim", r.claim}, {"source", r.source}, {"met", r.met}, {"found", r.found}});
        if (!std::isnan(r.chance)) orders.back()["chance"] = r.chance, orders.back()["decides"] = r.decides;
    }
}

}  // namespace foretone::report
