#include "foretone/report/mix_json.hpp"

#include "foretone/job/cautions.hpp"
#include "foretone/report/tool_json.hpp"

namespace foretone::report {

std::string mix_json(const job::MixAnswer& a) {
    nlohmann::ordered_json j = {{"tool", tool_json()}, {"title", a.title}, {"values", nlohmann::ordered_json::array()}};
    for (const auto& f : a.figures) j["values"].push_back({{"key", f.key}, {"value", f.value}, {"unit", f.unit}});
    j["formulas"] = a.formulas;
    j["notes"] = a.notes;
    j["cautions"] = nlohmann::ordered_json::array();
    for (const auto& c : job::all_cautions(a.cautions)) j["cautions"].push_back({{"id", c.id}, {"text", c.text}});
    return j.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
