// Boards and fields as OpenEXR. A pixel is a reading: the look's geometry, all light of the first surface that it reads
// included. Linear pixels are adapted from the light to D65 (CAT16) as every picture here is, but neither clipped
// nor brought into the gamut.

#include <cmath>
#include <numbers>

#include "export_job.hpp"
#include "foretone/base/parallel.hpp"
#include "foretone/format/spectral_exr.hpp"
#include "foretone/scene/version.hpp"

namespace foretone::job {
namespace {

constexpr int field_px = 64;

// Luminance of the perfect diffuser under 500 lx, what ISO 3664 calls practical appraisal.
const double white_cd_per_m2 = 500 / std::numbers::pi;

format::ExrHead head_of(const ExportJob& job, const std::string& title, const std::string& light,
                        const std::string& what, const std::string& rests_on, double mm_per_px) {
    format::ExrHead head;
    head.dpi = std::clamp(25.4 / mm_per_px, 1.0, 10000.0);
    head.title = title;
    head.light = light;
    head.white_cd_per_m2 = white_cd_per_m2;
    head.comments =
        what +
        ". Predicted, not measured; screens and prints are not the sample. 1 is the perfect diffuser; its luminance is "
        "stated for 500 lx.";
    head.texts = {{"observer", job.scene.look.observer},
                  {"geometry", scene::geometry_text(job.scene.look.geometry)},
                  {"restsOn", rests_on},
                  {"software", std::string("foretone ") + scene::version}};
    return head;
}

std::string title_of(const ExportJob& job, std::size_t finish) {
    return job.scene.title + ": " + job.scene.finishes[finish].name;
}

// Linear sRGB of a color under `white`, as a matrix on X, Y, Z.
std::array<format::Rgb, 3> to_linear(const color::Xyz& white) {
    return {format::linear_srgb({1, 0, 0}, white), format::linear_srgb({0, 1, 0}, white),
            format::linear_srgb({0, 0, 1}, white)};
}

format::LinearImage board_pixels(const ExportedBoard& board, const appearance::ToneTable& table) {
    const auto& m = board.maps;
    format::LinearImage out{m.width, m.height, std::vector<float>(3 * m.shade.size())};
    const auto matrix = to_linear(table.white());
    base::parallel_rows(m.height, 0, [&](int first, int end) {
        for (std::size_t i = m.at(0, first); i < m.at(0, end); ++i) {
            const auto tone = table.at(m.shade[i], m.uptake[i], m.pore[i]);
            for (std::size_t c = 0; c < 3; ++c) {
                double v = 0;
                for (std::size_t k = 0; k < 3; ++k)
                    v += matrix[k][c] * (static_cast<double>(tone.body[k]) + static_cast<double>(tone.surface[k]));
                out.rgb[3 * i + c] = static_cast<float>(v);
            }
        }
    });
    return out;
}

// Stages as columns of square fields, one row a finish; where a finish has no such stage everything is 0.
struct Fields {
    int columns = 0, width = 0, height = 0;
    std::vector<const SeenStage*> stage;  ///< by row and column; null: none

    explicit Fields(const ExportJob& job) {
        for (const auto& f : job.out.preview.finishes) columns = std::max(columns, static_cast<int>(f.stages.size()));
        for (const auto& f : job.out.preview.finishes)
            for (int c = 0; c < columns; ++c)
                stage.push_back(static_cast<std::size_t>(c) < f.stages.size() ? &f.stages[static_cast<std::size_t>(c)]
                                                                              : nullptr);
        width = columns * field_px;
        height = static_cast<int>(job.out.preview.finishes.size()) * field_px;
    }

    template <class Value>
    void paint(std::vector<float>& to, std::size_t step, std::size_t channel, Value value) const {
        for (std::size_t f = 0; f < stage.size(); ++f) {
            const float v = stage[f] ? static_cast<float>(value(*stage[f])) : 0.0f;
            const std::size_t left = f % static_cast<std::size_t>(columns) * field_px,
                              top = f / static_cast<std::size_t>(columns) * field_px;
            for (std::size_t y = top; y < top + field_px; ++y)
                for (std::size_t x = left; x < left + field_px; ++x)
                    to[step * (y * static_cast<std::size_t>(width) + x) + channel] = v;
        }
    }

