// The fast solver's top: light through the top run of clear films, back and forth between it and what lies under it,
// and out.
//
// Under the run, unit flux of the beam that arrives there makes F upward flux and radiance V towards the eye; unit
// diffuse flux makes F′ and V′ (kernels::Channels). The run reflects Q of diffuse light from below and passes t_up of
// it.
//
// What leaves comes only from the cone that refraction lets out, where strong dye makes light scarcer or more plentiful
// than the flux tells. With V at the cone's middle ray and w the share of the cone's light that this ray stands for
// (`cone_weight`), W = F + w(V − F) stands for what leaves and W′ likewise: t_up W leaves and all else of (Q + t_up)F
// returns,
//   G = QF − t_up w(V − F),   and so   g = QF′ − t_up w(V′ − F′)   for diffuse light falling.
// The diffuse flux falling on the lower part then sums to G/(1 − g), and
//   reflectance   = t_in t_up [W + G/(1 − g) W′]          (hemispherical: the eye is the middle ray)
//   transmittance = t_in [through + G/(1 − g) through′]
//   radiance factor = t_in t(µ)/n² [V + G/(1 − g) V′]     (towards µ; n the index just under the run).
// At 45/0 the eye is not the middle ray but the normal: there 0.8 w t_in/n² stands in G and g for w t_up
// (`normal_for_cone`). Whatever W is, energy is kept: with nothing absorbed Q + t_up = 1, F and through sum to 1, and
// reflectance and transmittance do too; otherwise the reflectance is a mean of t_up W and (Q + t_up)F. For a Lambertian
// base V = F and this is the textbook's t_in F t/(1 − QF). 1 − g is well away from 0: Q is 1 only for a run that lets
// nothing out. Diffuse light falling on the stack is taken as diffuse below the run too: t_in ρ/(1 − ρQ), in which
// energy is kept as well.

#include "foretone/optics/two_flux.hpp"

#include <cmath>
#include <numbers>
#include <optional>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"

#include "chain.hpp"

