#include <nlohmann/json.hpp>

#include "foretone/report/tool_json.hpp"
#include "foretone/report/findings_json.hpp"
#include "foretone/job/board_photo.hpp"
#include "foretone/report/json.hpp"

namespace foretone::report {
namespace {

using Json = nlohmann::ordered_json;

Json color_json(const job::SeenColor& c, const job::BoardPhoto& b) {
    return {{"light", c.light},
            {"observer", b.observer},
            {"geometry", scene::geometry_text(b.geometry)},
            {"XYZ", {c.xyz.x, c.xyz.y, c.xyz.z}},
            {"Lab", {c.lab.l, c.lab.a, c.lab.b}},
            {"sRGB", c.screen.rgb},
            {"hex", c.screen.hex()},
            {"in_gamut", c.screen.in_gamut}};
}

Json finish_json(const job::PhotoFinish& f, const job::BoardPhoto& b, const std::string& picture) {
    Json j = {{"name", f.name}, {"picture", picture}, {"out_of_gamut_share", f.out_of_gamut}};
    const bool promise =
        b.correction.promise;  // without a card the bare board has the prediction's color because it was given it
    j["board"] = promise ? color_json(f.board, b) : Json();
    j["prediction"] = promise ? color_json(f.prediction, b) : Json();
    j["dE00_to_prediction"] = promise ? Json(f.to_prediction) : Json();
    return j;
}

}  // namespace

std::string board_photo_json(const job::BoardPhoto& b, const std::vector<std::string>& pictures,
                             const scene::Scene& scene) {
    Json j;
    j["tool"] = tool_json("two-flux");
    j["scene"] = b.scene;
    j["wood"] = b.wood;
    j["promise"] = b.correction.promise;
    j["photo"] = {{"file", b.question.photo},
                  {"format", b.head.format},
                  {"width", b.head.width},
                  {"height", b.head.height},
                  {"bits", b.head.bits},
                  {"orientation", b.head.orientation},
                  {"profile", b.head.profile},
                  {"light", b.question.photo_light},
                  {"light_assumed", b.question.light_assumed},
                  {"exposure_stops", b.correction.stops}};
    if (!b.question.second_light.empty()) j["photo"]["second_light"] = b.question.second_light;
    if (b.squared_px[0] > 0) j["photo"]["squared"] = {{"width", b.squared_px[0]}, {"height", b.squared_px[1]}};
    if (!b.question.cards.empty()) {
        const auto& box = b.question.cards.front().box;
        const auto& c = b.correction.card;
        j["card"] = {{"box", {box.x, box.y, box.width, box.height}},
                     {"reflectance", b.question.cards.front().reflectance},
                     {"brightness", c.brightness},
                     {"rgb", c.rgb},
                     {"gradient", c.gradient},
                     {"unevenness", c.unevenness},
                     {"Lab_as_seen", {c.as_seen.l, c.as_seen.a, c.as_seen.b}}};
    } else {
        j["card"] = nullptr;
    }
    j["cards"] = b.question.cards.size();
    const auto& light = b.found_light;
    j["light"] = {{"judged", light.judged},
                  {"taken_out", light.taken_out},
                  {"left_to_wood", light.left_to_wood},
                  {"fall", light.judged ? Json(light.fall) : Json(nullptr)},
                  {"color_change", light.judged ? Json(light.color_change) : Json(nullptr)}};
    j["mm_per_px"] = b.mm_per_px;
    j["shares"] = {{"wood", b.wood_share},
                   {"constrained", b.wood_share * (1 - b.highlight_share)},
                   {"highlight", b.wood_share * b.highlight_share},
                   {"untouched", 1 - b.wood_share},
                   {"color_limited", b.wood_share * b.limited_share}};
    j["shade"] = b.shade;
    j["chroma_offset"] = b.chroma_offset;
    const auto picture = [&](std::size_t i) { return i < pictures.size() ? pictures[i] : std::string(); };
    j["before"] = finish_json(b.bare, b, picture(0));
    j["finishes"] = Json::array();
    for (std::size_t i = 0; i < b.finishes.size(); ++i) {
        Json f = finish_json(b.finishes[i], b, picture(i + 1));
        f["dE00_from_bare"] = b.finishes[i].from_bare;
        const auto& d = b.finishes[i].difference;
        f["Lab_from_bare"] = {d.l, d.a, d.b};
        f["words"] = b.finishes[i].words;
        f["findings"] = findings_json(b.finishes[i].findings);
        j["finishes"].push_back(std::move(f));
    }
    j["pictures"] = pictures;
    j["cautions"] = cautions_json(job::cautions_of(scene));
    j["warnings"] = Json::array();
    for (const auto& w : b.warnings)
        j["warnings"].push_back({{"id", w.id}, {"where", w.place.text()}, {"text", w.text}});
    return j.dump(2) + "\n";
}

}  // namespace foretone::report