    std::vector<float> linear(std::size_t light, const color::Xyz& white) const {
        std::vector<float> rgb(3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
        for (std::size_t c = 0; c < 3; ++c)
            paint(rgb, 3, c, [&](const SeenStage& s) { return format::linear_srgb(s.colors[light].xyz, white)[c]; });
        return rgb;
    }
};

std::string fields_words(const ExportJob& job) {
    std::string text = "Fields of 64 pixels, one row a finish, one column a stage from bare wood on (0: no such stage)";
    for (std::size_t i = 0; i < job.scene.finishes.size(); ++i) {
        text += (i == 0 ? ". Rows: " : "; ") + job.scene.finishes[i].name + " (";
        const auto& stages = job.finish(i).stages;
        for (std::size_t s = 0; s < stages.size(); ++s)
            text += (s > 0 ? ", " : "") + std::string(appearance::word(stages[s].stage.kind));
        text += ")";
    }
    return text;
}

std::string weakest_of(const ExportJob& job) {
    const SeenFinish* weakest = &job.finish(0);
    for (const auto& f : job.out.preview.finishes)
        if (f.spread.rests_on > weakest->spread.rests_on) weakest = &f;
    return resting(weakest->spread);
}

std::vector<double> grid_wavelengths() {
    std::vector<double> nm;
    for (std::size_t i = 0; i < spectral::grid_size; ++i) nm.push_back(spectral::grid_nm(i));
    return nm;
}

}  // namespace

void export_exr(const ExportJob& job) {
    const auto& wood = std::get<material::Wood>(job.scene.materials.at(job.scene.wood).data);
    const double scale = job.request.mm_per_px.value_or(1.0 / 3);
    const auto board = job.board(scale);
    const auto& lights = job.scene.look.lights;
    for (std::size_t i = 0; i < job.scene.finishes.size(); ++i) {
        const auto state = appearance::boards(job.scene.materials, job.scene.wood, job.scene.finishes[i]).back();
        const appearance::ToneSpectra spectra(state, wood, job.scene.look.geometry, job.solver, board.range);
        for (std::size_t l = 0; l < lights.size(); ++l) {
            if (job.leave()) return;
            const auto head =
                head_of(job, title_of(job, i), lights[l], "Finished board: " + board_words(job, board.maps),
                        resting(job.finish(i).spread), scale);
            job.add(ExportKind::exr, job.scene.finishes[i].name, lights[l], "board, linear",
                    job.words[i] + "-" + job.light_words[l] + ".exr",
                    format::linear_exr(board_pixels(board, {spectra, job.lights[l]}), job.request.precision, head));
        }
    }
    const Fields fields(job);
    for (std::size_t l = 0; l < lights.size(); ++l)
        job.add(ExportKind::exr, "", lights[l], "a field for each stage, linear",
                job.stem + "-fields-" + job.light_words[l] + ".exr",
                format::linear_exr({fields.width, fields.height, fields.linear(l, job.lights[l].white)},
                                   job.request.precision,
                                   head_of(job, job.scene.title, lights[l], fields_words(job), weakest_of(job), 0.25)));
}

void export_spectral_exr(const ExportJob& job) {
    if (job.stopped_after) return;
    const auto& wood = std::get<material::Wood>(job.scene.materials.at(job.scene.wood).data);
    const double scale = job.request.mm_per_px.value_or(1);
    const auto board = job.board(scale);
    const auto& m = board.maps;
    const auto& light = job.scene.look.lights.front();
    for (std::size_t i = 0; i < job.scene.finishes.size(); ++i) {
        if (job.leave()) return;
        const auto state = appearance::boards(job.scene.materials, job.scene.wood, job.scene.finishes[i]).back();
        const appearance::ToneSpectra spectra(state, wood, job.scene.look.geometry, job.solver, board.range);
        format::SpectralImage image{
            m.width, m.height, grid_wavelengths(), {}, board_pixels(board, {spectra, job.lights[0]}).rgb};
        image.planes.assign(spectral::grid_size, std::vector<float>(m.shade.size()));
        base::parallel_rows(m.height, 0, [&](int first, int end) {
            for (std::size_t p = m.at(0, first); p < m.at(0, end); ++p) {
                const auto total = spectra.at(m.shade[p], m.uptake[p], m.pore[p]).total();
                for (std::size_t w = 0; w < total.size(); ++w) image.planes[w][p] = static_cast<float>(total[w]);
            }
        });
        job.add(ExportKind::spectral_exr, job.scene.finishes[i].name, "", "board, spectra",
                job.words[i] + "-spectral.exr",
                format::spectral_exr(
                    image, job.request.precision,
                    head_of(job, title_of(job, i), light, "Finished board, reflectance factors: " + board_words(job, m),
                            resting(job.finish(i).spread), scale)));
    }
    const Fields fields(job);
    const auto pixels = static_cast<std::size_t>(fields.width) * static_cast<std::size_t>(fields.height);
    format::SpectralImage image{
        fields.width, fields.height, grid_wavelengths(), {}, fields.linear(0, job.lights[0].white)};
    image.planes.assign(spectral::grid_size, std::vector<float>(pixels));
    for (std::size_t w = 0; w < spectral::grid_size; ++w)
        fields.paint(image.planes[w], 1, 0, [&](const SeenStage& s) { return s.reflectance[w]; });
    job.add(ExportKind::spectral_exr, "", "", "a field for each stage, spectra", job.stem + "-fields-spectral.exr",
            format::spectral_exr(image, job.request.precision,
                                 head_of(job, job.scene.title, light, fields_words(job), weakest_of(job), 0.25)));
}

}  // namespace foretone::job
