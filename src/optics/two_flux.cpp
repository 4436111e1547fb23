// The fast solver's top: light through the top run of clear films, back and forth between it and what lies under it, and out.
//
// With Q the run's reflectance of diffuse light from below, ρ and τ the reflectance and transmittance of what lies under it, and
// t_in the share of the light that first arrives there, the diffuse flux falling on the lower part sums to t_in/(1 − ρQ) and
//   body reflectance = t_in ρ t_up/(1 − ρQ)            (hemispherical)
//   body radiance factor = t_in ρ t(µ)/n²/(1 − ρQ)     (towards µ; n the index just under the run)
//   transmittance = t_in τ/(1 − ρQ).
// 1 − ρQ is well away from 0: Q is 1 only for a run that lets nothing out.

#include "foretone/optics/two_flux.hpp"

#include <cmath>
#include <numbers>
#include <optional>
#include <stdexcept>
#include <string>

#include "chain.hpp"

namespace foretone::optics {
namespace {

double cosine(double angle_deg) { return std::cos(angle_deg * std::numbers::pi / 180); }

void check_light(const Light& light) {
    if (!light.diffuse && !(light.angle_deg >= 0 && light.angle_deg < 90)) {
        throw std::invalid_argument("light: angle_deg " + std::to_string(light.angle_deg) + ", not 0 to below 90");
    }
}

/// One ray's arrays: specular reflectance and transmittance.
struct Ray {
    Ray(const Run& run, double angle_deg, std::size_t wavelengths)
        : beam(run.n_above, run.indices(), run.n_below, cosine(angle_deg)),
          reflectance(padded(wavelengths)),
          transmittance(padded(wavelengths)) {}
    void solve(const double* const* depths, double* scratch) {
        beam.solve(depths, reflectance.size(), reflectance.data(), transmittance.data(), scratch);
    }
    ClearBeam beam;
    std::vector<double> reflectance, transmittance;
};

void copy_unpadded(const std::vector<double>& from, std::size_t count, std::vector<double>& to) {
    to.assign(from.begin(), from.begin() + static_cast<std::ptrdiff_t>(count));
}

std::string make_of(const Stack& stack) {
    return std::to_string(stack.layers.size()) + " layers at " + std::to_string(stack.wavelengths) + " wavelengths";
}

}  // namespace

struct TwoFluxSolver::Prepared {
    explicit Prepared(const Stack& like)
        : chain(make_chain(like)),
          wavelengths(like.wavelengths),
          base(like.base.kind),
          under(like, chain),
          top(chain.top.n_above, chain.top.indices(), chain.top.n_below),
          depths(chain.top, like.wavelengths),
          q(padded(wavelengths)),
          r_above(q.size()),
          t_up(q.size()),
          scratch(ClearFilms::scratch_size(q.size())) {
        for (const Layer& layer : like.layers) {
            indices.push_back(layer.n);
            clear.push_back(is_clear(layer));
        }
    }

    void require_same_make(const Stack& stack) const {
        bool same = stack.wavelengths == wavelengths && stack.layers.size() == indices.size() && stack.base.kind == base;
        for (std::size_t i = 0; same && i < indices.size(); ++i) {
            same = stack.layers[i].n == indices[i] && is_clear(stack.layers[i]) == clear[i];
        }
        if (same) return;
        throw std::invalid_argument("TwoFluxSolver: the stack (" + make_of(stack) + ") is of another make than prepared for");
    }

    /// All four quantities of the top run.
    void top_panel(const double* const* d) { top.diffuse(d, q.size(), r_above.data(), q.data(), t_up.data(), scratch.data()); }
    double down_per_up() const { return chain.top.n_below * chain.top.n_below; }