namespace foretone::optics {
namespace {

double cosine(double angle_deg) { return std::cos(angle_deg * std::numbers::pi / 180); }
double sine(double angle_deg) { return std::sin(angle_deg * std::numbers::pi / 180); }

void check_light(const Light& light) {
    if (!light.diffuse && !(light.angle_deg >= 0 && light.angle_deg < 90)) {
        throw std::invalid_argument("light: angle_deg " + base::shortest(light.angle_deg) + ", not 0 to below 90");
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
    Prepared(const Stack& like, std::optional<Rays> rays)
        : chain(make_chain(like)),
          wavelengths(like.wavelengths),
          base(like.base.kind),
          cone(cone_weight(chain.top.n_below)),
          under(like, chain, rays),
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
        bool same =
            stack.wavelengths == wavelengths && stack.layers.size() == indices.size() && stack.base.kind == base;
        for (std::size_t i = 0; same && i < indices.size(); ++i) {
            same = stack.layers[i].n == indices[i] && is_clear(stack.layers[i]) == clear[i];
        }
        if (same) return;
        throw std::invalid_argument("TwoFluxSolver: the stack (" + make_of(stack) +
                                    ") is of another make than prepared for");
    }

    /// All four quantities of the top run.
    void top_panel(const double* const* d) {
        top.diffuse(d, q.size(), r_above.data(), q.data(), t_up.data(), scratch.data());
    }
    double down_per_up() const { return chain.top.n_below * chain.top.n_below; }
    void solve_radiance(const double* const* d, Radiance& out);
    void solve_beam(const double* const* d, std::vector<double>& scattered, std::vector<double>* through);
    void solve_diffuse(const double* const* d, Fluxes& out);

    Chain chain;
    std::size_t wavelengths;
    Base::Kind base;
    std::vector<double> indices;
    std::vector<bool> clear;
    double cone;  ///< cone_weight under the top run
    Under under;
    ClearFilms top;
    Depths depths;
    std::optional<Ray> in, eye;
    std::optional<Geometry> geometry;
    std::vector<double> q, r_above, t_up, scratch;
};

/// 45/0: the eye looks along the normal; the transmittance of the beam at 45°, the cone's middle ray, stands for the
/// cone's.
void TwoFluxSolver::Prepared::solve_radiance(const double* const* d, Radiance& out) {
    in->solve(d, scratch.data());
    eye->solve(d, scratch.data());
    top.internal(d, q.size(), q.data(), scratch.data());
    const kernels::Channels& c = under.channels();
    const double scale = 1 / down_per_up(), share = normal_for_cone * cone * scale;
    for (std::size_t k = 0; k < wavelengths; ++k) {
        const double f = c.beam_up[k], v = c.beam_seen[k], f_diffuse = c.diffuse_up[k], v_diffuse = c.diffuse_seen[k];
        const double missing = share * in->transmittance[k];
        const double again =
            (q[k] * f - missing * (v - f)) / (1 - q[k] * f_diffuse + missing * (v_diffuse - f_diffuse));
        out.body[k] = in->transmittance[k] * eye->transmittance[k] * scale * (v + again * v_diffuse);
    }
}

/// A beam, and all that comes back or through.
void TwoFluxSolver::Prepared::solve_beam(const double* const* d, std::vector<double>& scattered,
                                         std::vector<double>* through) {
    top_panel(d);
    in->solve(d, scratch.data());
    const kernels::Channels& c = under.channels();
    for (std::size_t k = 0; k < wavelengths; ++k) {
        const double f = c.beam_up[k], f_diffuse = c.diffuse_up[k];
        const double more = cone * (c.beam_seen[k] - f), more_diffuse = cone * (c.diffuse_seen[k] - f_diffuse);
        const double again = (q[k] * f - t_up[k] * more) / (1 - q[k] * f_diffuse + t_up[k] * more_diffuse);
        scattered[k] = in->transmittance[k] * t_up[k] * (f + more + again * (f_diffuse + more_diffuse));
        if (through) (*through)[k] = in->transmittance[k] * (c.beam_through[k] + again * c.diffuse_through[k]);
    }
}

void TwoFluxSolver::Prepared::solve_diffuse(const double* const* d, Fluxes& out) {
    top_panel(d);
    const kernels::Channels& c = under.channels();
    for (std::size_t k = 0; k < wavelengths; ++k) {
        const double falling = down_per_up() * t_up[k] / (1 - c.diffuse_up[k] * q[k]);
        out.surface[k] = r_above[k];
        out.reflectance[k] = r_above[k] + falling * c.diffuse_up[k] * t_up[k];
        out.transmittance[k] = falling * c.diffuse_through[k];
    }
}

TwoFluxSolver::TwoFluxSolver(const Stack& like, Geometry geometry) {
    check(like);
    const bool normal = geometry == Geometry::g45_0;  // else by reciprocity: light at 8°, all that comes back
    prepared_ = std::make_unique<Prepared>(like, normal ? Rays{sine(45), 0.0} : Rays{sine(8), middle_sine});
    Prepared& p = *prepared_;
    p.geometry = geometry;
    p.in.emplace(p.chain.top, normal ? 45.0 : 8.0, p.wavelengths);
    if (normal) p.eye.emplace(p.chain.top, 0.0, p.wavelengths);
}

TwoFluxSolver::TwoFluxSolver(const Stack& like, const Light& light) {
    check(like);
    check_light(light);
    std::optional<Rays> rays;
    if (!light.diffuse) rays = Rays{sine(light.angle_deg), middle_sine};
    prepared_ = std::make_unique<Prepared>(like, rays);
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
    solve_checked(stack, out);
}

void TwoFluxSolver::solve_checked(const Stack& stack, Radiance& out) {
    Prepared& p = *prepared_;
    p.under.solve(stack, p.chain);
    const double* const* depths = p.depths.update(p.chain.top, stack);
    out.body.resize(p.wavelengths);
    if (p.eye)
        p.solve_radiance(depths, out);
    else
        p.solve_beam(depths, out.body, nullptr);
    copy_unpadded(p.in->reflectance, p.wavelengths, out.specular);
}

void TwoFluxSolver::solve(const Stack& stack, Fluxes& out) {
    Prepared& p = *prepared_;
    check(stack);
    p.require_same_make(stack);
    if (p.geometry) throw std::invalid_argument("TwoFluxSolver: prepared for a radiance, asked for fluxes");
    solve_checked(stack, out);
}

void TwoFluxSolver::solve_checked(const Stack& stack, Fluxes& out) {
    Prepared& p = *prepared_;
    p.under.solve(stack, p.chain);
    const double* const* depths = p.depths.update(p.chain.top, stack);
    for (auto* row : {&out.reflectance, &out.surface, &out.transmittance}) row->resize(p.wavelengths);
    if (!p.in) return p.solve_diffuse(depths, out);
    p.solve_beam(depths, out.reflectance, &out.transmittance);
    copy_unpadded(p.in->reflectance, p.wavelengths, out.surface);
    for (std::size_t k = 0; k < p.wavelengths; ++k) out.reflectance[k] += out.surface[k];
}

Fluxes two_flux(const Stack& stack, const Light& light) {
    Fluxes out;
    TwoFluxSolver(stack, light).solve_checked(stack, out);
    return out;
}

Radiance two_flux(const Stack& stack, Geometry geometry) {
    Radiance out;
    TwoFluxSolver(stack, geometry).solve_checked(stack, out);
    return out;
}

std::vector<double> two_flux_inside(const Stack& stack) {
    check(stack);
    const Chain chain = make_chain(stack);
    if (!stack.layers.empty() && is_clear(stack.layers.front())) {
        throw std::invalid_argument("two_flux_inside: layer 1 is clear; the top layer must scatter");
    }
    Under under(stack, chain, std::nullopt);
    under.solve(stack, chain);
    const double* reflectance = under.channels().diffuse_up;
    return {reflectance, reflectance + stack.wavelengths};
}

}  // namespace foretone::optics
