#include "foretone/job/stoppable.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/report/json.hpp"

#include <algorithm>
#include <cmath>
#include <iostream>
#include <memory>

#include <fmt/core.h>

#include "aged.hpp"
#include "common.hpp"
#include "findings.hpp"
#include "foretone/job/cautions.hpp"
#include "seed.hpp"
#include "terminal.hpp"
#include "watch.hpp"

namespace foretone::cli {
namespace {

struct ExportOptions : Common {
    std::string scene;
    bool exr = false, spectral_exr = false, open_pbr = false, gltf = false, palette = false;
    std::vector<std::string> finishes, lights;
    std::string cut = "flat", size_mm, px, seed;
    std::string after;
    bool float32 = false, one_color = false;
};

// "300x200": two numbers above 0.
std::array<double, 2> pair_of(const std::string& option, const std::string& text, bool whole) {
    std::array<double, 2> out{};
    const auto sides = base::split(base::lower(text), 'x');
    bool good = sides.size() == 2;
    for (std::size_t i = 0; i < 2 && good; ++i) {
        out[i] = base::number_in(sides[i]).value_or(0);
        good = out[i] > 0 && std::isfinite(out[i]) && (!whole || out[i] == std::floor(out[i]));
    }
    if (!good)
        throw UsageError("option-value", {"export"},
                         option + " takes length and width" + (whole ? " in whole pixels" : "") + ", as " +
                             (whole ? "900x600" : "300x200") + "; read \"" + text + "\"");
    return out;
}

job::ExportRequest request_of(const ExportOptions& o, const std::string& title) {
    using job::ExportKind;
    job::ExportRequest r;
    const std::array<std::pair<bool, ExportKind>, 5> kinds = {{{o.exr, ExportKind::exr},
                                                               {o.spectral_exr, ExportKind::spectral_exr},
                                                               {o.open_pbr, ExportKind::open_pbr},
                                                               {o.gltf, ExportKind::gltf},
                                                               {o.palette, ExportKind::palette}}};
    for (const auto& [wanted, kind] : kinds)
        if (wanted) r.kinds.push_back(kind);
    r.finishes = o.finishes;
    r.lights = o.lights;
    r.cut = o.cut == "quarter" ? grain::Cut::quarter : o.cut == "rift" ? grain::Cut::rift : grain::Cut::flat;
    if (!o.size_mm.empty()) {
        const auto size = pair_of("--size-mm", o.size_mm, false);
        r.width_mm = size[0];
        r.height_mm = size[1];
    }
    if (!o.px.empty()) {
        const auto px = pair_of("--px", o.px, true);
        r.mm_per_px = r.width_mm / px[0];
        // Square pixels: half a pixel is what rounding may take.
        if (std::abs(r.height_mm / *r.mm_per_px - px[1]) > 0.5)
            throw scene::InputError(
                "size-range", {"export"},
                fmt::format("pixels are square: a board of {} by {} mm that is {} pixels long is {} wide, not {}",
                            base::shortest(r.width_mm), base::shortest(r.height_mm), base::shortest(px[0]),
                            base::shortest(std::round(r.height_mm / *r.mm_per_px)), base::shortest(px[1])));
    }
    r.seed = seed_from("export", o.seed, title);
    r.precision = o.float32 ? format::Precision::full : format::Precision::half;
    r.grain = !o.one_color;
    return r;
}

std::string size_text(std::size_t bytes) {
    const double kb = static_cast<double>(bytes) / 1000;
    return kb < 1000 ? fixed(std::max(0.1, kb), kb < 10 ? 1 : 0) + " kB" : fixed(kb / 1000, 1) + " MB";
}

// What the materials' colors lose, and what they could not hold.
void print_losses(const job::Export& made) {
    if (made.materials.empty()) return;
    std::cout << "\nwhat a renderer with three channels loses, dE00 against the spectral result at 45/0\n";
    std::vector<std::vector<std::string>> rows = {
        {"material", "finish", "D65", "lamp A", "texels D65", "worst", "texels A", "worst"}};
    for (const auto& m : made.materials) {
        std::vector<std::string> row = {std::string(job::export_words[static_cast<std::size_t>(m.kind)]), m.finish,
                                        fixed(m.loss.d65, 2), fixed(m.loss.a, 2)};
        for (int i = 0; i < 4; ++i) {
            const auto& t = m.texels;
            row.push_back(!t ? ""
                             : fixed(i == 0   ? t->mean_d65
                                     : i == 1 ? t->worst_d65
                                     : i == 2 ? t->mean_a
                                              : t->worst_a,
                                     2));
        }
        rows.push_back(std::move(row));
    }
    std::cout << table(rows, {false, false, true, true, true, true, true, true});
    for (const auto& m : made.materials) {
        if (m.loss.clipped)
            std::cout << "note: " << m.finish
                      << ": the color wanted lies outside what a base color can be; the nearest was taken\n";
        else if (m.clipped_share > 0)
            std::cout << "note: " << m.finish << ": " << fixed(100 * m.clipped_share, 2)
                      << " % of the texels wanted a base color outside 0 to 1\n";
    }
}

void print(const job::Export& made) {
    std::cout << made.preview.scene.title << "\n" << made.preview.wood_name << "\n\n";
    std::vector<std::vector<std::string>> rows = {{"file", "what", "light", "size"}};
    for (const auto& f : made.files)
        rows.push_back({f.file.path.string(), f.words, f.light, size_text(f.file.bytes.size())});
    std::cout << table(rows, {false, false, false, true});
    print_losses(made);
    for (const auto& f : made.preview.finishes) std::cout << findings_text(f.name, f.findings);
}

int run_export(const ExportOptions& options) {
    const auto lib = library(options);
    auto scene = scene::read_scene(options.scene, lib);
    auto request = request_of(options, scene.title);
    if (!options.after.empty()) {
        scene = job::aged_scene(scene, request.finishes, after_from("export", options.after));
        request.finishes.clear();
    }
    const Stoppable by_hand;
    const auto made = job::export_scene(scene, lib, request, options.out, {tell, stop_asked});
    std::vector<scene::OutputFile> files;
    for (const auto& f : made.files) files.push_back(f.file);
    const std::string json = options.json.empty() ? "" : report::export_json(made);
    deliver(options, std::move(files), json);
    print_warnings(options, made.warnings);
    if (options.speaks()) {
        print(made);
        std::cout
            << "\nPredicted, not measured. Screens and prints are not the sample: make one board before the job.\n";
    }
    print_cautions(options, job::cautions_of(made.preview.scene));
    return 0;
}

}  // namespace

void add_export(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<ExportOptions>();
    auto& o = *options;
    auto* verb =
        app.add_subcommand("export", "Files for other programs: OpenEXR, spectra, materials for renderers, palettes");
    verb->add_option("SCENE", o.scene, "Scene file (TOML)")->required();
    verb->add_flag("--exr", o.exr, "Boards and stages in linear light (OpenEXR)");
    verb->add_flag("--spectral-exr", o.spectral_exr, "Boards and stages in spectra (OpenEXR, 81 reflectance channels)");
    verb->add_flag("--openpbr", o.open_pbr, "OpenPBR material (MaterialX, .mtlx)");
    verb->add_flag("--gltf", o.gltf, "glTF 2.0 board and material");
    verb->add_flag("--palette", o.palette, "CGATS text: every stage with reflectance, XYZ, Lab");
    verb->add_option("--finish", o.finishes, "Name of a finish (repeatable; default: all)");
    verb->add_option("--light", o.lights, "Id of a light (repeatable; default: the scene's)");
    verb->add_option("--after", o.after, "Export one finish so old, where [look] exposure says it stands: \"1 year\"")
        ->type_name("TIME");
    verb->add_option("--cut", o.cut, "How the board is sawn (default flat)")
        ->check(CLI::IsMember({"flat", "quarter", "rift"}));
    verb->add_option("--size-mm", o.size_mm, "Length and width of the board, mm (default 300x200)");
    verb->add_option("--px", o.px, "Length and width of its pictures, pixels (default 3 a mm, spectra 1 a mm)");
    verb->add_option("--seed", o.seed, "Number of the board (default: from the scene's title)");
    verb->add_flag("--float", o.float32, "OpenEXR numbers with 32 bits (default 16)");
    verb->add_flag("--one-color", o.one_color, "Materials with one color in place of the board's picture");
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_export(*options); }; });
}

}  // namespace foretone::cli
