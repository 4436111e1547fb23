#include "foretone/report/tool_json.hpp"
#include "foretone/job/board.hpp"
#include "foretone/report/findings_json.hpp"
#include "foretone/report/json.hpp"
#include "json_values.hpp"

namespace foretone::report {
namespace {

Json contrast_json(const grain::Contrast& c) {
    return {{"pale_tenth_Lab", lab_json(c.pale)},
            {"dark_tenth_Lab", lab_json(c.dark)},
            {"dL", c.lightness},
            {"ratio", c.ratio}};
}

}  // namespace

std::string boards_json(const job::Boards& b) {
    constexpr const char* cuts[] = {"flat", "quarter", "rift"};
    Json j;
    j["tool"] = tool_json("two-flux");
    j["scene"] = b.title;
    j["wood"] = b.wood;
    j["board"] = {{"cut", cuts[static_cast<std::size_t>(b.request.cut)]},
                  {"width_mm", b.request.width_mm},
                  {"height_mm", b.request.height_mm},
                  {"mm_per_px", b.request.mm_per_px},
                  {"width_px", b.request.width()},
                  {"height_px", b.request.height()},
                  {"seed", b.request.seed},
                  {"view", light::word(b.request.view)}};
    if (b.request.shade_edges) j["board"]["shade"] = "edges";
    j["boards"] = Json::array();
    for (const auto& s : b.boards) {
        j["boards"].push_back({{"finish", s.finish},
                               {"light", s.light},
                               {"observer", b.observer},
                               {"geometry", "45/0"},
                               {"mean_Lab", lab_json(s.mean)},
                               {"predicted_Lab", lab_json(s.predicted)},
                               {"dE00_mean_to_predicted", s.de00},
                               {"dE00_by_unevenness", s.uneven_de00 ? Json(*s.uneven_de00) : Json(nullptr)},
                               {"contrast", s.contrast ? contrast_json(*s.contrast) : Json(nullptr)},
                               {"share_chroma_reduced", s.reduced_share},
                               {"share_white", s.white_share}});
        if (s.shade)
            j["boards"].back()["shade"] = {{"middle_Lab", lab_json(s.shade->middle)},
                                           {"edge_Lab", lab_json(s.shade->edge)},
                                           {"dE00", s.shade->de00}};
    }
    j["finishes"] = Json::array();
    for (const auto& f : b.finishes)
        j["finishes"].push_back({{"name", f.name}, {"findings", findings_json(f.findings)}});
    j["cautions"] = cautions_json(b.cautions);
    j["warnings"] = Json::array();
    for (const auto& w : b.warnings)
        j["warnings"].push_back({{"id", w.id}, {"where", w.place.text()}, {"text", w.text}});
    return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
