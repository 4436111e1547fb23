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
constexpr double most_bytes_in_all = 4e9;    // of all files, which are written together
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
        refuse("size-range", "a pixel is 0.005 to 5 mm wide, got " + base::significant(*r.mm_per_px, 3));
    const double scale = r.mm_per_px.value_or(1.0 / 3), pixels = r.width_mm * r.height_mm / (scale * scale);
    if (std::max(r.width_mm, r.height_mm) / scale > 20000 || pixels > most_pixels)
        refuse("export-large",
               "this board would have " + base::shortest(std::round(pixels / 1e5) / 10) +
                   " million pixels; at most 40 million, 20000 a side: choose fewer with --px or --size-mm");
    const bool spectral =
        r.kinds.empty() || std::find(r.kinds.begin(), r.kinds.end(), ExportKind::spectral_exr) != r.kinds.end();
    const double spectral_scale = r.mm_per_px.value_or(1);
    const double bytes = r.width_mm * r.height_mm / (spectral_scale * spectral_scale) * 84 * 4 * spectral_copies;
    if (spectral && bytes > most_spectral_bytes)
        refuse("export-large",
               "the spectra of this board would take " + base::shortest(std::ceil(bytes / 1e7) / 100) +
                   " GB of memory, at most 2: choose fewer pixels with --px or --size-mm, or leave --spectral-exr out");
}

// Bytes of all files of boards, which are held until they are written, as if nothing in them could be packed. Returns
// how many files they are.
std::size_t check_all_files(const ExportRequest& r, const scene::Scene& scene) {
    const auto wants = [&](ExportKind kind) {
        return r.kinds.empty() || std::find(r.kinds.begin(), r.kinds.end(), kind) != r.kinds.end();
    };
    const auto pixels = [&](double usual) {
        const double scale = r.mm_per_px.value_or(usual);
        return r.width_mm * r.height_mm / (scale * scale);
    };
    const auto finishes = static_cast<double>(scene.finishes.size()),
               lights = static_cast<double>(scene.look.lights.size());
    const double sample = r.precision == format::Precision::half ? 2 : 4;
    double bytes = 0, files = 0;
    const auto add = [&](double many, double bytes_each) {
        files += many;
        bytes += many * bytes_each;
    };
    if (wants(ExportKind::exr)) add(finishes * lights, 3 * sample * pixels(1.0 / 3));
    if (wants(ExportKind::spectral_exr)) add(finishes, 84 * sample * pixels(1));
    for (const auto kind : {ExportKind::open_pbr, ExportKind::gltf})
        if (wants(kind)) add(finishes, r.grain ? 4 * pixels(1.0 / 3) : 0);
    if (bytes > most_bytes_in_all)
        throw scene::InputError(
            "export-large", {scene.file},
            fmt::format(
                "the {} files of this export would hold {} GB, at most {}: fewer with --finish, --light, a kind "
                "(--exr, --gltf ...), --px or --size-mm",
                std::lround(files), base::shortest(std::ceil(bytes / 1e7) / 100),
                base::shortest(most_bytes_in_all / 1e9)));
    return static_cast<std::size_t>(files);
}

}  // namespace

void ExportJob::add(ExportKind kind, const std::string& finish, const std::string& light, const std::string& what,
                    const std::string& name, std::vector<std::uint8_t> bytes) const {
    out.files.push_back({kind, finish, light, what, {folder / name, std::move(bytes)}});
}

bool ExportJob::leave() const {
    if (!stopped_after && going.leave("files made", out.files.size(), std::max(boards, out.files.size() + 1)))
        stopped_after = out.files.size();
    return stopped_after.has_value();
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
                    const std::filesystem::path& folder, const Going& going) {
    check(request, whole);
    const scene::Scene scene = narrowed(whole, library, request);
    const std::size_t files = check_all_files(request, scene);
    Export out;
    out.preview = preview(scene, library, appearance::two_flux_solver());
    out.warnings = out.preview.warnings;
    for (const auto& f : out.preview.finishes)
        out.warnings.insert(out.warnings.end(), f.warnings.begin(), f.warnings.end());

    std::optional<std::size_t> stopped_after;
    ExportJob job{
        scene, library, request, folder,       scene::file_stem(scene.file), {}, {}, {}, appearance::two_flux_solver(),
        out,   going,   files,   stopped_after};
    const auto words = scene::finish_words(whole);
    for (const auto& f : scene.finishes) job.words.push_back(job.stem + "-" + words.at(f.name));
    job.light_words = scene::file_words(scene.look.lights);
    const auto observer = library.observer(scene.look.observer);
    for (const auto& id : scene.look.lights)
        job.lights.push_back(color::make_weights(library.illuminant(id), observer));
    if (job.wants(ExportKind::exr)) export_exr(job);
    if (job.wants(ExportKind::spectral_exr)) export_spectral_exr(job);
    if (job.wants(ExportKind::open_pbr) || job.wants(ExportKind::gltf)) export_materials(job);
    if (job.wants(ExportKind::palette) && !stopped_after) export_palette(job);
    if (stopped_after)
        out.warnings.push_back({"stopped",
                                {scene.file},
                                "stopped by hand: the first " + std::to_string(*stopped_after) +
                                    " files were made, the rest is left out"});
    return out;
}

}  // namespace foretone::job
