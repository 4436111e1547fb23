// The angular solver against photons, on stacks of every kind the solver treats differently.

#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "angular_stacks.hpp"
#include "foretone/optics/angular.hpp"
#include "photon.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;

namespace {

struct Case {
    const char* name;
    Stack stack;
};

std::vector<Case> cases() {
    const Layer forward = layer(1.5, 0.95, 1, 0.9), low = layer(1.3, 0.95, 1, 0.7), zone = layer(1.5, 0.7, 1.5, 0.8);
    const std::vector<Layer> unlike{clear_film(1.35, 0.1), clear_film(1.7, 0.1)};
    const std::vector<Layer> sandwich{layer(1.6, 0.9, 0.5, 0), low, layer(1.6, 0.8, 0.5, 0.3)};
    return {
        {"isotropic slab in air", over_air({layer(1, 0.9, 1, 0)})},
        {"forward-scattering slab, n 1.5", over_air({layer(1.5, 0.95, 2, 0.9)})},
        {"white slab, n 1.5", over_air({layer(1.5, 1, 2, 0)})},
        {"backward-scattering slab, n 1.4", over_air({layer(1.4, 0.8, 1, -0.5)})},
        {"deep medium, n 1.5", over_black({layer(1.5, 0.9, 40, 0.5)})},
        {"clear film over a diffuse base", over_lambertian({clear_film(1.5, 0.2)}, 0.6)},
        {"two clear films of different index over a diffuse base", over_lambertian(unlike, 0.8)},
        {"haze over a diffuse base", over_lambertian({layer(1.5, 0.99, 0.3, 0.8)}, 0.5)},
        {"clear film over a scatterer of lower index", over_black({clear_film(1.6, 0.1), layer(1.4, 0.98, 10, 0.6)})},
        {"scatterer of low index between two of high", over_air(sandwich)},
        {"two scatterers, n 1.5 and 1.33, over a diffuse base",
         over_lambertian({forward, layer(1.33, 0.9, 1, 0)}, 0.3)},
        {"two coats on a stained zone on wood",
         over_lambertian({clear_film(1.48, 0.05), clear_film(1.54, 0.15), zone}, 0.7)},
    };
}

void compare(const std::string& what, double solver, const Estimate& photons) {
    INFO(what << ": solver " << solver << ", photons " << photons.mean << " +- " << photons.error);
    CHECK(photons.error < 1e-3);
    CHECK_THAT(solver, Near(photons.mean, 3 * photons.error));
}

}  // namespace

TEST_CASE("photons at 45 degrees agree with the solver in reflectance, transmittance and 45/0 radiance") {
    constexpr int photons = 330'000;
    constexpr AngularOptions fine{32};
    std::uint64_t seed = 100;
    for (const Case& c : cases()) {
        INFO(c.name);
        const Fluxes fluxes = angular(c.stack, {false, 45}, fine);
        const Radiance radiance = angular(c.stack, Geometry::g45_0, fine);
        const PhotonResult result = follow_photons(c.stack, {false, 45}, photons, ++seed);
        compare("reflectance", fluxes.reflectance[0], result.reflectance);
        if (c.stack.base.kind == Base::Kind::open)
            compare("transmittance", fluxes.transmittance[0], result.transmittance);
        compare("45/0", radiance.body[0], result.normal);
    }
}

// Not under the sanitizers ([release]): the same walk as above, minutes more.
TEST_CASE("photons of diffuse light agree with the solver", "[release]") {
    constexpr int photons = 330'000;
    constexpr AngularOptions fine{32};
    std::uint64_t seed = 200;
    for (const Case& c : cases()) {
        INFO(c.name);
        const Fluxes fluxes = angular(c.stack, {true, 0}, fine);
        const PhotonResult result = follow_photons(c.stack, {true, 0}, photons, ++seed);
        compare("reflectance", fluxes.reflectance[0], result.reflectance);
        if (c.stack.base.kind == Base::Kind::open)
            compare("transmittance", fluxes.transmittance[0], result.transmittance);
    }
}
