// Clear runs. For one ray and one polarisation, parts add incoherently:
//     r = r₁ + t₁² r₂/(1 − r₁′r₂),   t = t₁t₂/(1 − r₁′r₂),
// r₁′ the reflectance of the upper part from below. Total reflection is held to 1 − 1e-12, so that light trapped
// without loss, which nothing excites, has a defined amount.

#include "angular_films.hpp"

#include <algorithm>

#include "foretone/optics/fresnel.hpp"

namespace foretone::optics::angular_detail {
namespace {

constexpr double least_transmittance = 1e-12;

}  // namespace

void FilmRun::add(std::size_t p, double r_above, double r_below, double transmittance) {
    const double loop = 1 / (1 - below_[p] * r_above);
    above_[p] += through_[p] * through_[p] * r_above * loop;
    below_[p] = r_below + transmittance * transmittance * below_[p] * loop;
    through_[p] *= transmittance * loop;
}

void FilmRun::add_interface(double beta_squared, double n_upper, double n_lower) {
    Reflectance r = fresnel_invariant(beta_squared, n_upper, n_lower);
    if (averaged_) r.s = r.p = r.unpolarised();
    const double s = std::max(least_transmittance, 1 - r.s), p = std::max(least_transmittance, 1 - r.p);
    add(0, 1 - s, 1 - s, s);
    add(1, 1 - p, 1 - p, p);
}

void FilmRun::add_absorption(double transmittance) {
    add(0, 0, 0, transmittance);
    add(1, 0, 0, transmittance);
}

void FilmRun::add_unpolarised(const FilmRun& run) {
    for (const std::size_t p : {0, 1}) add(p, mean(run.above_), mean(run.below_), mean(run.through_));
}

void FilmRun::write(TwoPort& port, int channel) const {
    const double a = mean(above_), b = mean(below_), t = mean(through_);
    const double white = a + t * t / (1 - b);  // reflectance over a base that returns everything
    const double inverted = t * t / (1 + a);   // seen from below with s = 0 above
    port.shunt(channel) = std::max(0.0, (1 - white) / (1 + white));
    port.transfer(channel) = 2 * t / ((1 - b) * (1 + white));
    port.series(channel) = (1 + b - inverted) / (1 - b + inverted);
}

}  // namespace foretone::optics::angular_detail
