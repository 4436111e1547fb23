#include "foretone/report/findings_json.hpp"

namespace foretone::report {
using Json = nlohmann::ordered_json;

Json findings_json(const std::vector<schedule::Finding>& findings) {
    constexpr const char* kinds[] = {"spray", "wait", "scuff", "seal", "swap", "leave-out", "coat"};
    Json list = Json::array();
    for (const auto& f : findings) {
        Json j = {{"id", f.id},         {"severity", schedule::word(f.severity)},
                  {"step", f.step + 1}, {"under", f.under},
                  {"over", f.over},     {"what", f.what},
                  {"why", f.why},       {"sure", material::word(f.sure)}};
        j["mends"] = Json::array();
        for (const auto& m : f.mends) {
            Json mend = {{"do", kinds[static_cast<std::size_t>(m.kind)]}, {"text", m.text}};
            if (!m.material.empty()) mend["material"] = m.material;
            if (m.days > 0) mend["days"] = m.days;
            j["mends"].push_back(std::move(mend));
        }
        list.push_back(std::move(j));
    }
    return list;
}

Json cautions_json(const std::vector<std::string>& words) {
    Json list = Json::array();
    for (const auto& c : job::all_cautions(words)) list.push_back({{"id", c.id}, {"text", c.text}});
    return list;
}

}  // namespace foretone::report
