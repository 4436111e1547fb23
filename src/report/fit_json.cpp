#include "foretone/report/tool_json.hpp"
#include "foretone/report/json.hpp"
#include "foretone/scene/boards.hpp"
#include "foretone/scene/scene.hpp"
#include "json_values.hpp"

namespace foretone::report {
std::string fit_json(const scene::BoardsFile& boards, const learn::FitResult& result,
                     const std::vector<job::FitNext>& next, const std::string& material_file) {
    nlohmann::ordered_json j;
    j["tool"] = tool_json();
    j["boards"] = boards.title;
    j["by"] = boards.by;
    j["light"] = boards.light;
    j["observer"] = boards.observer;
    j["geometry"] = scene::geometry_text(boards.question.geometry);
    j["material_file"] = material_file;
    j["rms_dE00"] = result.rms_de00;
    j["left_out_rms_dE00"] =
        result.left_out_rms_de00 ? nlohmann::ordered_json(*result.left_out_rms_de00) : nlohmann::ordered_json();
    j["readings"] = nlohmann::ordered_json::array();
    for (std::size_t i = 0; i < result.readings.size(); ++i) {
        const auto& r = result.readings[i];
        const auto& asked = boards.question.readings[i];
        nlohmann::ordered_json one = {{"name", r.name},
                                      {"board", boards.question.boards[asked.board].name},
                                      {"step", asked.step},
                                      {"coat", asked.coat}};
        one["read_Lab"] = lab_json(r.read);
        one["predicted_Lab"] = lab_json(r.predicted);
        one["dE00"] = r.de00;
        one["expected_dE00"] = r.expected_de00;
        one["left_out_dE00"] = r.left_out_de00 ? nlohmann::ordered_json(*r.left_out_de00) : nlohmann::ordered_json();
        j["readings"].push_back(one);
    }
    j["figures"] = nlohmann::ordered_json::array();
    for (const auto& f : result.figures)
        j["figures"].push_back({{"material", f.material},
                                {"figure", f.figure},
                                {"unit", f.unit},
                                {"library", f.library},
                                {"library_error", f.library_error},
                                {"value", f.value},
                                {"error", f.error},
                                {"error_is_of_logarithm", f.factor},
                                {"low_95", f.low()},
                                {"high_95", f.high()},
                                {"interval_cut", f.cut()},
                                {"told", f.resolved}});
    j["written_as"] = nlohmann::ordered_json::object();
    for (const auto& id : result.changed) j["written_as"][id] = boards.written_as(id);
    j["measure_next"] = nlohmann::ordered_json::array();
    for (const auto& n : next) {
        j["measure_next"].push_back({{"board", n.board}, {"wood", n.wood}});
        j["measure_next"].back().update(measure_next_json(n.readings, n.next));
    }
    j["notes"] = result.notes;
    j["warnings"] = nlohmann::ordered_json::array();
    for (const auto& w : boards.warnings)
        j["warnings"].push_back({{"id", w.id}, {"where", w.place.text()}, {"text", w.text}});
    return j.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
