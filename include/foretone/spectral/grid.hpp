#pragma once
/// The one wavelength grid on which materials, reflectances and colors are computed:
/// 380 to 780 nm every 5 nm, 81 values. Anything measured elsewhere is resampled onto it once, and said.

#include <array>
#include <cstddef>

namespace foretone::spectral {

inline constexpr double grid_start_nm = 380.0;
inline constexpr double grid_step_nm = 5.0;
inline constexpr std::size_t grid_size = 81;
inline constexpr double grid_end_nm = grid_start_nm + grid_step_nm * (grid_size - 1);

/// Wavelength of grid point `i`, nm.
constexpr double grid_nm(std::size_t i) { return grid_start_nm + grid_step_nm * static_cast<double>(i); }

/// A quantity at the 81 grid wavelengths. The unit is the owner's to state
/// (reflectance 0–1, absorption 1/mm, relative power, ...).
struct Spectrum {
    std::array<double, grid_size> values{};

    static constexpr Spectrum constant(double v) {
        Spectrum s;
        s.values.fill(v);
        return s;
    }

    constexpr double& operator[](std::size_t i) { return values[i]; }
    constexpr double operator[](std::size_t i) const { return values[i]; }
    static constexpr std::size_t size() { return grid_size; }
    constexpr auto begin() { return values.begin(); }
    constexpr auto end() { return values.end(); }
    constexpr auto begin() const { return values.begin(); }
    constexpr auto end() const { return values.end(); }
    constexpr double* data() { return values.data(); }
    constexpr const double* data() const { return values.data(); }
    bool operator==(const Spectrum&) const = default;
};

}  // namespace foretone::spectral
