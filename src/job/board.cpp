#include "foretone/job/board_rows.hpp"

#include <algorithm>
#include <cmath>
#include <deque>

#include <fmt/core.h>

#include "foretone/appearance/ageing.hpp"
#include "foretone/appearance/mean_matched.hpp"
#include "foretone/base/checksum.hpp"
#include "foretone/base/number.hpp"
#include "foretone/grain/tenths.hpp"
#include "foretone/layout/tilt.hpp"
#include "foretone/light/rows.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/scene/version.hpp"
#include "board_shade.hpp"

namespace foretone::job {
namespace {
constexpr const char* bare = "bare";

void check(const scene::Scene& scene, const scene::Library& library, const BoardRequest& r) {
    scene::Problems problems;
    std::vector<std::string> names = {bare};
    for (const auto& f : scene.finishes) names.push_back(f.name);
    for (const auto& name : r.finishes)
        if (std::find(names.begin(), names.end(), name) == names.end())
            problems.add("finish-unknown", {scene.file},
                         "there is no finish \"" + name + "\"." + scene::suggestion(name, names));
    for (const auto& id : r.lights)
        if (!library.has_light(id))
            problems.add("light-unknown", {scene.file},
                         "there is no light \"" + id + "\"." + scene::suggestion(id, library.lights()));
    if (!(r.mm_per_px >= 0.02 && r.mm_per_px <= 2))
        problems.add("board-scale", {scene.file},
                     "a pixel is between 0.02 and 2 mm wide, not " + base::significant(r.mm_per_px, 3) +
                         ": choose another --px, --size-mm or --mm-per-px");
    else if (!(r.width_mm / r.mm_per_px >= 32 && r.height_mm / r.mm_per_px >= 32 &&
               std::max(r.width(), r.height()) <= 20000 && 1.0 * r.width() * r.height() <= most_board_pixels))
        problems.add(
            "board-size", {scene.file},
            fmt::format(
                "a board is at least 32 pixels a side and at most 20000, 30 million in all; {} x {} mm at {} mm "
                "a pixel is {} x {}. Make the board smaller (--size-mm) or the pixels larger (--mm-per-px, --px)",
                base::shortest(r.width_mm), base::shortest(r.height_mm), base::shortest(r.mm_per_px), r.width(),
                r.height()));
    problems.raise();
}

// Pixels of all pictures, finishes times lights, strips of a passing light counted too: packed, a byte or two each lie
// on the disk until all are written.
constexpr double most_pixels_in_all = 400e6;

void check_all_boards(const scene::Scene& scene, const BoardRequest& r, std::size_t boards) {
    const double pixels = (r.tilt ? 2.3 : 1.0) * r.width() * r.height() * static_cast<double>(boards);
    if (pixels <= most_pixels_in_all) return;
    throw scene::InputError(
        "board-size", {scene.file},
        fmt::format("{} boards of {} x {} pixels{} are {} million pixels in all; at most {} million: fewer with "
                    "--finish, --light, --size-mm or --px",
                    boards, r.width(), r.height(), r.tilt ? " and their strips" : "", std::lround(pixels / 1e6),
                    std::lround(most_pixels_in_all / 1e6)));
}

// The finish of that name, what it assumes told; without any step for `bare`, which is no finish of the scene.
schedule::Finish finish_of(const scene::Scene& scene, const std::string& name, Boards& out) {
    for (std::size_t i = 0; i < scene.finishes.size(); ++i) {
        if (scene.finishes[i].name != name) continue;
        int step = 0;
        try {
            const auto worked = appearance::stages(scene.materials, scene.wood, scene.finishes[i],
                                                   optics::Geometry::g45_0, appearance::two_flux_solver(), &step);
            for (const auto& note : worked.notes) {
                const std::size_t number =
                    note.starts_with("step ") ? static_cast<std::size_t>(std::stoul(note.substr(5))) - 1 : 0;
                out.warnings.push_back({"assumed", scene.places[i].at(number).step, note});
            }
            return scene.finishes[i];
        } catch (const schedule::Fault& fault) {
            throw scene.at(fault, i, static_cast<std::size_t>(std::max(step, 0)));
        }
    }
    return {bare, {}};
}

// Toned edges need a toner in one of the finishes shown.
void check_shade(const scene::Scene& scene, const BoardRequest& r) {
    if (!r.shade_edges) return;
    for (const auto& f : scene.finishes)
        if (std::find(r.finishes.begin(), r.finishes.end(), f.name) != r.finishes.end() &&
            holds_toner(f, scene.materials))
            return;
    std::vector<std::string> toners;
    for (const auto& [id, m] : scene.materials)
        if (m.kind == material::Kind::toner) toners.push_back(id);
    throw scene::InputError("shade-toner", {scene.file},
                            "toned edges need a finish with a toner, and none of those shown has one" +
                                (toners.empty() ? std::string(": foretone materials lists toners")
                                                : "; in this scene: " + scene::either(toners)));
}

// A board in one light, alike all over; its rows go to `take`.
SeenBoard seen_board(const SettledBoard& one, const BoardMaps& maps, const color::Weights& weights,
                     const BoardRequest& request, const TakeRows& take) {
    const auto& [board, wood, settled, toned] = one;
    const appearance::ToneTable tones(settled.spectra, weights);
    const light::Finished finished{tones, light::sheen_of(board, wood), light::fibres_of(wood)};
    light::BoardPicture lit(maps.width(), maps.height(), maps.mm_per_px(), finished, {request.view, 0});
    appearance::ToneMean mean(settled.spectra);
    grain::Tenths tenths(tones);
    std::vector<std::uint8_t> rgb;
    maps.each_piece([&](const BoardMaps::Piece& p) {
        const auto shade = p.of(p.maps.shade), uptake = p.of(p.maps.uptake), pore = p.of(p.maps.pore);
        rgb.resize(3 * shade.size());
        lit.draw(p.maps, p.first, p.from, p.end, rgb);
        take(rgb);
        mean.add(shade, uptake, pore);
        tenths.widen(shade, uptake, pore);
    });
    maps.each([&](auto shade, auto uptake, auto pore) { tenths.count(shade, uptake, pore); });
    SeenBoard seen;
    seen.reduced_share = lit.reduced_share();
    seen.white_share = lit.white_share();
    seen.mean = color::to_lab(color::xyz(mean.mean().total(), weights), weights.white);
    seen.predicted = color::to_lab(color::xyz(settled.due, weights), weights.white);
    seen.de00 = color::delta_e_00(seen.mean, seen.predicted);
    seen.uneven_de00 =
        color::delta_e_00(color::to_lab(color::xyz(settled.uneven, weights), weights.white), seen.predicted);
    seen.contrast = tenths.contrast();
    return seen;
}

// The strip under a passing light.
void draw_strip(const SettledBoard& one, const BoardMaps& maps, const color::Weights& weights, const TakeRows& take) {
    const appearance::ToneTable tones(one.settled.spectra, weights);
    layout::tilt_strip(
        maps.width(), maps.height(), maps.mm_per_px(),
        [&](grain::Maps& rows, int first, int end) { maps.rows(rows, first, end); },
        {tones, light::sheen_of(one.board, one.wood), light::fibres_of(one.wood)}, take);
}

std::string percent(double share) { return base::shortest(std::round(share * 1000) / 10) + " %"; }

void warn_of_screen(const SeenBoard& b, const scene::Scene& scene, std::vector<scene::Problem>& warnings) {
    if (b.reduced_share > 0)
        warnings.push_back(
            {"out-of-gamut",
             {scene.file},
             percent(b.reduced_share) + " of the pixels of \"" + b.finish + "\" under " + b.light +
                 " are beyond what an sRGB screen shows; they have less chroma, same hue and lightness"});
}

void keep_first_of_each(std::vector<std::string>& list) {
    std::vector<std::string> once;
    for (auto& word : list)
        if (std::find(once.begin(), once.end(), word) == once.end()) once.push_back(std::move(word));
    list = std::move(once);
}

// What is said of the finishes shown, whatever they look like.
void check_finishes(const scene::Scene& scene, Boards& out) {
    const auto& shown = out.request.finishes;
    for (const auto& f : scene.finishes)
        if (std::find(shown.begin(), shown.end(), f.name) != shown.end())
            out.finishes.push_back({f.name, schedule::check_order(f, scene.materials, &scene.wood_data())});
    out.cautions = cautions_of(scene);
}

}  // namespace

int BoardRequest::width() const { return static_cast<int>(std::lround(std::min(1e6, width_mm / mm_per_px))); }
int BoardRequest::height() const { return static_cast<int>(std::lround(std::min(1e6, height_mm / mm_per_px))); }

std::uint64_t seed_of(const std::string& title) { return base::fnv1a(title) & largest_seed; }

Boards boards(const scene::Scene& scene, const scene::Library& library, const BoardRequest& request,
              const Going& going) {
    std::deque<light::Image> pictures;
    std::vector<bool> strips;
    Boards out = boards(scene, library, request, going, [&](const NewPicture& p) -> TakeRows {
        pictures.push_back({p.width, p.height, {}});
        strips.push_back(p.strip);
        return [&image = pictures.back()](auto rgb) { image.rgb.insert(image.rgb.end(), rgb.begin(), rgb.end()); };
    });
    std::size_t board = 0;
    for (std::size_t i = 0; i < pictures.size(); ++i) {
        auto& seen = out.boards.at(strips[i] ? board - 1 : board++);
        (strips[i] ? seen.strip : seen.image) = std::move(pictures[i]);
    }
    return out;
}

Boards boards(const scene::Scene& scene, const scene::Library& library, const BoardRequest& request, const Going& going,
              const BeginPicture& begin, double held) {
    check(scene, library, request);
    const auto& wood = std::get<material::Wood>(scene.materials.at(scene.wood).data);
    Boards out{scene.title,         scene.wood, scene.materials.at(scene.wood).name,
               scene.look.observer, request,    {},
               scene.warnings,      {},         {}};
    auto& names = out.request.finishes;
    if (names.empty()) {
        for (const auto& f : scene.finishes) names.push_back(f.name);
        if (std::find(names.begin(), names.end(), bare) == names.end()) names.insert(names.begin(), bare);
    }
    if (out.request.lights.empty()) out.request.lights = scene.look.lights;
    keep_first_of_each(names);
    keep_first_of_each(out.request.lights);
    check_shade(scene, out.request);
    const std::size_t all = names.size() * out.request.lights.size();
    check_all_boards(scene, out.request, all);

    const BoardMaps maps(wood, request, held);
    const auto solver = appearance::two_flux_solver();
    const auto observer = library.observer(scene.look.observer);
    std::vector<color::Weights> weights_of_all;
    for (const auto& id : out.request.lights)
        weights_of_all.push_back(color::make_weights(library.illuminant(id), observer));
    for (const auto& name : names) {
        const auto finish = finish_of(scene, name, out);
        const bool shaded = request.shade_edges && holds_toner(finish, scene.materials);
        const auto levels = shaded ? shaded_boards(scene, finish, request, maps, solver, weights_of_all)
                                   : std::vector{settled_board(scene, finish, request, maps, solver)};
        for (std::size_t l = 0; l < weights_of_all.size(); ++l) {
            if (going.leave("boards drawn", out.boards.size(), all)) {
                out.warnings.push_back({"stopped",
                                        {scene.file},
                                        "stopped by hand: " + std::to_string(out.boards.size()) + " of " +
                                            std::to_string(all) + " boards were drawn"});
                check_finishes(scene, out);
                return out;
            }
            NewPicture picture{name, out.request.lights[l], shaded, false, maps.width(), maps.height()};
            const auto take = begin(picture);
            auto seen = shaded ? shaded_board(levels, maps, weights_of_all[l], request.view, take)
                               : seen_board(levels.front(), maps, weights_of_all[l], request, take);
            seen.finish = name;
            seen.light = out.request.lights[l];
            if (request.tilt && !shaded) {
                const auto size = layout::tilt_size(maps.width(), maps.height());
                picture.strip = true, picture.width = size.width, picture.height = size.height;
                draw_strip(levels.front(), maps, weights_of_all[l], begin(picture));
            }
            warn_of_screen(seen, scene, out.warnings);
            out.boards.push_back(std::move(seen));
        }
    }
    check_finishes(scene, out);
    return out;
}

}  // namespace foretone::job
