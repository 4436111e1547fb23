// Reading a published or measured spectrum at any wavelength, and bringing it onto the grid.
//
// Symbols: λ wavelength, nm · v value, in the owner's unit.
// Outside the samples the end value is held: a straight or cubic continuation of noisy end points runs away within a
// few steps, a held value stays a possible reflectance or power. Whoever asks for the grid is told that it was held.

#include "foretone/spectral/sampled.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"
#include "foretone/spectral/stencil.hpp"

namespace foretone::spectral {
namespace {

// Wavelengths closer than this are the same sample; wavelengths are written with far fewer digits.
constexpr double same_nm = 1e-6;

bool has_sample_at(const Sampled& s, double nm) {
    const auto it = std::lower_bound(s.wavelength_nm.begin(), s.wavelength_nm.end(), nm - same_nm);
    return it != s.wavelength_nm.end() && *it <= nm + same_nm;
}

[[noreturn]] void fail(const std::string& what) { throw std::invalid_argument("spectrum: " + what); }

std::string place(std::string name, std::size_t i, double v) {
    name += '[';
    name += std::to_string(i);
    name += "] is ";
    name += base::shortest(v);
    return name;
}

}  // namespace

Sampled Sampled::regular(double start_nm, double step_nm, std::vector<double> values) {
    Sampled s;
    s.wavelength_nm.reserve(values.size());
    for (std::size_t i = 0; i < values.size(); ++i)
        s.wavelength_nm.push_back(start_nm + step_nm * static_cast<double>(i));
    s.value = std::move(values);
    check(s);
    return s;
}

void check(const Sampled& s) {
    const auto& nm = s.wavelength_nm;
    if (nm.size() != s.value.size()) {
        fail(std::to_string(nm.size()) + " wavelengths but " + std::to_string(s.value.size()) + " values");
    }
    if (nm.size() < 2) fail("needs at least 2 points, has " + std::to_string(nm.size()));
    for (std::size_t i = 0; i < nm.size(); ++i) {
        if (!std::isfinite(nm[i])) fail(place("wavelength_nm", i, nm[i]) + ", not a finite number");
        if (!std::isfinite(s.value[i])) fail(place("value", i, s.value[i]) + ", not a finite number");
        if (i > 0 && !(nm[i] > nm[i - 1])) {
            fail(place("wavelength_nm", i, nm[i]) + ", not above the one before it, " + base::shortest(nm[i - 1]));
        }
    }
}

double linear_at(const Sampled& s, double nm) {
    if (nm <= s.first_nm()) return s.value.front();
    if (nm >= s.last_nm()) return s.value.back();
    const auto above = std::upper_bound(s.wavelength_nm.begin(), s.wavelength_nm.end(), nm);
    const auto i = static_cast<std::size_t>(above - s.wavelength_nm.begin()) - 1;
    // The share of the way from the lower sample is in 0–1, so the result never leaves its two neighbours.
    const double t = (nm - s.wavelength_nm[i]) / (s.wavelength_nm[i + 1] - s.wavelength_nm[i]);
    return s.value[i] + t * (s.value[i + 1] - s.value[i]);
}

double cubic_at(const Sampled& s, double nm) {
    const Stencil c = cubic_stencil(s.wavelength_nm, nm);
    double sum = 0;
    for (std::size_t j = 0; j < c.count; ++j) sum += c.weight[j] * s.value[c.first + j];
    return sum;
}

OnGrid to_grid(const Sampled& s) {
    check(s);
    OnGrid out;
    out.held_below = s.first_nm() > grid_start_nm + same_nm;
    out.held_above = s.last_nm() < grid_end_nm - same_nm;
    for (std::size_t i = 0; i < grid_size; ++i) {
        const double nm = grid_nm(i);
        out.spectrum[i] = cubic_at(s, nm);
        const bool inside = nm > s.first_nm() && nm < s.last_nm();
        if (inside && !has_sample_at(s, nm)) out.resampled = true;
    }
    return out;
}

Sampled from_grid(const Spectrum& s) {
    return Sampled::regular(grid_start_nm, grid_step_nm, std::vector<double>(s.begin(), s.end()));
}

}  // namespace foretone::spectral
