// Boards for the wall: one log for all finishes, so that the eye compares nothing but the finish. What has not changed
// since the page last had it is not drawn again.
#include <algorithm>

#include "foretone/base/number.hpp"
#include "foretone/job/board.hpp"
#include "session.hpp"

namespace foretone::page {
namespace {

/// A board on a large screen at its own pixels; its maps take 20 bytes a pixel.
constexpr int largest_side = 4096, most_pixels = 6'000'000;

grain::Cut cut_from(const std::string& word) {
    if (word == "quarter") return grain::Cut::quarter;
    if (word == "rift") return grain::Cut::rift;
    return grain::Cut::flat;
}

light::View view_from(const std::string& word) {
    for (const auto view : {light::View::window, light::View::lamp})
        if (light::word(view) == word) return view;
    return light::View::flat;
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

std::pair<const grain::Maps*, std::string> Session::maps(const scene::Scene& s, const Json& request) {
    const int width = std::clamp(request.value("width", 400), 16, largest_side),
              height = std::clamp(request.value("height", 300), 16, std::min(largest_side, most_pixels / width));
    const double mm = std::clamp(request.value("mm", 0.4), 0.02, 5.0);
    const auto cut = request.value("cut", std::string("flat"));
    const auto seed = job::seed_of(s.title);  // the piece of wood that the command line would show
    const auto key = std::to_string(seed) + s.wood + "/" + cut + "/" + std::to_string(width) + "/" +
                     std::to_string(height) + "/" + base::shortest(mm);
    auto it = maps_.find(key);
    if (it == maps_.end()) {
        std::size_t held = 0;
        for (const auto& [_, m] : maps_) held += m.shade.size();
        if (maps_.size() > 6 || held + static_cast<std::size_t>(width) * height > most_pixels) maps_.clear();
        const auto& wood = std::get<material::Wood>(s.materials.at(s.wood).data);
        it = maps_.emplace(key, grain::grain(wood, cut_from(cut), width, height, mm, seed, 1)).first;
    }
    return {&it->second, key};
}

const std::vector<appearance::Board>& Session::boards(const scene::Scene& s, std::size_t finish) {
    const auto& key = keys_.at(finish);
    if (const auto it = boards_.find(key); it != boards_.end()) return it->second;
    if (boards_.size() > 40) boards_.clear();
    return boards_[key] = appearance::boards(s.materials, s.wood, s.finishes[finish]);
}

void Session::show(const light::Image& image) {
    const auto count = image.rgb.size() / 3;
    pixels_.resize(4 * count);
    const std::uint8_t* from = image.rgb.data();
    std::uint8_t* to = pixels_.data();
    for (std::size_t i = 0; i < count; ++i, from += 3, to += 4)
        to[0] = from[0], to[1] = from[1], to[2] = from[2], to[3] = 255;
}

const appearance::ToneTable* Session::solved(const std::string& key, const std::string& light) const {
    const auto it = tables_.find(key + "/" + light);
    return it == tables_.end() ? nullptr : &it->second;
}

// At once: a few spots at every fourth wavelength, some thirtieth of the work.
const appearance::ToneTable& Session::tones(const scene::Scene& s, const appearance::Board& board,
                                            const material::Wood& wood, const std::string& light, const grain::Maps& m,
                                            const std::string& key, bool at_once) {
    if (const auto* table = solved(key, light)) return *table;
    if (tables_.size() > 40) tables_.clear();
    if (spectra_.size() > 20) spectra_.clear();
    auto at = spectra_.find(key);
    if (at == spectra_.end()) {
        auto solver = solver_;
        if (at_once) solver.every = 4;
        const auto range = appearance::ToneRange::covering(m.shade, m.uptake);
        const auto spots = at_once ? appearance::ToneSpots::few : appearance::ToneSpots::all;
        at = spectra_.emplace(key, appearance::ToneSpectra(board, wood, s.look.geometry, solver, range, spots)).first;
    }
    return tables_.emplace(key + "/" + light, appearance::ToneTable(at->second, weights(light, s.look.observer)))
        .first->second;
}

Json Session::board(const Json& request) {
    if (!last_ || last_text_ != request.at("text").get<std::string>()) look(request);
    const auto& s = *last_;
    const auto finish = request.at("finish").get<std::size_t>();
    if (finish >= s.finishes.size())
        throw std::invalid_argument("page::Session: there is no finish " + std::to_string(finish));
    const auto& new_stages = worked(s, finish).stages;
    const auto stage = stage_wanted(new_stages, request);
    const auto after = stage + 1 == new_stages.stages.size() ? after_of(request, s.file) : std::nullopt;
    const WorkedAge* old = after ? &worked_age(s, finish, *after) : nullptr;
    const auto light = request.at("light").get<std::string>();
    const auto [m, maps_key] = maps(s, request);

    const auto tones_key = keys_.at(finish) + "/" + std::to_string(stage) + "/" +
                           (after ? base::shortest(after->days) : std::string()) + "/" + maps_key;
    const auto key = std::to_string(
        std::hash<std::string>{}(common_ + tones_key + "/" + light + "/" + request.value("view", std::string())));
    Json out = {{"finish", finish}, {"stage", stage}, {"width", m->width}, {"height", m->height}, {"key", key}};
    if (request.value("known", std::string()) == key) {
        out["same"] = true;
        return out;
    }
    const appearance::Board& shown = old ? old->board : boards(s, finish).at(stage);
    const auto& wood = old ? old->finish.wood_data() : s.wood_data();
    // Asked for at once it may be a first picture, a little off in color; the page asks again when nothing moves.
    const bool first = request.value("at_once", false) && !solved(tones_key, light);
    if (first) out["first"] = true;
    const auto& table = tones(s, shown, wood, light, *m, tones_key + (first ? "/at once" : ""), first);
    const auto view = view_from(request.value("view", std::string("flat")));
    const light::Finished finished{table, light::sheen_of(shown, wood), light::fibres_of(wood)};
    if (view == light::View::flat && table.lent().pore_body) {
        // The reading itself, spot by spot, each with the usual share of pores.
        const light::Screen screen(table.white());
        light::Tally tally;
        pixels_.resize(4 * m->shade.size());
        for (std::size_t i = 0; i < m->shade.size(); ++i) {
            const auto t = table.at(m->shade[i], m->uptake[i]);
            const auto code =
                screen.code(t.body[0] + t.surface[0], t.body[1] + t.surface[1], t.body[2] + t.surface[2], tally);
            std::copy(code.begin(), code.end(), pixels_.begin() + static_cast<std::ptrdiff_t>(4 * i));
            pixels_[4 * i + 3] = 255;
        }
        return out;
    }
    show(light::light_board(*m, finished, {view, 0}, 1).image);
    return out;
}

}  // namespace foretone::page
