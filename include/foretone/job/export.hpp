#pragma once
/// A scene for other programs: pictures in linear light and in spectra, materials for renderers, palettes with
/// reflectance.

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "foretone/format/exr.hpp"
#include "foretone/grain/grain.hpp"
#include "foretone/format/surface.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/job/preview.hpp"

namespace foretone::job {

enum class ExportKind { exr, spectral_exr, open_pbr, gltf, palette };
inline constexpr std::array<std::string_view, 5> export_words = {"exr", "spectral-exr", "openpbr", "gltf", "palette"};

/// What is wanted.
struct ExportRequest {
    std::vector<ExportKind> kinds;      ///< empty: all
    std::vector<std::string> finishes;  ///< names; empty: all of the scene
    std::vector<std::string> lights;    ///< ids; empty: the look's
    grain::Cut cut = grain::Cut::flat;
    double width_mm = 300, height_mm = 200;  ///< of the board
    std::optional<double> mm_per_px;         ///< empty: 1/3, and 1 for spectra
    std::uint64_t seed = 0;                  ///< of the board
    format::Precision precision = format::Precision::half;
    bool grain = true;  ///< materials carry the board's picture; false: one color
};

struct ExportedFile {
    ExportKind kind{};
    std::string finish, light;  ///< empty: all of them
    std::string words;          ///< what it is, in a few words
    scene::OutputFile file;
};

/// Colors lost by a renderer with three channels, ΔE00 at 45/0 against the spectral result.
struct TexelLoss {
    double mean_d65 = 0, worst_d65 = 0, mean_a = 0, worst_a = 0;
};

struct ExportedMaterial {
    ExportKind kind{};
    std::string finish;
    format::Loss loss;                ///< of the mean wood's color, as numbers
    std::optional<TexelLoss> texels;  ///< of the picture, sampled; empty without one
    double clipped_share = 0;         ///< of the texels: wanted a base color outside 0–1
};

struct Export {
    Preview preview;  ///< of the finishes and lights exported
    std::vector<ExportedFile> files;
    std::vector<ExportedMaterial> materials;
    std::vector<scene::Problem> warnings;
};

/// Works out all files of a request; their paths are names in `folder`. Throws InputError: finish-unknown,
/// light-unknown, finish-empty, size-range, export-large, and what `preview` throws.
Export export_scene(const scene::Scene& scene, const scene::Library& library, const ExportRequest& request,
                    const std::filesystem::path& folder);

}  // namespace foretone::job
