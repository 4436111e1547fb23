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

/// What is asked of a stack: the beam and the eye below the top run, if there are any, and their cosines in air.
struct Asked {
    std::optional<Rays> rays;
    RayCosines top;
};

/// 45/0; else by reciprocity: light at 8°, all that comes back.
const Asked& asked(Geometry geometry) {
    static const Asked normal{Rays{sine(45), 0.0}, {cosine(45), cosine(0)}},
        sphere{Rays{sine(8), middle_sine}, {cosine(8)}};
    return geometry == Geometry::g45_0 ? normal : sphere;
}

Asked asked(const Light& light) {
    if (light.diffuse) return {};
    return {Rays{sine(light.angle_deg), middle_sine}, {cosine(light.angle_deg)}};
}

/// One ray through the top run: specular reflectance and transmittance at each wavelength.
struct Ray {
    void solve(const ClearBeam& beam, const double* const* depths, std::size_t count, double* scratch) {
        reflectance.resize(count), transmittance.resize(count);
        beam.solve(depths, count, reflectance.data(), transmittance.data(), scratch);
    }
    std::vector<double> reflectance, transmittance;
};

void copy_unpadded(const std::vector<double>& from, std::size_t count, std::vector<double>& to) {
    to.assign(from.begin(), from.begin() + static_cast<std::ptrdiff_t>(count));
}

std::string make_of(const Stack& stack) {
    return std::to_string(stack.layers.size()) + " layers at " + std::to_string(stack.wavelengths) + " wavelengths";
}

}  // namespace

struct TwoFluxReader::Work {
    void start(const Stack& stack, const Asked& question);
    void solve_radiance(Radiance& out);
    void solve_beam(std::vector<double>& scattered, std::vector<double>* through);
    void solve_diffuse(Fluxes& out);
    void top_panel();

    double down_per_up() const { return chain.top().n_below * chain.top().n_below; }

    std::size_t wavelengths = 0;
    Chain chain;
    InterfaceShelf shelf;
    Under under;
    Depths depths;
    const Interfaces* top = nullptr;
    const double* const* top_depths = nullptr;
    Ray in, eye;
    std::vector<double> q, r_above, t_up, scratch;
};

/// All that lies under the top run, and what is known of that run.
void TwoFluxReader::Work::start(const Stack& stack, const Asked& question) {
    wavelengths = stack.wavelengths;
    const std::size_t count = padded(wavelengths);
    for (auto* row : {&q, &r_above, &t_up}) row->resize(count);
    scratch.resize(ClearFilms::scratch_size(count));
    chain.make(stack);
    under.solve(stack, chain, question.rays, shelf);
    top = &shelf.of(chain.media(chain.top()), question.top);
    top_depths = depths.update(chain.films(chain.top()), stack);
    if (question.rays) in.solve(top->beam, top_depths, count, scratch.data());
    if (question.top.eye > 0) eye.solve(top->eye, top_depths, count, scratch.data());
}

/// All four quantities of the top run.
void TwoFluxReader::Work::top_panel() {
    top->films.diffuse(top_depths, q.size(), r_above.data(), q.data(), t_up.data(), scratch.data());
}

/// 45/0: the eye looks along the normal; the transmittance of the beam at 45°, the cone's middle ray, stands for the
/// cone's.
void TwoFluxReader::Work::solve_radiance(Radiance& out) {
    top->films.internal(top_depths, q.size(), q.data(), scratch.data());
    const kernels::Channels& c = under.channels();
    const double scale = 1 / down_per_up(), share = normal_for_cone * top->cone * scale;
    for (std::size_t k = 0; k < wavelengths; ++k) {
        const double f = c.beam_up[k], v = c.beam_seen[k], f_diffuse = c.diffuse_up[k], v_diffuse = c.diffuse_seen[k];
        const double missing = share * in.transmittance[k];
        const double again =
            (q[k] * f - missing * (v - f)) / (1 - q[k] * f_diffuse + missing * (v_diffuse - f_diffuse));
        out.body[k] = in.transmittance[k] * eye.transmittance[k] * scale * (v + again * v_diffuse);
    }
}

/// A beam, and all that comes back or through.
void TwoFluxReader::Work::solve_beam(std::vector<double>& scattered, std::vector<double>* through) {
    top_panel();
    const kernels::Channels& c = under.channels();
    const double cone = top->cone;
    for (std::size_t k = 0; k < wavelengths; ++k) {
        const double f = c.beam_up[k], f_diffuse = c.diffuse_up[k];
        const double more = cone * (c.beam_seen[k] - f), more_diffuse = cone * (c.diffuse_seen[k] - f_diffuse);
        const double again = (q[k] * f - t_up[k] * more) / (1 - q[k] * f_diffuse + t_up[k] * more_diffuse);
        scattered[k] = in.transmittance[k] * t_up[k] * (f + more + again * (f_diffuse + more_diffuse));
        if (through) (*through)[k] = in.transmittance[k] * (c.beam_through[k] + again * c.diffuse_through[k]);
    }
}

