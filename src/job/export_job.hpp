#pragma once
// The kinds of export: each adds its files.

#include "foretone/appearance/tones.hpp"
#include "foretone/job/stoppable.hpp"

namespace foretone::job {

struct ExportedBoard {
    grain::Maps maps;
    appearance::ToneRange range;
};

/// What all kinds work from.
struct ExportJob {
    const scene::Scene& scene;  ///< with the finishes and lights exported
    const scene::Library& library;
    const ExportRequest& request;
    std::filesystem::path folder;
    std::string stem;                      ///< of file names
    std::vector<std::string> words;        ///< of file names, by finish
    std::vector<std::string> light_words;  ///< of file names, by light
    std::vector<color::Weights> lights;    ///< of the look, by its observer
    appearance::Solver solver;
    Export& out;
    const Going& going;
    std::size_t boards;                         ///< to be worked out, of all kinds
    std::optional<std::size_t>& stopped_after;  ///< files, if it was stopped by hand

    const SeenFinish& finish(std::size_t i) const { return out.preview.finishes[i]; }
    void add(ExportKind kind, const std::string& finish, const std::string& light, const std::string& words,
             const std::string& name, std::vector<std::uint8_t> bytes) const;
    /// The board at that scale, mm a pixel.
    ExportedBoard board(double mm_per_px) const;
    bool wants(ExportKind kind) const;
    /// Asked before each board: is the rest to be left?
    bool leave() const;
};

/// "memory (hard-maple, water)": the weakest mark and what has it.
std::string resting(const appearance::Spread& spread);

/// "300 by 200 mm of flat-cut wood, seed 12, 3 pixels a millimetre"
std::string board_words(const ExportJob& job, const grain::Maps& maps);

/// Boards and fields in linear light.
void export_exr(const ExportJob& job);
/// Boards and fields in spectra.
void export_spectral_exr(const ExportJob& job);
/// OpenPBR and glTF materials.
void export_materials(const ExportJob& job);
/// CGATS palettes.
void export_palette(const ExportJob& job);

}  // namespace foretone::job
