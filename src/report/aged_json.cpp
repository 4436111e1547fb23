#include "aged_json.hpp"

namespace foretone::report {

Json aged_json(const std::vector<job::SeenAge>& aged, const std::function<Json(const job::SeenColor&)>& color) {
    Json list = Json::array();
    for (const auto& a : aged) {
        Json j;
        j["after"] = a.after.text;
        j["days"] = a.after.days;
        j["exposure"] = material::word(a.exposure);
        j["dose"] = {{"Mlx_h", a.dose.mega_lux_hours},
                     {"ultraviolet_Wh_per_m2", a.dose.ultraviolet_wh},
                     {"violet_Wh_per_m2", a.dose.violet_wh}};
        j["reflectance"] = {{"start_nm", spectral::grid_start_nm},
                            {"step_nm", spectral::grid_step_nm},
                            {"values", a.reflectance.values}};
        j["colors"] = Json::array();
        for (std::size_t l = 0; l < a.colors.size(); ++l) {
            j["colors"].push_back(color(a.colors[l]));
            j["colors"].back()["from_new_dE00"] = a.from_new_de00[l];
            j["colors"].back()["from_new_words"] = a.words[l];
        }
        j["parts_dE00"] = {{"wood", a.parts.wood}, {"film", a.parts.film}, {"dye", a.parts.dye}};
        j["rests_on"] = material::word(a.rests_on);
        list.push_back(std::move(j));
    }
    return list;
}

}  // namespace foretone::report
