#pragma once
/// A finished board whose mean is the reading of its mean wood.

#include <span>

#include "foretone/appearance/tones.hpp"

namespace foretone::appearance {

/// A state with what was moved to settle it.
struct MeanMatched {
    material::Wood spots;
    Board board;
    double uptake_factor = 1;   ///< on the uptake of all spots; it is in `board` already
    spectral::Spectrum uneven;  ///< mean over the maps before anything was moved
};

/// An uneven board, each spot finished for itself, is on the mean a little paler than the same wood evened out first
/// and finished then (a finish's reading bends in K/S and in dye: Jensen's inequality): by up to ΔE00 0.5 in hardwoods
/// and 0.7 in softwoods under strong dye, whose dark latewood also drinks least (tested over all woods). Recipes and
/// previews speak of the mean wood, so a picture of the state is settled on that reading, `due`. K/S of all spots moves
/// by one factor at every wavelength, by a few hundredths (at most e^±0.4). Where dye decides the color and not the
/// wood (at 555 nm), the uptake of all spots moves first. `spectra` are those of `spots` under `board`. Read off the
/// means over every n-th spot, 13,000 to 40,000 of them (all, of fewer); what is left is below ΔE00 0.1 (tested).
/// Throws as ToneSpectra::mean.
MeanMatched mean_matched(const material::Wood& spots, const Board& board, const ToneSpectra& spectra,
                         const spectral::Spectrum& due, std::span<const float> shade, std::span<const float> uptake,
                         std::span<const float> pore = {});

/// A state's spots, settled on the reading of the mean wood.
struct MeanMatchedSpectra {
    spectral::Spectrum due;     ///< reading of `wood` under `board`
    spectral::Spectrum uneven;  ///< mean over the maps before settling
    ToneSpectra spectra;        ///< settled; its mean over the maps is `due`
};

/// `spots` are the wood whose mean shade on the maps is `wood` (`centred`). Throws as ToneSpectra and its mean.
MeanMatchedSpectra mean_matched_spectra(const Board& board, const material::Wood& wood, const material::Wood& spots,
                                        optics::Geometry geometry, const Solver& solver, std::span<const float> shade,
                                        std::span<const float> uptake, std::span<const float> pore = {});

}  // namespace foretone::appearance