    Chain chain;
    std::size_t wavelengths;
    Base::Kind base;
    std::vector<double> indices;
    std::vector<bool> clear;
    Under under;
    ClearFilms top;
    Depths depths;
    std::optional<Ray> in, out;
    std::optional<Geometry> geometry;
    std::vector<double> q, r_above, t_up, scratch;
};

TwoFluxSolver::TwoFluxSolver(const Stack& like, Geometry geometry) {
    check(like);
    prepared_ = std::make_unique<Prepared>(like);
    Prepared& p = *prepared_;
    p.geometry = geometry;
    if (geometry == Geometry::g45_0) {
        p.in.emplace(p.chain.top, 45.0, p.wavelengths);
        p.out.emplace(p.chain.top, 0.0, p.wavelengths);
    } else {
        p.out.emplace(p.chain.top, 8.0, p.wavelengths);
    }
}

TwoFluxSolver::TwoFluxSolver(const Stack& like, const Light& light) {
    check(like);
    check_light(light);
    prepared_ = std::make_unique<Prepared>(like);
    if (!light.diffuse) prepared_->in.emplace(prepared_->chain.top, light.angle_deg, like.wavelengths);
}

TwoFluxSolver::~TwoFluxSolver() = default;
TwoFluxSolver::TwoFluxSolver(TwoFluxSolver&&) noexcept = default;
TwoFluxSolver& TwoFluxSolver::operator=(TwoFluxSolver&&) noexcept = default;

void TwoFluxSolver::solve(const Stack& stack, Radiance& out) {
    Prepared& p = *prepared_;
    check(stack);
    p.require_same_make(stack);
    if (!p.geometry) throw std::invalid_argument("TwoFluxSolver: prepared for fluxes, asked for a radiance");
    p.under.solve(stack, p.chain);
    const double* const* depths = p.depths.update(p.chain.top, stack);
    const double* rho = p.under.reflectance().data();
    p.out->solve(depths, p.scratch.data());
    if (p.in) {
        p.in->solve(depths, p.scratch.data());
        p.top.internal(depths, p.q.size(), p.q.data(), p.scratch.data());
    } else {
        p.top_panel(depths);
    }
    const double* entering = p.in ? p.in->transmittance.data() : p.t_up.data();
    const double* leaving = p.out->transmittance.data();
    const double scale = p.in ? 1 / p.down_per_up() : 1.0;  // diffuse light: t_down = n² t_up, and 1/n² on the way out
    out.body.resize(p.wavelengths);
    copy_unpadded(p.in ? p.in->reflectance : p.out->reflectance, p.wavelengths, out.specular);
    for (std::size_t k = 0; k < p.wavelengths; ++k) {
        out.body[k] = entering[k] * rho[k] * leaving[k] * scale / (1 - rho[k] * p.q[k]);
    }
}

void TwoFluxSolver::solve(const Stack& stack, Fluxes& out) {
    Prepared& p = *prepared_;
    check(stack);
    p.require_same_make(stack);
    if (p.geometry) throw std::invalid_argument("TwoFluxSolver: prepared for a radiance, asked for fluxes");
    p.under.solve(stack, p.chain);
    const double* const* depths = p.depths.update(p.chain.top, stack);
    const double* rho = p.under.reflectance().data();
    const double* tau = p.under.transmittance().data();
    p.top_panel(depths);
    if (p.in) p.in->solve(depths, p.scratch.data());
    copy_unpadded(p.in ? p.in->reflectance : p.r_above, p.wavelengths, out.surface);
    out.reflectance.resize(p.wavelengths);
    out.transmittance.resize(p.wavelengths);
    for (std::size_t k = 0; k < p.wavelengths; ++k) {
        const double entering = p.in ? p.in->transmittance[k] : p.down_per_up() * p.t_up[k];
        const double falling = entering / (1 - rho[k] * p.q[k]);
        out.reflectance[k] = out.surface[k] + falling * rho[k] * p.t_up[k];
        out.transmittance[k] = falling * tau[k];
    }
}

Fluxes two_flux(const Stack& stack, const Light& light) {
    Fluxes out;
    TwoFluxSolver(stack, light).solve(stack, out);
    return out;
}

Radiance two_flux(const Stack& stack, Geometry geometry) {
    Radiance out;
    TwoFluxSolver(stack, geometry).solve(stack, out);
    return out;
}

std::vector<double> two_flux_inside(const Stack& stack) {
    check(stack);
    const Chain chain = make_chain(stack);
    if (!stack.layers.empty() && is_clear(stack.layers.front())) {
        throw std::invalid_argument("two_flux_inside: layer 1 is clear; the top layer must scatter");
    }
    Under under(stack, chain);
    under.solve(stack, chain);
    return {under.reflectance().begin(), under.reflectance().begin() + static_cast<std::ptrdiff_t>(stack.wavelengths)};
}

}  // namespace foretone::optics
