#pragma once
/// A color as it is seen under a light.

#include <string>

#include "foretone/appearance/spread.hpp"
#include "foretone/color/ciecam16.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/scene/scene.hpp"

namespace foretone::job {

/// One color of one stage.
struct SeenColor {
    std::string light;
    color::Xyz xyz;          ///< Y = 100
    color::Lab lab;          ///< relative to the light's own white
    color::Appearance seen;  ///< what an eye adapted to the light sees (CIECAM16); `screen` shows just that
    color::Display screen;
    double spread_de00 = 0;     ///< one standard deviation
    int published_boards = 0;   ///< rows that check the kinds of finish it has, the fewest; 0 for wood without finish
    appearance::Region region;  ///< what the color may turn out as; materials' and boards' parts apart
};

/// One reflectance under a light.
SeenColor see(const spectral::Spectrum& reflectance, const std::string& light, const color::Weights& weights);

/// One color under a light of that white.
SeenColor see(const color::Xyz& xyz, const std::string& light, const color::Xyz& white);

}  // namespace foretone::job
