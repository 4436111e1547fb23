#pragma once
/// A picture whose pixels are reflectance spectra, as OpenEXR in the layout of Fichet, Pacanowski & Wilkie 2021.

#include <cstdint>
#include <string>
#include <vector>

#include "foretone/format/exr.hpp"

namespace foretone::format {

/// Reflectance factors, 0–1 without unit, wavelength by wavelength.
struct SpectralImage {
    int width = 0, height = 0;
    std::vector<double> wavelength_nm;       ///< rising, 100–10000
    std::vector<std::vector<float>> planes;  ///< [wavelength][pixel], rows from the top
    std::vector<float> rgb;                  ///< the preview that readers without spectra show: as LinearImage
};

/// Name of a reflective channel in that layout: "T.550,000000nm".
std::string reflective_channel(double wavelength_nm);

/// The picture as OpenEXR: one reflective channel a wavelength, the preview as R, G, B, and `spectralLayoutVersion`
/// "1.0". Reflectance has no unit, so none of the layout's unit attributes (which are for emission) is written. Throws
/// as `encode_exr`, and std::invalid_argument for wavelengths that do not rise or are out of range.
std::vector<std::uint8_t> spectral_exr(const SpectralImage& image, Precision precision, const ExrHead& head);

}  // namespace foretone::format
