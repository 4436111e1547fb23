// Photons.
//
// Free paths are drawn from exp(−τ); a collision multiplies the weight by the albedo; absorption in a clear layer
// multiplies it by exp(−µa·path). At an interface the photon is reflected or refracted by lot, with the Fresnel
// reflectance of its polarisation, which parallel interfaces keep and scattering or a Lambertian base draws anew. Light
// weights play Russian roulette. The radiance along the normal is found by asking at each collision, and each diffuse
// reflection, what would leave along the normal: the normal ray's own interfaces and losses are summed exactly, all
// orders of reflection included.

#include "photon.hpp"

#include <cmath>
#include <numbers>
#include <vector>

#include "angular_stacks.hpp"

namespace foretone::test {
namespace {

using optics::Base;
using optics::Layer;
using optics::Light;
using optics::Stack;

struct Tally {
    double sum = 0, squares = 0;
    void add(double v) {
        sum += v;
        squares += v * v;
    }
    Estimate estimate(double count) const {
        const double mean = sum / count;
        return {mean, std::sqrt(std::max(0.0, squares / count - mean * mean) / count)};
    }
};

/// Fresnel reflectance, p or s polarised, at cosine µ; sets the refracted cosine.
double fresnel_reflectance(double n1, double n2, double mu, bool p, double& refracted) {
    const double sine = n1 / n2 * std::sqrt(1 - mu * mu);
    if (sine >= 1) return 1;
    refracted = std::sqrt(1 - sine * sine);
    const double a = p ? n2 * mu : n1 * mu, b = p ? n1 * refracted : n2 * refracted;
    return (a - b) * (a - b) / ((a + b) * (a + b));
}

class Photon {
public:
    Photon(const Stack& stack, std::uint64_t seed) : stack_(stack), dice_(seed) { trace_normal(); }

    void launch(const Light& light) {
        weight_ = 1;
        seen_ = up_ = down_ = 0;
        draw_polarisation();
        mu_ = light.diffuse ? std::sqrt(1 - dice_.unit()) : std::cos(light.angle_deg * std::numbers::pi / 180);
        medium_ = 0;
        cross(1);
        while (weight_ > 0) travel();
    }

    double up() const { return up_; }
    double down() const { return down_; }
    double seen() const { return seen_; }

private:
    // Media: 0 air, 1 … layers, then the base (open: air).
    std::size_t base() const { return stack_.layers.size() + 1; }
    double index(std::size_t medium) const {
        if (medium == base() && stack_.base.kind != Base::Kind::open) return index(medium - 1);
        return medium == 0 || medium == base() ? 1 : stack_.layers[medium - 1].n;
    }
    double absorption(std::size_t medium) const { return stack_.layers[medium - 1].absorption_per_mm[0]; }
    double scattering(std::size_t medium) const {
        const auto& s = stack_.layers[medium - 1].scattering_per_mm;
        return s.empty() ? 0 : s[0];
    }
    double extinction(std::size_t medium) const { return absorption(medium) + scattering(medium); }

    void draw_polarisation() { p_ = dice_.unit() < 0.5; }

    /// Meets the interface to the next medium, down (+1) or up (−1).
    void cross(int way) {
        const std::size_t next = way > 0 ? medium_ + 1 : medium_ - 1;
        double refracted = mu_;
        const double n1 = index(medium_), n2 = index(next), cosine = std::abs(mu_);
        const double r = n1 == n2 ? 0 : fresnel_reflectance(n1, n2, cosine, p_, refracted);
        if (n1 == n2) refracted = cosine;
        if (r > 0 && dice_.unit() < r) {
            mu_ = -way * cosine;
            if (medium_ == 0) return leave_up();
            depth_ = way > 0 ? stack_.layers[medium_ - 1].thickness_mm : 0;
            return;
        }
        mu_ = way * refracted;
        medium_ = next;
        if (medium_ == 0) return leave_up();
        if (medium_ == base()) return meet_base();
        depth_ = way > 0 ? 0 : stack_.layers[medium_ - 1].thickness_mm;
    }

    void leave_up() {
        up_ += weight_;
        weight_ = 0;
    }

    void meet_base() {
        if (stack_.base.kind == Base::Kind::open) down_ += weight_;
        if (stack_.base.kind != Base::Kind::lambertian) {
            weight_ = 0;
            return;
        }
        weight_ *= stack_.base.reflectance[0];
        const double n = index(base());
        seen_ += weight_ / (n * n) * base_escape_;
        medium_ = base() - 1;
        if (medium_ == 0) return leave_up();
        depth_ = stack_.layers[medium_ - 1].thickness_mm;
        mu_ = -std::sqrt(1 - dice_.unit());
        draw_polarisation();
        roulette();
    }

