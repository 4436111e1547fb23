#include "foretone/report/tool_json.hpp"
#include "foretone/report/findings_json.hpp"
#include "foretone/job/export.hpp"
#include "foretone/report/json.hpp"

namespace foretone::report {
namespace {
using Json = nlohmann::ordered_json;

std::string_view word(job::ExportKind kind) { return job::export_words[static_cast<std::size_t>(kind)]; }

Json material_json(const job::ExportedMaterial& m) {
    Json j = {{"kind", word(m.kind)},
              {"finish", m.finish},
              {"loss_dE00", {{"D65", m.loss.d65}, {"A", m.loss.a}}},
              {"clipped", m.loss.clipped}};
    if (m.texels)
        j["texels"] = {{"D65_mean", m.texels->mean_d65},
                       {"D65_worst", m.texels->worst_d65},
                       {"A_mean", m.texels->mean_a},
                       {"A_worst", m.texels->worst_a},
                       {"clipped_share", m.clipped_share}};
    return j;
}

}  // namespace

std::string export_json(const job::Export& made) {
    Json j;
    j["tool"] = tool_json(made.preview.solver);
    j["scene"] = made.preview.scene.title;
    j["wood"] = made.preview.wood_name;
    j["files"] = Json::array();
    for (const auto& f : made.files)
        j["files"].push_back({{"file", f.file.path.generic_string()},
                              {"kind", word(f.kind)},
                              {"finish", f.finish},
                              {"light", f.light},
                              {"what", f.words},
                              {"bytes", f.file.bytes.size()}});
    j["materials"] = Json::array();
    for (const auto& m : made.materials) j["materials"].push_back(material_json(m));
    j["finishes"] = Json::array();
    for (const auto& f : made.preview.finishes)
        j["finishes"].push_back({{"name", f.name}, {"findings", findings_json(f.findings)}});
    j["cautions"] = cautions_json(job::cautions_of(made.preview.scene));
    j["warnings"] = Json::array();
    for (const auto& w : made.warnings)
        j["warnings"].push_back({{"id", w.id}, {"where", w.place.text()}, {"text", w.text}});
    return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
