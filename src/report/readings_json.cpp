#include "foretone/report/readings_json.hpp"

#include "foretone/report/tool_json.hpp"

namespace foretone::report {

std::string readings_json(const std::string& file, const std::vector<measure::Reading>& readings) {
    nlohmann::ordered_json j;
    j["tool"] = tool_json();
    j["file"] = file;
    j["readings"] = nlohmann::ordered_json::array();
    for (const auto& r : readings) {
        nlohmann::ordered_json one = {{"name", r.name}};
        if (r.lab) {
            one["light"] = r.light;
            one["observer"] = r.observer;
            one["Lab"] = {r.lab->l, r.lab->a, r.lab->b};
        }
        if (r.reflectance)
            one["reflectance"] = {{"wavelengths_nm", r.reflectance->wavelength_nm}, {"values", r.reflectance->value}};
        j["readings"].push_back(std::move(one));
    }
    return j.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
