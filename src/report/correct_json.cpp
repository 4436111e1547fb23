#include <nlohmann/json.hpp>

#include "foretone/report/tool_json.hpp"
#include "foretone/report/findings_json.hpp"
#include "foretone/job/correct.hpp"
#include "foretone/report/json.hpp"
#include "foretone/search/words.hpp"
#include "json_values.hpp"

namespace foretone::report {
namespace {
Json proposal_json(const job::Proposal& p, const std::vector<job::Compared>& lights) {
    Json j;
    j["kind"] = search::word(p.change.kind);
    j["step"] = p.change.step + 1;
    j["material"] = p.change.material;
    j["amount"] = p.change.amount;
    j["do"] = p.text;
    j["recipe"] = search::mixing_line(p.change.finish);
    j["on_this_board"] = p.change.on_this_board;
    j["worst_dE00"] = p.change.worst_de00;
    j["spread_dE00"] = p.spread_de00;
    j["spread_materials_dE00"] = p.spread_materials_de00;
    j["spread_boards_dE00"] = p.spread_boards_de00;
    j["caution"] = p.caution;
    j["expected"] = Json::array();
    for (std::size_t l = 0; l < p.expected.size(); ++l)
        j["expected"].push_back(
            {{"light", lights[l].light}, {"Lab", lab_json(p.expected[l])}, {"dE00", p.change.de00[l]}});
    return j;
}

}  // namespace

std::string correct_json(const scene::Scene& scene, const job::Correction& c) {
    Json j;
    j["tool"] = tool_json();
    j["scene"] = scene.title;
    j["finish"] = c.finish;
    j["recipe"] = c.recipe;
    j["sample"] = c.sample;
    j["target"] = c.target;
    j["observer"] = c.observer;
    j["geometry"] = c.geometry;
    j["lights"] = Json::array();
    for (const auto& l : c.lights)
        j["lights"].push_back({{"light", l.light},
                               {"measured_Lab", lab_json(l.measured)},
                               {"predicted_Lab", lab_json(l.predicted)},
                               {"target_Lab", lab_json(l.target)},
                               {"to_prediction_dE00", l.to_prediction},
                               {"to_target_dE00", l.to_target},
                               {"words", l.words}});
    j["noise"] = {{"reading_dE00", c.noise.reading_de00},
                  {"board_dE00", c.noise.board_de00},
                  {"both_dE00", c.noise.reading_and_board_de00()},
                  {"place_dE00", c.noise.place_de00},
                  {"hand_dE00", c.noise.hand_de00},
                  {"bound_95_dE00", c.noise.bound_de00}};
    j["prediction_holds"] = c.prediction_holds;
    j["done"] = c.done;
    j["learned"] = Json::array();
    for (const auto& f : c.learned)
        j["learned"].push_back({{"material", f.material},
                                {"figure", f.figure},
                                {"unit", f.unit},
                                {"library", f.library},
                                {"value", f.value},
                                {"low_95", f.low()},
                                {"high_95", f.high()},
                                {"interval_cut", f.cut()}});
    j["unchanged_dE00"] = c.unchanged_de00;
    j["proposals"] = Json::array();
    for (const auto& p : c.proposals) j["proposals"].push_back(proposal_json(p, c.lights));
    j["on_this_board"] = c.on_this_board ? proposal_json(*c.on_this_board, c.lights) : Json();
    j["advice"] = c.advice;
    j["warnings"] = Json::array();
    for (const auto& w : c.warnings)
        j["warnings"].push_back({{"id", w.id}, {"where", w.place.text()}, {"text", w.text}});
    j["cautions"] = cautions_json(job::cautions_of(scene));
    return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
