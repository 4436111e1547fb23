// The angular solver's answers. x = √flux·radiance; under incident light e the light coming back is 2(1 + Z)⁻¹e − e.
// A measuring direction f (a view, angular_streams.cpp) is read by reciprocity: uniform light on the stack sends up at
// f the radiance that tells how much of a beam falling at f is sent up in all directions.

#include "foretone/optics/angular.hpp"

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"

#include "angular_solver.hpp"

namespace foretone::optics {
namespace {

using angular_detail::AngularSolver;
using angular_detail::Top;
using Eigen::VectorXd;

double cosine_of(double degrees) { return std::cos(degrees * (std::numbers::pi / 180)); }

/// Reflectance under uniform light of what was solved.
double diffuse_reflectance(const VectorXd& light, const VectorXd& answer) {
    return (2 * light.dot(answer) - light.squaredNorm()) / light.squaredNorm();
}

/// Radiance at the first view under uniform light, per unit radiance.
double at_view(const VectorXd& root_flux, const VectorXd& answer) { return 2 * answer(0) / root_flux(0) - 1; }

/// Regular reflectance averaged over uniform light.
double mean_regular(const AngularSolver& solver, const VectorXd& light, std::size_t wavelength) {
    double sum = 0;
    for (int i = 0; i < light.size(); ++i) {
        if (light(i) > 0) sum += light(i) * light(i) * solver.regular(i, wavelength);
    }
    return sum / light.squaredNorm();
}

}  // namespace

Fluxes angular(const Stack& stack, const Light& light, AngularOptions options) {
    std::vector<double> views;
    if (!light.diffuse) {
        if (!(light.angle_deg >= 0 && light.angle_deg < 90)) {
            throw std::invalid_argument("light: angle " + base::shortest(light.angle_deg) +
                                        " degrees is not within 0-<90");
        }
        views.push_back(cosine_of(light.angle_deg));
    }
    AngularSolver solver(stack, options, views);
    const VectorXd uniform = solver.uniform(Top::air);
    const bool open = stack.base.kind == Base::Kind::open;
    Fluxes fluxes;
    for (std::size_t w = 0; w < stack.wavelengths; ++w) {
        solver.solve(w, Top::air);
        const VectorXd answer = solver.answer(uniform);
        if (light.diffuse) {
            fluxes.reflectance.push_back(diffuse_reflectance(uniform, answer));
            fluxes.surface.push_back(mean_regular(solver, uniform, w));
            fluxes.transmittance.push_back(2 * solver.through().dot(answer) / uniform.squaredNorm());
        } else {
            fluxes.reflectance.push_back(at_view(solver.root_flux(), answer));
            fluxes.surface.push_back(solver.regular(0, w));
            fluxes.transmittance.push_back(open ? 2 * solver.answer(solver.through())(0) / solver.root_flux()(0) : 0);
        }
    }
    return fluxes;
}

Radiance angular(const Stack& stack, Geometry geometry, AngularOptions options) {
    const bool oblique = geometry == Geometry::g45_0;
    const std::vector<double> views = oblique ? std::vector{cosine_of(45), 1.0} : std::vector{cosine_of(8)};
    AngularSolver solver(stack, options, views);
    const VectorXd& root = solver.root_flux();
    const VectorXd light = oblique ? VectorXd(VectorXd::Unit(root.size(), 0)) : solver.uniform(Top::air);
    Radiance radiance;
    for (std::size_t w = 0; w < stack.wavelengths; ++w) {
        solver.solve(w, Top::air);
        const VectorXd answer = solver.answer(light);
        const double specular = solver.regular(0, w);
        radiance.specular.push_back(specular);
        radiance.body.push_back(oblique ? answer(1) / (root(0) * root(1)) : at_view(root, answer) - specular);
    }
    return radiance;
}

std::vector<double> angular_inside(const Stack& stack, AngularOptions options) {
    AngularSolver solver(stack, options, {});
    const VectorXd light = solver.uniform(Top::inside);
    std::vector<double> reflectance;
    for (std::size_t w = 0; w < stack.wavelengths; ++w) {
        solver.solve(w, Top::inside);
        reflectance.push_back(diffuse_reflectance(light, solver.answer(light)));
    }
    return reflectance;
}

}  // namespace foretone::optics
