#include "foretone/report/chart_json.hpp"

#include "foretone/report/tool_json.hpp"

namespace foretone::report {

std::string chart_json(const job::ChartReading& r, const std::string& file) {
    nlohmann::ordered_json j;
    j["tool"] = tool_json();
    j["photo"] = {{"file", r.question.photo}, {"width", r.head.width}, {"height", r.head.height}};
    j["chart"] = {{"readings", r.question.readings}, {"truth_dE", r.truth_de}, {"corners", r.corners}};
    const auto& fit = r.fit;
    j["camera"] = {{"curve", fit.camera.curve},
                   {"to_XYZ", fit.camera.to_xyz},
                   {"light", fit.camera.light},
                   {"fields", fit.used},
                   {"left_out_dE00", {{"mean", fit.left_out_mean}, {"p95", fit.left_out_p95}}},
                   {"left_out_dE", fit.left_out_de},
                   {"wood_by_inks_dE", r.wood_de}};
    j["fields"] = nlohmann::ordered_json::array();
    for (std::size_t k = 0; k < fit.left_out.size(); ++k) {
        nlohmann::ordered_json one = {{"name", photo::chart_fields()[k].name}};
        one["left_out_dE00"] = fit.left_out[k] ? nlohmann::ordered_json(*fit.left_out[k]) : nlohmann::ordered_json();
        j["fields"].push_back(std::move(one));
    }
    j["file"] = file;
    j["readings"] = nlohmann::ordered_json::array();
    for (const auto& one : r.readings.readings)
        j["readings"].push_back({{"name", one.name},
                                 {"light", one.light},
                                 {"observer", one.observer},
                                 {"Lab", {one.lab->l, one.lab->a, one.lab->b}},
                                 {"spread_dE", *one.spread_de}});
    j["warnings"] = nlohmann::ordered_json::array();
    for (const auto& w : r.warnings)
        j["warnings"].push_back({{"id", w.id}, {"where", w.place.text()}, {"text", w.text}});
    return j.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
