// Materials for renderers. Each is fitted to the board's reading at 45/0 under D65 (2° observer), whatever the scene's
// look: that is what their color numbers mean. What three channels cannot carry is told as ΔE00 under D65 and under
// lamp A.

#include <cmath>
#include <numbers>

#include <fmt/core.h>

#include "export_job.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/parallel.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/light/board.hpp"
#include "foretone/format/gltf.hpp"
#include "foretone/format/open_pbr.hpp"
#include "foretone/format/png.hpp"
#include "foretone/scene/version.hpp"

namespace foretone::job {
namespace {

constexpr std::size_t most_samples = 4096;  // texels whose loss is worked out

// One finish, as all of its materials see it.
struct Finished {
    format::Surface surface;
    format::FibreGlint fibre;
    const appearance::ToneSpectra& spectra;  ///< at 45/0
    const ExportedBoard& board;
    format::LinearImage pixels;  ///< reading under D65; empty: one color
};

format::LinearImage board_pixels(const ExportedBoard& board, const appearance::ToneSpectra& spectra,
                                 const format::FitLights& lights) {
    const appearance::ToneTable table(spectra, lights.d65);
    const auto& m = board.maps;
    format::LinearImage out{m.width, m.height, std::vector<float>(3 * m.shade.size())};
    const std::array<format::Rgb, 3> matrix = {format::linear_srgb({1, 0, 0}, table.white()),
                                               format::linear_srgb({0, 1, 0}, table.white()),
                                               format::linear_srgb({0, 0, 1}, table.white())};
    base::parallel_rows(m.height, 0, [&](int first, int end) {
        for (std::size_t i = m.at(0, first); i < m.at(0, end); ++i) {
            const auto c = table.reading(m.shade[i], m.uptake[i], table.pore_at(m.pore, i));
            for (std::size_t k = 0; k < 3; ++k)
                out.rgb[3 * i + k] = static_cast<float>(matrix[0][k] * c.x + matrix[1][k] * c.y + matrix[2][k] * c.z);
        }
    });
    return out;
}

// Loss of single texels as they are stored, against their own spectra.
template <class Material>
TexelLoss texel_loss(Material material, const light::Image& image, const Finished& f, const format::FitLights& lights) {
    const auto& m = f.board.maps;
    const std::size_t count = m.shade.size(), step = std::max<std::size_t>(1, count / most_samples);
    TexelLoss out;
    std::size_t samples = 0;
    for (std::size_t i = step / 2; i < count; i += step, ++samples) {
        for (std::size_t c = 0; c < 3; ++c) material.base_color[c] = color::srgb_decode(image.rgb[3 * i + c] / 255.0);
        const auto loss = format::loss_of(format::reading_45_0(material),
                                          f.spectra.at(m.shade[i], m.uptake[i], m.pore[i]).total(), lights);
        out.mean_d65 += loss.d65;
        out.mean_a += loss.a;
        out.worst_d65 = std::max(out.worst_d65, loss.d65);
        out.worst_a = std::max(out.worst_a, loss.a);
    }
    out.mean_d65 /= static_cast<double>(samples);
    out.mean_a /= static_cast<double>(samples);
    return out;
}

std::string two_digits(double v) { return base::fixed(v, 2); }

std::string loss_words(const ExportedMaterial& e) {
    std::string text = fmt::format(
        "Loss against the spectral result, CIEDE2000 at 45/0 of the mean wood: {} under D65, {} under lamp A (the lamp "
        "as "
        "a red, green and blue triple).",
        two_digits(e.loss.d65), two_digits(e.loss.a));
    if (e.loss.clipped)
        text +=
            " The color wanted lies outside what the base color can be: it was brought to the nearest value, channel "
            "by channel.";
    if (e.texels)
        text += fmt::format(" Of the picture's texels: mean {} and worst {} under D65, mean {} and worst {} under A.",
                            two_digits(e.texels->mean_d65), two_digits(e.texels->worst_d65),
                            two_digits(e.texels->mean_a), two_digits(e.texels->worst_a));
    if (e.clipped_share > 0)
        text += " " + two_digits(100 * e.clipped_share) + " % of the texels wanted a base color outside 0 to 1.";
    return text;
}

// The fibres' highlight of a wood where film lies over it; none on dry wood, whose own is faint and broad.
format::FibreGlint glint_of(const format::Surface& surface, const material::Wood& wood) {
    if (surface.covered <= 0) return {};
    const auto fibres = light::fibres_of(wood);
    return format::fibre_glint(std::clamp(fibres.share.value * surface.covered, 0.0, 0.5),
                               fibres.beta_deg.value * std::numbers::pi / 180, surface.n);
}

std::string fibre_words(const Finished& f) {
    if (f.fibre.share <= 0) return "";
    return "Fibres glint across the grain with " + two_digits(100 * f.fibre.share) +
           " % of the wood's light (practice, not measured). ";
}

constexpr const char* provenance =
    "Predicted, not measured; screens and prints are not the sample. Other angles than 45/0 follow the renderer's own "
    "model.";

template <class Fit>
ExportedMaterial exported(ExportKind kind, const std::string& name, const Fit& fit, const format::BaseTexture* texture,
                          const Finished& f, const format::FitLights& lights) {
    ExportedMaterial out{kind, name, fit.loss, {}, 0};
    if (texture) {
        out.texels = texel_loss(fit.material, texture->image, f, lights);
        out.clipped_share = texture->clipped_share;
    }
    return out;
}

struct Made {
    format::BaseTexture texture;
    std::vector<std::uint8_t> png;
};

Made texture_of(const Finished& f, const format::BaseSolver& solve, const std::string& title) {
    Made out{format::base_texture(f.pixels, solve), {}};
    out.png = format::encode_png(out.texture.image, {25.4 / f.board.maps.mm_per_px, title + ", base color", ""});
    return out;
}

void export_open_pbr(const ExportJob& job, std::size_t i, const Finished& f, const format::FitLights& lights) {
    const std::string& finish = job.scene.finishes[i].name;
    const auto fit = format::fit_open_pbr(f.surface, lights, f.fibre);
    std::optional<Made> made;
    if (!f.pixels.rgb.empty()) made = texture_of(f, format::base_solver(fit.material), job.scene.title + ": " + finish);
    job.out.materials.push_back(
        exported(ExportKind::open_pbr, finish, fit, made ? &made->texture : nullptr, f, lights));
    const std::string picture_name = job.words[i] + "-openpbr-base.png";
    format::MaterialWords words;
    words.name = scene::file_word(finish);
    words.comment = job.scene.title + ": " + finish + "\nfrom foretone " + scene::version + "\n" +
                    (made ? board_words(job, f.board.maps) + "\n" : "") + loss_words(job.out.materials.back()) + "\n" +
                    fibre_words(f) + "Rests on: " + resting(job.finish(i).spread) + ".\n" + provenance;
    if (made) {
        words.texture = picture_name;
        words.width_m = job.request.width_mm / 1000;
        words.height_m = job.request.height_mm / 1000;
    }
    const std::string text = format::open_pbr_mtlx(fit.material, words);
    job.add(ExportKind::open_pbr, finish, "", "OpenPBR material (MaterialX)", job.words[i] + ".mtlx",
            {text.begin(), text.end()});
    if (made) job.add(ExportKind::open_pbr, finish, "", "its base color", picture_name, std::move(made->png));
}

void export_gltf(const ExportJob& job, std::size_t i, const Finished& f, const format::FitLights& lights) {
    const std::string& finish = job.scene.finishes[i].name;
    const auto fit = format::fit_gltf(f.surface, lights, f.fibre);
    std::optional<Made> made;
    if (!f.pixels.rgb.empty()) made = texture_of(f, format::base_solver(fit.material), job.scene.title + ": " + finish);
    job.out.materials.push_back(exported(ExportKind::gltf, finish, fit, made ? &made->texture : nullptr, f, lights));
    const auto& e = job.out.materials.back();
    format::GltfBoard board{job.request.width_mm / 1000,
                            job.request.height_mm / 1000,
                            {},
                            finish,
                            std::string("foretone ") + scene::version,
                            {},
                            {}};
    board.words = {{"scene", job.scene.title},
                   {"loss", loss_words(e)},
                   {"restsOn", resting(job.finish(i).spread)},
                   {"note", fibre_words(f) + provenance}};
    board.figures = {{"loss_dE00_D65", e.loss.d65}, {"loss_dE00_A", e.loss.a}};
    if (made) {
        board.words.insert(board.words.begin() + 1, {"board", board_words(job, f.board.maps)});
        board.figures.insert(board.figures.end(), {{"texels_dE00_D65_mean", e.texels->mean_d65},
                                                   {"texels_dE00_D65_worst", e.texels->worst_d65},
                                                   {"texels_dE00_A_mean", e.texels->mean_a},
                                                   {"texels_dE00_A_worst", e.texels->worst_a}});
        board.png = std::move(made->png);
    }
    const std::string text = format::gltf(fit.material, board);
    job.add(ExportKind::gltf, finish, "", "glTF board and material", job.words[i] + ".gltf",
            {text.begin(), text.end()});
}

}  // namespace

void export_materials(const ExportJob& job) {
    if (job.stopped_after) return;
    const auto& wood = std::get<material::Wood>(job.scene.materials.at(job.scene.wood).data);
    const auto eye = job.library.observer("2deg");
    const format::FitLights lights{color::make_weights(job.library.illuminant("D65"), eye),
                                   color::make_weights(job.library.illuminant("A"), eye)};
    const auto board = job.board(job.request.grain ? job.request.mm_per_px.value_or(1.0 / 3) : 5.0);
    for (std::size_t i = 0; i < job.scene.finishes.size(); ++i) {
        if (job.leave()) return;
        const auto state = appearance::boards(job.scene.materials, job.scene.wood, job.scene.finishes[i]).back();
        const appearance::ToneSpectra spectra(state, wood, optics::Geometry::g45_0, job.solver, board.range);
        Finished f{format::surface_of(state, wood, job.solver), {}, spectra, board, {}};
        f.fibre = glint_of(f.surface, wood);
        if (job.request.grain) f.pixels = board_pixels(board, spectra, lights);
        if (job.wants(ExportKind::open_pbr)) export_open_pbr(job, i, f, lights);
        if (job.wants(ExportKind::gltf)) export_gltf(job, i, f, lights);
    }
}

}  // namespace foretone::job