void TwoFluxReader::Work::solve_diffuse(Fluxes& out) {
    top_panel();
    const kernels::Channels& c = under.channels();
    for (std::size_t k = 0; k < wavelengths; ++k) {
        const double falling = down_per_up() * t_up[k] / (1 - c.diffuse_up[k] * q[k]);
        out.surface[k] = r_above[k];
        out.reflectance[k] = r_above[k] + falling * c.diffuse_up[k] * t_up[k];
        out.transmittance[k] = falling * c.diffuse_through[k];
    }
}

TwoFluxReader::TwoFluxReader() : work_(std::make_unique<Work>()) {}
TwoFluxReader::~TwoFluxReader() = default;
TwoFluxReader::TwoFluxReader(TwoFluxReader&&) noexcept = default;
TwoFluxReader& TwoFluxReader::operator=(TwoFluxReader&&) noexcept = default;

void TwoFluxReader::read(const Stack& stack, Geometry geometry, Radiance& out) {
    check(stack);
    read_checked(stack, geometry, out);
}

void TwoFluxReader::read_checked(const Stack& stack, Geometry geometry, Radiance& out) {
    Work& w = *work_;
    w.start(stack, asked(geometry));
    out.body.resize(w.wavelengths);
    if (geometry == Geometry::g45_0)
        w.solve_radiance(out);
    else
        w.solve_beam(out.body, nullptr);
    copy_unpadded(w.in.reflectance, w.wavelengths, out.specular);
}

void TwoFluxReader::read(const Stack& stack, const Light& light, Fluxes& out) {
    check(stack);
    check_light(light);
    read_checked(stack, light, out);
}

void TwoFluxReader::read_checked(const Stack& stack, const Light& light, Fluxes& out) {
    Work& w = *work_;
    w.start(stack, asked(light));
    for (auto* row : {&out.reflectance, &out.surface, &out.transmittance}) row->resize(w.wavelengths);
    if (light.diffuse) return w.solve_diffuse(out);
    w.solve_beam(out.reflectance, &out.transmittance);
    copy_unpadded(w.in.reflectance, w.wavelengths, out.surface);
    for (std::size_t k = 0; k < w.wavelengths; ++k) out.reflectance[k] += out.surface[k];
}

void TwoFluxReader::inside(const Stack& stack, std::vector<double>& out) {
    check(stack);
    if (!stack.layers.empty() && is_clear(stack.layers.front())) {
        throw std::invalid_argument("two_flux_inside: layer 1 is clear; the top layer must scatter");
    }
    Work& w = *work_;
    w.chain.make(stack);
    w.under.solve(stack, w.chain, std::nullopt, w.shelf);
    const double* reflectance = w.under.channels().diffuse_up;
    out.assign(reflectance, reflectance + stack.wavelengths);
}

TwoFluxSolver::TwoFluxSolver(const Stack& like, Geometry geometry) : TwoFluxSolver(like) { geometry_ = geometry; }

TwoFluxSolver::TwoFluxSolver(const Stack& like, const Light& light) : TwoFluxSolver(like) {
    check_light(light);
    light_ = light;
}

TwoFluxSolver::TwoFluxSolver(const Stack& like) : wavelengths_(like.wavelengths), base_(like.base.kind) {
    check(like);
    for (const Layer& layer : like.layers) {
        indices_.push_back(layer.n);
        clear_.push_back(is_clear(layer));
    }
}

void TwoFluxSolver::require_same_make(const Stack& stack) const {
    bool same = stack.wavelengths == wavelengths_ && stack.layers.size() == indices_.size() && stack.base.kind == base_;
    for (std::size_t i = 0; same && i < indices_.size(); ++i) {
        same = stack.layers[i].n == indices_[i] && is_clear(stack.layers[i]) == clear_[i];
    }
    if (same) return;
    throw std::invalid_argument("TwoFluxSolver: the stack (" + make_of(stack) +
                                ") is of another make than prepared for");
}

void TwoFluxSolver::solve(const Stack& stack, Radiance& out) {
    check(stack);
    require_same_make(stack);
    if (!geometry_) throw std::invalid_argument("TwoFluxSolver: prepared for fluxes, asked for a radiance");
    reader_.read_checked(stack, *geometry_, out);
}

void TwoFluxSolver::solve(const Stack& stack, Fluxes& out) {
    check(stack);
    require_same_make(stack);
    if (!light_) throw std::invalid_argument("TwoFluxSolver: prepared for a radiance, asked for fluxes");
    reader_.read_checked(stack, *light_, out);
}

Fluxes two_flux(const Stack& stack, const Light& light) {
    Fluxes out;
    TwoFluxReader().read(stack, light, out);
    return out;
}

Radiance two_flux(const Stack& stack, Geometry geometry) {
    Radiance out;
    TwoFluxReader().read(stack, geometry, out);
    return out;
}

std::vector<double> two_flux_inside(const Stack& stack) {
    std::vector<double> out;
    TwoFluxReader().inside(stack, out);
    return out;
}

}  // namespace foretone::optics
