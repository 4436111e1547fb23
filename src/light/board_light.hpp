#pragma once
// The room around a board: where the light stands, where the eye, and what the film's facets mirror.

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

private:
    static constexpr std::size_t entries = 129;
    static constexpr float reach = 0.5F;
    static float position(float t) {
        const float u = (t + reach) * (static_cast<float>(entries - 1) / (2 * reach));
        return u < 0 ? 0 : u > static_cast<float>(entries) - 1.001F ? static_cast<float>(entries) - 1.001F : u;
    }
    std::vector<float> table_;
};

}  // namespace foretone::light
