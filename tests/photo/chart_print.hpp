#pragma once
/// The chart as an invented printer lays it down, seen by published cameras: spectra in, linear values of a file out.

#include <string>
#include <vector>

#include "foretone/photo/chart.hpp"
#include "foretone/spectral/grid.hpp"

namespace foretone::test {

/// Reflectances of the chart's fields in inks of an invented printer (two sets), each solved for the field's color.
std::vector<spectral::Spectrum> printed_fields(int inks);

/// A camera with a processing of its own: white balance, a matrix to sRGB, a contrast curve.
class TestCamera {
public:
    /// `number` 1–11 of tests/data/camera_sensitivities.csv, under a light.
    TestCamera(int number, const std::string& light);

    /// Linear values of the file's sRGB codes, 0–1.
    std::array<double, 3> file_values(const spectral::Spectrum& reflectance, double brightness = 1) const;

private:
    std::array<double, 3> raw(const spectral::Spectrum& reflectance) const;

    std::array<spectral::Spectrum, 3> weights_;
    std::array<double, 3> white_{};
    std::array<std::array<double, 3>, 3> to_srgb_{};
};

}  // namespace foretone::test
