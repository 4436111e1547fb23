#include "foretone/job/seen.hpp"

namespace foretone::job {

SeenColor see(const color::Xyz& xyz, const std::string& light, const color::Xyz& white) {
    SeenColor c;
    c.light = light;
    c.xyz = xyz;
    c.lab = color::to_lab(xyz, white);
    c.seen = color::appearance(xyz, color::in_a_room(white));
    c.screen = color::to_display(xyz, white);
    return c;
}

SeenColor see(const spectral::Spectrum& reflectance, const std::string& light, const color::Weights& weights) {
    return see(color::xyz(reflectance, weights), light, weights.white);
}

}  // namespace foretone::job
