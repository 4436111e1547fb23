#pragma once
// The room around a board: where the light stands, where the eye, and what the film's facets mirror.

#include <cmath>
#include <numbers>
#include <vector>

#include "foretone/optics/fibre_lobe.hpp"
#include "foretone/light/board.hpp"

namespace foretone::light {

/// What changes slowly over a board: worked out at a few columns of a row and drawn straight between them.
struct Aspect {
    float slope_x = 0, slope_y = 0;  ///< tilt of the facet that mirrors the light's middle into the eye
    float light = 1;                 ///< illumination, 1 at the board's middle
    float shine = 0;                 ///< radiance factor of a surface all of whose facets mirror the light
    float sky = 0;                   ///< radiance factor that the room's own light has in the film
    float in[3] = {}, out[3] = {};   ///< light's and eye's directions inside the film
};

/// One light in one room, over a board of given sides.
class Room {
public:
    Room(const Lighting& lighting, double width_mm, double height_mm, double n);

    /// At a place on the board, mm from its middle, x to the right and y down.
    Aspect at(double x, double y) const;

    /// Share of facets that mirror some part of the light, for facets of roughness `alpha` and a surface whose own
    /// tilt, taken from the mirroring one, is (x, y).
    double mirrored(double alpha, double x, double y) const;

    /// One standard deviation of the light's extent along the grain, radians inside the film.
    double spread() const { return spread_; }

private:
    struct Pane {
        double x_low, x_high, y_low, y_high;  // slopes about the middle's
    };
    optics::Unit to_light(double x, double y, double& distance) const;
    optics::Unit to_eye(double x, double y) const;

    double reach_, n_;      // the board's diagonal, mm; the film's index
    optics::Unit middle_;   // direction of the light's middle from the board's
    double distance_;       // of the light, diagonals
    double direct_, room_;  // shares of the illumination at the board's middle
    double radiance_;       // of the light, over that of a white diffuser at the middle
    double spread_;
    std::vector<Pane> panes_;
};

// f/k of the fibres' lobe without Fresnel's losses, which the reading has too:
// exp(−ψ_h²/2β²)/(√(2π) β cos²(ψ_d/2)).
struct Lobe {
    float exponent = 0, level = 0;

    Lobe(double beta, double spread, double at_reading) {
        const double variance = beta * beta + spread * spread;
        exponent = static_cast<float>(-0.5 / variance);
        level = static_cast<float>(1 / (std::sqrt(2 * std::numbers::pi * variance) * at_reading));
    }
    // From the sines of ψ_i and ψ_r; arcsin to the fifth order, within 0.1° up to 35°.
    float at(float sine_in, float sine_out) const {
        const auto angle = [](float s) {
            const float q = s * s;
            return s * (1 + q * (0.16666667F + q * 0.075F));
        };
        const float in = angle(sine_in), out = angle(sine_out), half = in + out, difference = out - in;
        const float cosine = 1 - 0.125F * difference * difference;  // of half the difference, within 0.2 % up to 40°
        return level * std::exp(exponent * half * half) / (cosine * cosine);
    }
};

/// Y above 90 rolled towards white.
inline float rolled(float y) { return y <= 90 ? y : 90 + 10 * (1 - std::exp(-(y - 90) / 10)); }

/// mirrored() over tilts −reach … reach in both directions.
class Glare {
public:
    Glare(const Room& room, double alpha, int threads);
    float at(float x, float y) const {
        const float u = position(x), v = position(y);
        const auto iu = static_cast<std::size_t>(u), iv = static_cast<std::size_t>(v);
        const float fu = u - static_cast<float>(iu), fv = v - static_cast<float>(iv);
        const float* a = table_.data() + iv * entries + iu;
        const float low = a[0] + fu * (a[1] - a[0]), high = a[entries] + fu * (a[entries + 1] - a[entries]);
        return low + fv * (high - low);
    }
    static constexpr std::size_t entries = 129;
    static constexpr float reach = 0.5F;
    const float* table() const { return table_.data(); }

private:
    static float position(float t) {
        const float u = (t + reach) * (static_cast<float>(entries - 1) / (2 * reach));
        return u < 0 ? 0 : u > static_cast<float>(entries) - 1.001F ? static_cast<float>(entries) - 1.001F : u;
    }
    std::vector<float> table_;
};

}  // namespace foretone::light
