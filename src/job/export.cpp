#include "foretone/job/export.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "foretone/base/number.hpp"
#include "export_job.hpp"

namespace foretone::job {
namespace {

constexpr double most_pixels = 40e6;         // of a board
constexpr double most_spectral_bytes = 2e9;  // of a board in spectra, at the most at one time
constexpr double spectral_copies = 4;        // pixels, channels apart, packed, and the file

// The scene with the finishes and lights asked for.
scene::Scene narrowed(const scene::Scene& scene, const scene::Library& library, const ExportRequest& request) {
    scene::Scene out = scene;
    if (!request.lights.empty()) {
        for (const auto& id : request.lights)
            if (!library.has_light(id))
                throw scene::InputError("light-unknown", {scene.file},
                                        "there is no light \"" + id + "\"." + scene::suggestion(id, library.lights()));
        out.look.lights = request.lights;
    }
    if (scene.finishes.empty())
        throw scene::InputError("finish-empty", {scene.file, 1, 1},
                                "there is no finish: add [[finish]] with a name and at least one [[finish.step]]");
    if (request.finishes.empty()) return out;
    std::vector<std::string> names;
    for (const auto& f : scene.finishes) names.push_back(f.name);
    out.finishes.clear();
    out.places.clear();
    for (const auto& wanted : request.finishes) {
        const auto it = std::find(names.begin(), names.end(), wanted);
        if (it == names.end())
            throw scene::InputError("finish-unknown", {scene.file},
                                    "there is no finish \"" + wanted + "\"." + scene::suggestion(wanted, names));
        const auto i = static_cast<std::size_t>(it - names.begin());
        out.finishes.push_back(scene.finishes[i]);
        out.places.push_back(scene.places[i]);
    }
    // A target named by a finish that is not exported has no say.
    if (out.target && !out.target->finish.empty() &&
        std::none_of(out.finishes.begin(), out.finishes.end(),
                     [&](const auto& f) { return f.name == out.target->finish; }))
        out.target.reset();
    return out;
}

void check(const ExportRequest& r, const scene::Scene& scene) {
    const auto refuse = [&](const std::string& id, const std::string& what) {
        throw scene::InputError(id, {scene.file}, what);
    };
    if (!(r.width_mm >= 5 && r.width_mm <= 3000 && r.height_mm >= 5 && r.height_mm <= 3000))
        refuse("size-range", "a board is 5 to 3000 mm long and wide, got " + base::shortest(r.width_mm) + " by " +
                                 base::shortest(r.height_mm));
    if (r.mm_per_px && !(*r.mm_per_px >= 0.005 && *r.mm_per_px <= 5))
        refuse("size-range", "a pixel is 0.005 to 5 mm wide, got " + base::shortest(*r.mm_per_px));
    const double scale = r.mm_per_px.value_or(1.0 / 3), pixels = r.width_mm * r.height_mm / (scale * scale);
    if (std::max(r.width_mm, r.height_mm) / scale > 20000 || pixels > most_pixels)
        refuse("export-large", "this board would have " + base::shortest(std::round(pixels / 1e5) / 10) +
                                   " million pixels; at most 40 million, 20000 a side: choose fewer");
    const bool spectral =
        r.kinds.empty() || std::find(r.kinds.begin(), r.kinds.end(), ExportKind::spectral_exr) != r.kinds.end();
    const double spectral_scale = r.mm_per_px.value_or(1);
    const double bytes = r.width_mm * r.height_mm / (spectral_scale * spectral_scale) * 84 * 4 * spectral_copies;
    if (spectral && bytes > most_spectral_bytes)
        refuse("export-large", "the spectra of this board would take " + base::shortest(std::ceil(bytes / 1e7) / 100) +
                                   " GB of memory, at most 2: choose fewer pixels, or leave --spectral-exr out");
}

}  // namespace

void ExportJob::add(ExportKind kind, const std::string& finish, const std::string& light, const std::string& what,
                    const std::string& name, std::vector<std::uint8_t> bytes) const {
    out.files.push_back({kind, finish, light, what, {folder / name, std::move(bytes)}});
}

bool ExportJob::wants(ExportKind kind) const {
    return request.kinds.empty() || std::find(request.kinds.begin(), request.kinds.end(), kind) != request.kinds.end();
}

ExportedBoard ExportJob::board(double mm_per_px) const {
    const auto pixels = [&](double mm) { return std::max(1, static_cast<int>(std::lround(mm / mm_per_px))); };
    const auto& wood = std::get<material::Wood>(scene.materials.at(scene.wood).data);
    ExportedBoard b{
        grain::grain(wood, request.cut, pixels(request.width_mm), pixels(request.height_mm), mm_per_px, request.seed),
        {}};
    b.range = appearance::ToneRange::covering(b.maps.shade, b.maps.uptake);
    return b;
}

std::string resting(const appearance::Spread& spread) {
    std::string text(material::word(spread.rests_on));
    for (std::size_t i = 0; i < spread.weakest.size(); ++i) text += (i == 0 ? " (" : ", ") + spread.weakest[i];
    return spread.weakest.empty() ? text : text + ")";
}

std::string board_words(const ExportJob& job, const grain::Maps& maps) {
    constexpr std::array<const char*, 3> cuts = {"flat", "quarter", "rift"};
    return fmt::format("{} by {} mm of {}, {} cut, grain made from seed {}, {} mm a pixel",
                       base::shortest(job.request.width_mm), base::shortest(job.request.height_mm),
                       job.out.preview.wood_name, cuts[static_cast<std::size_t>(job.request.cut)], job.request.seed,
                       base::shortest(std::round(1e4 * maps.mm_per_px) / 1e4));
}

Export export_scene(const scene::Scene& whole, const scene::Library& library, const ExportRequest& request,
                    const std::filesystem::path& folder) {
    check(request, whole);
    const scene::Scene scene = narrowed(whole, library, request);
    Export out;
    out.preview = preview(scene, library, appearance::two_flux_solver());
    out.warnings = out.preview.warnings;
    for (const auto& f : out.preview.finishes)
        out.warnings.insert(out.warnings.end(), f.warnings.begin(), f.warnings.end());

    ExportJob job{
        scene, library, request, folder, scene::file_stem(scene.file), {}, {}, {}, appearance::two_flux_solver(), out};
    const auto words = scene::finish_words(whole);
    for (const auto& f : scene.finishes) job.words.push_back(job.stem + "-" + words.at(f.name));
    job.light_words = scene::file_words(scene.look.lights);
    const auto observer = library.observer(scene.look.observer);
    for (const auto& id : scene.look.lights)
        job.lights.push_back(color::make_weights(library.illuminant(id), observer));
    if (job.wants(ExportKind::exr)) export_exr(job);
    if (job.wants(ExportKind::spectral_exr)) export_spectral_exr(job);
    if (job.wants(ExportKind::open_pbr) || job.wants(ExportKind::gltf)) export_materials(job);
    if (job.wants(ExportKind::palette)) export_palette(job);
    return out;
}

}  // namespace foretone::job