    void travel() {
        const Layer& layer = stack_.layers[medium_ - 1];
        const double to_face = mu_ > 0 ? (layer.thickness_mm - depth_) / mu_ : depth_ / -mu_;
        const double s = scattering(medium_), k = extinction(medium_);
        const double free = s > 0 ? -std::log(1 - dice_.unit()) / k : to_face;
        if (free < to_face) {
            depth_ += free * mu_;
            return collide(layer.anisotropy, s / k);
        }
        if (s == 0) weight_ *= std::exp(-k * to_face);
        cross(mu_ > 0 ? 1 : -1);
    }

    void collide(double g, double albedo) {
        weight_ *= albedo;
        const double n = index(medium_);
        const auto phase = [g](double c) { return (1 - g * g) / std::pow(1 + g * g - 2 * g * c, 1.5); };
        seen_ += weight_ / (4 * n * n) * normal_escape(phase(-mu_), phase(mu_));
        const double q = (1 - g * g) / (1 - g + 2 * g * dice_.unit());
        const double c = std::abs(g) < 1e-6 ? 2 * dice_.unit() - 1 : (1 + g * g - q * q) / (2 * g);
        const double around = std::cos(2 * std::numbers::pi * dice_.unit());
        mu_ = mu_ * c + std::sqrt(std::max(0.0, (1 - mu_ * mu_) * (1 - c * c))) * around;
        mu_ = std::min(1.0, std::max(-1.0, mu_));
        if (mu_ == 0) mu_ = 1e-12;
        draw_polarisation();
        roulette();
    }

    void roulette() {
        if (weight_ > 0.05) return;
        weight_ = dice_.unit() < 0.2 ? weight_ * 5 : 0;
    }

    /// Share that leaves along the normal of light sent up and down at the present depth.
    double normal_escape(double sent_up, double sent_down) const {
        const double k = extinction(medium_), thickness = stack_.layers[medium_ - 1].thickness_mm;
        const double above = std::exp(-k * depth_),
                     below = std::exp(-2 * k * (thickness - depth_)) * mirror_below_[medium_];
        const double loop = 1 / (1 - above * above * mirror_above_[medium_] * below);
        return through_above_[medium_] * above * (sent_up + sent_down * below) * loop;
    }

    /// Along the normal: what each layer sees above and below it.
    void trace_normal() {
        const std::size_t count = base() + 1;
        mirror_above_.assign(count, 0);
        through_above_.assign(count, 1);
        mirror_below_.assign(count, 0);
        double unused = 0;
        double mirror = 0, through = 1;  // of everything above the present level, for light going up
        for (std::size_t m = 1; m <= base(); ++m) {
            if (m > 1) {
                const double t = std::exp(-extinction(m - 1) * stack_.layers[m - 2].thickness_mm);
                mirror *= t * t;
                through *= t;
            }
            const double r = fresnel_reflectance(index(m), index(m - 1), 1, false, unused), loop = 1 / (1 - r * mirror);
            through *= (1 - r) * loop;
            mirror = r + (1 - r) * (1 - r) * mirror * loop;
            mirror_above_[m] = mirror;
            through_above_[m] = through;
        }
        base_escape_ = through_above_[base()];
        double from = 0;  // mirror below the present level, for light going down
        for (std::size_t m = base() - 1; m >= 1; --m) {
            const double r = fresnel_reflectance(index(m), index(m + 1), 1, false, unused);
            from = r + (1 - r) * (1 - r) * from / (1 - r * from);
            mirror_below_[m] = from;
            const double t = std::exp(-extinction(m) * stack_.layers[m - 1].thickness_mm);
            from *= t * t;
        }
    }

    const Stack& stack_;
    Dice dice_;
    std::vector<double> mirror_above_, through_above_, mirror_below_;
    double base_escape_ = 1;
    double weight_ = 0, mu_ = 1, depth_ = 0, up_ = 0, down_ = 0, seen_ = 0;
    bool p_ = false;
    std::size_t medium_ = 0;
};

}  // namespace

PhotonResult follow_photons(const Stack& stack, const Light& light, int photons, std::uint64_t seed) {
    Photon photon(stack, seed);
    Tally up, down, seen;
    for (int i = 0; i < photons; ++i) {
        photon.launch(light);
        up.add(photon.up());
        down.add(photon.down());
        seen.add(photon.seen());
    }
    return {up.estimate(photons), down.estimate(photons), seen.estimate(photons)};
}

}  // namespace foretone::test
