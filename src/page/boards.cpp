// Boards for the wall: one log for all finishes, so that the eye compares nothing but the finish. What has not changed since the
// page last had it is not drawn again.
#include <algorithm>
#include <cmath>

#include "foretone/color/adaptation.hpp"
#include "foretone/color/srgb.hpp"
#include "session.hpp"

namespace foretone::page {
namespace {

constexpr int codes = 4096;

// Linear light, 0–1 in 4096 steps, to codes.
const std::vector<std::uint8_t>& encoded() {
    static const std::vector<std::uint8_t> table = [] {
        std::vector<std::uint8_t> t(codes + 1);
        for (int i = 0; i <= codes; ++i) t[static_cast<std::size_t>(i)] = static_cast<std::uint8_t>(std::lround(255 * color::srgb_encode(i / double(codes))));
        return t;
    }();
    return table;
}

picture::Cut cut_from(const std::string& word) {
    if (word == "quarter") return picture::Cut::quarter;
    if (word == "rift") return picture::Cut::rift;
    return picture::Cut::flat;
}

// Linear sRGB of XYZ under the light, as three columns.
std::array<std::array<float, 3>, 3> to_linear(const color::Xyz& white) {
    std::array<std::array<float, 3>, 3> m{};
    for (std::size_t i = 0; i < 3; ++i) {
        const color::Xyz unit{i == 0 ? 100.0 : 0, i == 1 ? 100.0 : 0, i == 2 ? 100.0 : 0};
        const auto rgb = color::xyz_to_srgb(color::adapt(unit, white, color::srgb_white));
        for (std::size_t c = 0; c < 3; ++c) m[c][i] = static_cast<float>(color::srgb_decode(rgb[c]) / 100);
    }
    return m;
}

}  // namespace

std::size_t Session::stage_wanted(const appearance::Stages& stages, const Json& request) {
    const auto count = stages.stages.size();
    if (request.contains("stage")) return std::min(count - 1, request["stage"].get<std::size_t>());
    const auto kind = request.value("kind", std::string("finished"));
    for (std::size_t i = count; i-- > 0;)
        if (appearance::word(stages.stages[i].kind) == kind) return i;
    return kind == "coated" ? count - 1 : 0;
}

std::pair<const picture::Maps*, std::string> Session::maps(const scene::Scene& s, const Json& request) {
    const int width = std::clamp(request.value("width", 400), 16, 1600), height = std::clamp(request.value("height", 300), 16, 1600);
    const double mm = std::clamp(request.value("mm", 0.4), 0.05, 5.0);
    const auto cut = request.value("cut", std::string("flat"));
    const auto key = s.wood + "/" + cut + "/" + std::to_string(width) + "/" + std::to_string(height) + "/" + scene::number(mm);
    auto it = maps_.find(key);
    if (it == maps_.end()) {
        if (maps_.size() > 6) maps_.clear();
        const auto& wood = std::get<material::Wood>(s.shelf.at(s.wood).data);
        it = maps_.emplace(key, picture::grain(wood, cut_from(cut), width, height, mm, 1, 1)).first;
    }
    return {&it->second, key};
}

const appearance::ToneTable& Session::tones(const scene::Scene& s, std::size_t finish, std::size_t stage, const std::string& light,
                                            const picture::Maps& m, const std::string& key) {
    if (const auto it = tables_.find(key + "/" + light); it != tables_.end()) return it->second;
    if (tables_.size() > 40) tables_.clear();
    if (spectra_.size() > 20) spectra_.clear();
    auto at = spectra_.find(key);
    if (at == spectra_.end()) {
        const auto boards = appearance::boards(s.shelf, s.wood, s.finishes[finish]);
        const auto& wood = std::get<material::Wood>(s.shelf.at(s.wood).data);
        at = spectra_.emplace(key, appearance::ToneSpectra(boards.at(stage), wood, s.look.geometry, solver_,
                                                           appearance::ToneRange::covering(m.shade, m.uptake))).first;
    }
    return tables_.emplace(key + "/" + light, appearance::ToneTable(at->second, weights(light, s.look.observer))).first->second;
}

Json Session::board(const Json& request) {
    if (!last_ || last_text_ != request.at("text").get<std::string>()) look(request);
    const auto& s = *last_;
    const auto finish = request.at("finish").get<std::size_t>();
    if (finish >= s.finishes.size()) throw std::invalid_argument("page::Session: there is no finish " + std::to_string(finish));
    const auto stage = stage_wanted(worked(s, finish).stages, request);
    const auto light = request.at("light").get<std::string>();
    const auto [m, maps_key] = maps(s, request);

    const auto tones_key = key_of(s, finish) + "/" + std::to_string(stage) + "/" + maps_key;
    const auto key = std::to_string(std::hash<std::string>{}(common_ + tones_key + "/" + light));
    Json out = {{"finish", finish}, {"stage", stage}, {"width", m->width}, {"height", m->height}, {"key", key}};
    if (request.value("known", std::string()) == key) {
        out["same"] = true;
        return out;
    }
    const auto& table = tones(s, finish, stage, light, *m, tones_key);
    const auto& code = encoded();
    const auto matrix = to_linear(table.white());
    pixels_.resize(4 * m->shade.size());
    for (std::size_t i = 0; i < m->shade.size(); ++i) {
        const auto t = table.at(m->shade[i], m->uptake[i]);
        const float x = t.body[0] + t.surface[0], y = t.body[1] + t.surface[1], z = t.body[2] + t.surface[2];
        for (std::size_t c = 0; c < 3; ++c) {
            const float v = matrix[c][0] * x + matrix[c][1] * y + matrix[c][2] * z;
            pixels_[4 * i + c] = code[static_cast<std::size_t>(std::clamp(v, 0.0F, 1.0F) * codes + 0.5F)];
        }
        pixels_[4 * i + 3] = 255;
    }
    return out;
}

}  // namespace foretone::page
