// The stack below its top run, from the base upward: each slab or run is laid on the reflectance ρ (and transmittance
// τ) already there, which is the four-quantity addition with only the two quantities that are needed:
//   ρ' = r_above + t_down ρ t_up/(1 − r_below ρ),   τ' = t_down τ/(1 − r_below ρ).
// Likewise for a beam and an eye: the layer passes a share of each straight on, turns some of the beam into diffuse
// light up and down, and shows the eye some of the diffuse light that enters it; all that happens below is known from
// below's own channels.

#include "chain.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "foretone/optics/calibration.hpp"

namespace foretone::optics {

bool is_clear(const Layer& layer) {
    return std::all_of(layer.scattering_per_mm.begin(), layer.scattering_per_mm.end(), [](double s) { return s == 0; });
}

std::vector<double> Run::indices() const {
    std::vector<double> out;
    out.reserve(films.size());
    for (const MergedFilm& f : films) out.push_back(f.n);
    return out;
}

Chain make_chain(const Stack& stack) {
    Chain chain;
    chain.runs.reserve(stack.layers.size());  // `run` stays where it points
    Run* run = &chain.top;
    double n = 1;
    for (std::size_t i = 0; i < stack.layers.size(); ++i) {
        const Layer& layer = stack.layers[i];
        n = layer.n;
        if (!is_clear(layer)) {
            run->n_below = n;
            chain.slabs.push_back(i);
            chain.runs.emplace_back();
            run = &chain.runs.back();
            run->n_above = n;
        } else if (!run->films.empty() && run->films.back().n == n) {
            ++run->films.back().count;
        } else {
            run->films.push_back({n, i, 1});
        }
    }
    run->n_below = stack.base.kind == Base::Kind::open ? 1.0 : n;
    return chain;
}

Depths::Depths(const Run& run, std::size_t wavelengths)
    : wavelengths_(wavelengths), row_length_(padded(wavelengths)), values_(run.films.size() * row_length_) {
    rows_.reserve(run.films.size());
    for (std::size_t f = 0; f < run.films.size(); ++f) rows_.push_back(values_.data() + f * row_length_);
}

const double* const* Depths::update(const Run& run, const Stack& stack) {
    for (std::size_t f = 0; f < run.films.size(); ++f) {
        double* row = values_.data() + f * row_length_;
        const MergedFilm& film = run.films[f];
        for (std::size_t l = film.first; l < film.first + film.count; ++l) {
            const Layer& layer = stack.layers[l];
            const double* alpha = layer.absorption_per_mm.data();
            const double d = layer.thickness_mm;
            if (l == film.first) {
                for (std::size_t k = 0; k < wavelengths_; ++k) row[k] = alpha[k] * d;
            } else {
                for (std::size_t k = 0; k < wavelengths_; ++k) row[k] += alpha[k] * d;
            }
        }
        for (std::size_t k = 0; k < wavelengths_; ++k) row[k] = std::min(row[k], deepest_film);
    }
    return rows_.data();
}

Under::Join::Join(const Run& run, std::size_t wavelengths, const std::optional<Rays>& rays) : depths(run, wavelengths) {
    if (run.films.empty() && run.n_above == run.n_below) return;
    const auto indices = run.indices();
    films.emplace(run.n_above, indices, run.n_below);
    if (!rays) return;
    beam.emplace(run.n_above, indices, run.n_below, cosine_in(run.n_above, rays->beam_sine));
    eye.emplace(run.n_above, indices, run.n_below, cosine_in(run.n_above, rays->eye_sine));
}

Under::Under(const Stack& like, const Chain& chain, std::optional<Rays> rays)
    : rays_(rays),
      count_(padded(like.wavelengths)),
      channel_values_((rays ? 6 : 2) * count_),
      absorption_(count_),
      scattering_(count_),
      r_above_(count_),
      r_below_(count_),
      t_up_(count_),
      scratch_(ClearFilms::scratch_size(count_)) {
    joins_.reserve(chain.runs.size());
    for (const Run& run : chain.runs) joins_.emplace_back(run, like.wavelengths, rays);
    double* next = channel_values_.data();
    const auto take = [&] { return std::exchange(next, next + count_); };
    channels_.diffuse_up = take();
    channels_.diffuse_through = take();
    if (!rays) return;
    for (double** channel :
         {&channels_.beam_up, &channels_.beam_through, &channels_.beam_seen, &channels_.diffuse_seen}) {
        *channel = take();
    }
    for (auto* row : {&beam_back_, &beam_on_, &eye_back_, &eye_on_}) row->resize(count_);
}

/// A Lambertian base looks alike in all light and from everywhere; an open one lets all through.
void Under::start(const Base& base) {
    std::fill(channel_values_.begin(), channel_values_.end(), 0.0);
    const auto set = [&](double* up, double* seen, double* through) {
        if (base.kind == Base::Kind::open) std::fill(through, through + count_, 1.0);
        if (base.kind != Base::Kind::lambertian) return;
        std::copy(base.reflectance.begin(), base.reflectance.end(), up);
        if (seen) std::copy(base.reflectance.begin(), base.reflectance.end(), seen);
    };
    set(channels_.diffuse_up, channels_.diffuse_seen, channels_.diffuse_through);
    if (rays_) set(channels_.beam_up, channels_.beam_seen, channels_.beam_through);
}

void Under::solve(const Stack& stack, const Chain& chain) {
    start(stack.base);
    for (std::size_t i = chain.slabs.size(); i-- > 0;) {
        if (joins_[i].films) cross(joins_[i], chain.runs[i], stack);
        lay(stack.layers[chain.slabs[i]]);
    }
}

void Under::cross(Join& join, const Run& run, const Stack& stack) {
    const double* const* depths = join.depths.update(run, stack);
    join.films->diffuse(depths, count_, r_above_.data(), r_below_.data(), t_up_.data(), scratch_.data());
    if (rays_) cross_seen(join, run, depths);
    const double down_per_up = run.n_below * run.n_below / (run.n_above * run.n_above);
    const kernels::Channels& c = channels_;
    for (std::size_t k = 0; k < count_; ++k) {
        const double rho = c.diffuse_up[k], t_down = down_per_up * t_up_[k], free = 1 - r_below_[k] * rho;
        const double down = t_down / free;
        c.diffuse_up[k] = r_above_[k] + down * t_up_[k] * rho;
        c.diffuse_through[k] *= down;
        if (c.diffuse_seen) c.diffuse_seen[k] = eye_back_[k] + eye_on_[k] / down_per_up * c.diffuse_seen[k] * down;
    }
}

/// What the run reflects of the beam joins the diffuse light above it, and what it reflects of that light towards the
/// eye is seen: its specular image of one direction in the other is not a reading's business. Radiance scales with n².
void Under::cross_seen(Join& join, const Run& run, const double* const* depths) {
    join.beam->solve(depths, count_, beam_back_.data(), beam_on_.data(), scratch_.data());
    join.eye->solve(depths, count_, eye_back_.data(), eye_on_.data(), scratch_.data());
    const double up_per_down = run.n_above * run.n_above / (run.n_below * run.n_below);
    const kernels::Channels& c = channels_;
    for (std::size_t k = 0; k < count_; ++k) {
        const double on = beam_on_[k], up = on * c.beam_up[k] / (1 - r_below_[k] * c.diffuse_up[k]),
                     down = r_below_[k] * up;
        c.beam_seen[k] = eye_on_[k] * up_per_down * (on * c.beam_seen[k] + down * c.diffuse_seen[k]);
        c.beam_through[k] = on * c.beam_through[k] + down * c.diffuse_through[k];
        c.beam_up[k] = beam_back_[k] + t_up_[k] * up;
    }
}

void Under::lay(const Layer& layer) {
    if (std::isinf(layer.thickness_mm)) return lay_half_space(layer);
    std::copy(layer.absorption_per_mm.begin(), layer.absorption_per_mm.end(), absorption_.begin());
    std::copy(layer.scattering_per_mm.begin(), layer.scattering_per_mm.end(), scattering_.begin());
    const kernels::Isa isa = base::widest_isa();
    if (!rays_) {
        kernels::slab_over(isa, absorption_.data(), scattering_.data(), layer.anisotropy, layer.thickness_mm, count_,
                           channels_.diffuse_up, channels_.diffuse_through);
        return;
    }
    const double beam = 1 / cosine_in(layer.n, rays_->beam_sine), eye = 1 / cosine_in(layer.n, rays_->eye_sine);
    kernels::slab_over_seen(isa,
                            {absorption_.data(), scattering_.data(), layer.anisotropy, layer.thickness_mm, beam, eye},
                            count_, channels_);
}

void Under::lay_half_space(const Layer& layer) {
    std::fill(channel_values_.begin(), channel_values_.end(), 0.0);
    const double beam = rays_ ? 1 / cosine_in(layer.n, rays_->beam_sine) : 1;
    const double eye = rays_ ? 1 / cosine_in(layer.n, rays_->eye_sine) : 1;
    for (std::size_t k = 0; k < layer.absorption_per_mm.size(); ++k) {
        const double absorption = layer.absorption_per_mm[k],
                     reduced = (1 - layer.anisotropy) * layer.scattering_per_mm[k];
        const double extinction = absorption + reduced, s = std::sqrt(absorption / extinction),
                     albedo = reduced / extinction;
        const TwoFluxRates rates = two_flux_rates(s, albedo);
        channels_.diffuse_up[k] = rates.r_infinity;
        if (!rays_) continue;
        const double kappa = s * std::sqrt(rates.decay_over_s), p = rates.absorption + 2 * rates.scattering;
        const double q_beam = 0.5 * albedo * beam, q_eye = 0.5 * albedo * eye, w = 1 / (beam + eye);
        const double beam_up = (1 + rates.r_infinity) * q_beam / (kappa + beam);
        const double eye_up = (1 + rates.r_infinity) * q_eye / (kappa + eye);
        channels_.beam_up[k] = beam_up;
        channels_.diffuse_seen[k] = source_gain * eye_up;
        channels_.beam_seen[k] = source_gain * (eye_up * q_beam * (p + beam) / (kappa + beam) + beam_up * q_eye) * w +
                                 0.5 * q_beam * eye * w;
    }
}

}  // namespace foretone::optics
