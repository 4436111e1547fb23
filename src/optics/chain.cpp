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

namespace foretone::optics {

bool is_clear(const Layer& layer) {
    return std::all_of(layer.scattering_per_mm.begin(), layer.scattering_per_mm.end(), [](double s) { return s == 0; });
}

void Chain::make(const Stack& stack) {
    films_.clear(), slabs_.clear();
    runs_.assign(1, Run());
    double n = 1;
    for (std::size_t i = 0; i < stack.layers.size(); ++i) {
        const Layer& layer = stack.layers[i];
        Run& run = runs_.back();
        n = layer.n;
        if (!is_clear(layer)) {
            run.n_below = n;
            slabs_.push_back(i);
            runs_.push_back({n, n, films_.size(), 0});
        } else if (run.films > 0 && films_.back().n == n) {
            ++films_.back().count;
        } else {
            films_.push_back({n, i, 1});
            ++run.films;
        }
    }
    runs_.back().n_below = stack.base.kind == Base::Kind::open ? 1.0 : n;
}

std::span<const double> Chain::media(const Run& run) {
    media_.assign(1, run.n_above);
    for (const MergedFilm& f : films(run)) media_.push_back(f.n);
    media_.push_back(run.n_below);
    return media_;
}

const double* const* Depths::update(std::span<const MergedFilm> films, const Stack& stack) {
    const std::size_t wavelengths = stack.wavelengths, row_length = padded(wavelengths);
    values_.resize(films.size() * row_length);
    rows_.clear();
    for (std::size_t f = 0; f < films.size(); ++f) {
        double* row = values_.data() + f * row_length;
        const MergedFilm& film = films[f];
        for (std::size_t l = film.first; l < film.first + film.count; ++l) {
            const Layer& layer = stack.layers[l];
            const double* alpha = layer.absorption_per_mm.data();
            const double d = layer.thickness_mm;
            if (l == film.first) {
                for (std::size_t k = 0; k < wavelengths; ++k) row[k] = alpha[k] * d;
            } else {
                for (std::size_t k = 0; k < wavelengths; ++k) row[k] += alpha[k] * d;
            }
        }
        for (std::size_t k = 0; k < wavelengths; ++k) row[k] = std::min(row[k], deepest_film);
        std::fill(row + wavelengths, row + row_length, 0.0);
        rows_.push_back(row);
    }
    return rows_.data();
}

void Under::make_room(std::size_t wavelengths) {
    count_ = padded(wavelengths);
    for (auto* row :
         {&absorption_, &scattering_, &r_above_, &r_below_, &t_up_, &beam_back_, &beam_on_, &eye_back_, &eye_on_}) {
        row->resize(count_);
    }
    scratch_.resize(ClearFilms::scratch_size(count_));
    channel_values_.assign((rays_ ? 6 : 2) * count_, 0.0);
    double* next = channel_values_.data();
    const auto take = [&] { return std::exchange(next, next + count_); };
    channels_ = {};
    channels_.diffuse_up = take();
    channels_.diffuse_through = take();
    if (!rays_) return;
    for (double** channel :
         {&channels_.beam_up, &channels_.beam_through, &channels_.beam_seen, &channels_.diffuse_seen}) {
        *channel = take();
    }
}

/// A Lambertian base looks alike in all light and from everywhere; an open one lets all through.
void Under::start(const Base& base) {
    const auto set = [&](double* up, double* seen, double* through) {
        if (base.kind == Base::Kind::open) std::fill(through, through + count_, 1.0);
        if (base.kind != Base::Kind::lambertian) return;
        std::copy(base.reflectance.begin(), base.reflectance.end(), up);
        if (seen) std::copy(base.reflectance.begin(), base.reflectance.end(), seen);
    };
    set(channels_.diffuse_up, channels_.diffuse_seen, channels_.diffuse_through);
    if (rays_) set(channels_.beam_up, channels_.beam_seen, channels_.beam_through);
}

void Under::solve(const Stack& stack, Chain& chain, const std::optional<Rays>& rays, InterfaceShelf& shelf) {
    rays_ = rays;
    make_room(stack.wavelengths);
    start(stack.base);
    for (std::size_t i = chain.slabs(); i-- > 0;) {
        if (!chain.under(i).nothing()) cross(chain.under(i), chain, stack, shelf);
        lay(stack.layers[chain.slab(i)]);
    }
}

void Under::cross(const Run& run, Chain& chain, const Stack& stack, InterfaceShelf& shelf) {
    RayCosines cosines;
    if (rays_) cosines = {cosine_in(run.n_above, rays_->beam_sine), cosine_in(run.n_above, rays_->eye_sine)};
    const Interfaces& interfaces = shelf.of(chain.media(run), cosines);
    const double* const* depths = depths_.update(chain.films(run), stack);
    interfaces.films.diffuse(depths, count_, r_above_.data(), r_below_.data(), t_up_.data(), scratch_.data());
    if (rays_) cross_seen(run, interfaces, depths);
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
void Under::cross_seen(const Run& run, const Interfaces& interfaces, const double* const* depths) {
    interfaces.beam.solve(depths, count_, beam_back_.data(), beam_on_.data(), scratch_.data());
    interfaces.eye.solve(depths, count_, eye_back_.data(), eye_on_.data(), scratch_.data());
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

const double* Under::padded_row(const std::vector<double>& values, std::vector<double>& row) const {
    if (values.size() == row.size()) return values.data();
    std::fill(std::copy(values.begin(), values.end(), row.begin()), row.end(), 0.0);
    return row.data();
}

void Under::lay(const Layer& layer) {
    if (std::isinf(layer.thickness_mm)) return lay_half_space(layer);
    const double* absorption = padded_row(layer.absorption_per_mm, absorption_);
    const double* scattering = padded_row(layer.scattering_per_mm, scattering_);
    const kernels::Isa isa = base::widest_isa();
    if (!rays_) {
        kernels::slab_over(isa, absorption, scattering, layer.anisotropy, layer.thickness_mm, count_,
                           channels_.diffuse_up, channels_.diffuse_through);
        return;
    }
    const double beam = 1 / cosine_in(layer.n, rays_->beam_sine), eye = 1 / cosine_in(layer.n, rays_->eye_sine);
    kernels::slab_over_seen(isa, {absorption, scattering, layer.anisotropy, layer.thickness_mm, beam, eye}, count_,
                            channels_);
}

void Under::lay_half_space(const Layer& layer) {
    const double* absorption = padded_row(layer.absorption_per_mm, absorption_);
    const double* scattering = padded_row(layer.scattering_per_mm, scattering_);
    const double beam = rays_ ? 1 / cosine_in(layer.n, rays_->beam_sine) : 1;
    const double eye = rays_ ? 1 / cosine_in(layer.n, rays_->eye_sine) : 1;
    std::fill(channel_values_.begin(), channel_values_.end(), 0.0);
    kernels::half_space(base::widest_isa(), {absorption, scattering, layer.anisotropy, layer.thickness_mm, beam, eye},
                        count_, channels_);
}

}  // namespace foretone::optics
