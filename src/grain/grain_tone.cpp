// Y(s) = Σ V(λ) R(λ, s) / Σ V(λ), R the dry surface over a body of K/S·exp(s) (Kubelka & Munk 1931; Saunderson 1942).
// V is the eye's sensitivity, here a Gaussian about 556.1 nm, 46.14 nm wide (one-lobe fit of Wyman, Sloan & Shirley
// 2013).

#include "grain_tone.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/material/optics_of.hpp"

namespace foretone::grain {
namespace {

// Half-space reflectance of K/S = a; the form without cancellation.
double half_space(double a) { return 1 / (1 + a + std::sqrt(a * (a + 2))); }

}  // namespace

Tone::Tone(const material::Wood& wood) : y_(last + 1), back_(last + 1) {
    const auto body = material::body_reflectance(wood);
    double weights = 0;
    std::vector<double> sums(last + 1, 0.0);
    for (std::size_t k = 0; k < body.size(); ++k) {
        const double u = (spectral::grid_nm(k) - 556.1) / 46.14;
        const double v = std::exp(-0.5 * u * u);
        if (v < 1e-4) continue;
        weights += v;
        const double a = (1 - body[k]) * (1 - body[k]) / (2 * body[k]);
        for (int i = 0; i <= last; ++i)
            sums[static_cast<std::size_t>(i)] += v * material::dry_surface(wood.surface_k1.value, wood.surface_k2.value,
                                                                           half_space(a * std::exp(low + 0.01 * i)));
    }
    for (std::size_t i = 0; i < y_.size(); ++i) y_[i] = static_cast<float>(sums[i] / weights);
    // The inverse at equal steps of Y.
    per_bright_ = static_cast<float>(last) / (y_.front() - y_.back());
    std::size_t at = 0;
    for (std::size_t i = 0; i < back_.size(); ++i) {
        const float y = y_.front() - static_cast<float>(i) / per_bright_;
        while (at + 2 < y_.size() && y_[at + 1] > y) ++at;
        const float t = std::clamp((y_[at] - y) / (y_[at] - y_[at + 1]), 0.0f, 1.0f);
        back_[i] = static_cast<float>(low) + 0.01f * (static_cast<float>(at) + t);
    }
    y_pairs_ = in_pairs(y_), back_pairs_ = in_pairs(back_);
}

}  // namespace foretone::grain
