// The stack below its top run, from the base upward: each slab or run is laid on the reflectance ρ (and transmittance τ) already
// there, which is the four-quantity addition with only the two quantities that are needed:
//   ρ' = r_above + t_down ρ t_up/(1 − r_below ρ),   τ' = t_down τ/(1 − r_below ρ).

#include "chain.hpp"

#include <algorithm>
#include <cmath>

#include "kernels.hpp"

namespace foretone::optics {

bool is_clear(const Layer& layer) {
    return std::all_of(layer.scattering_per_mm.begin(), layer.scattering_per_mm.end(), [](double s) { return s == 0; });
}

std::vector<double> Run::indices() const {
    std::vector<double> out;
    for (const MergedFilm& f : films) out.push_back(f.n);
    return out;
}

Chain make_chain(const Stack& stack) {
    Chain chain;
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

Under::Join::Join(const Run& run, std::size_t wavelengths)
    : nothing(run.films.empty() && run.n_above == run.n_below),
      films(run.n_above, run.indices(), run.n_below),
      depths(run, wavelengths) {}

Under::Under(const Stack& like, const Chain& chain)
    : open_(like.base.kind == Base::Kind::open),
      reflectance_(padded(like.wavelengths)),
      transmittance_(reflectance_.size()),
      absorption_(reflectance_.size()),
      scattering_(reflectance_.size()),
      r_above_(reflectance_.size()),
      r_below_(reflectance_.size()),
      t_up_(reflectance_.size()),
      scratch_(ClearFilms::scratch_size(reflectance_.size())) {
    joins_.reserve(chain.runs.size());
    for (const Run& run : chain.runs) joins_.emplace_back(run, like.wavelengths);
}

void Under::solve(const Stack& stack, const Chain& chain) {
    if (stack.base.kind == Base::Kind::lambertian) {
        std::copy(stack.base.reflectance.begin(), stack.base.reflectance.end(), reflectance_.begin());
    } else {
        std::fill(reflectance_.begin(), reflectance_.end(), 0.0);
    }
    std::fill(transmittance_.begin(), transmittance_.end(), open_ ? 1.0 : 0.0);
    for (std::size_t i = chain.slabs.size(); i-- > 0;) {
        if (!joins_[i].nothing) cross(joins_[i], chain.runs[i], stack);
        lay(stack.layers[chain.slabs[i]]);
    }
}

void Under::cross(Join& join, const Run& run, const Stack& stack) {
    const std::size_t count = reflectance_.size();
    join.films.diffuse(join.depths.update(run, stack), count, r_above_.data(), r_below_.data(), t_up_.data(), scratch_.data());
    const double down_per_up = run.n_below * run.n_below / (run.n_above * run.n_above);
    for (std::size_t k = 0; k < count; ++k) {
        const double rho = reflectance_[k], t_down = down_per_up * t_up_[k], free = 1 - r_below_[k] * rho;
        reflectance_[k] = r_above_[k] + t_down * t_up_[k] * rho / free;
        transmittance_[k] = t_down * transmittance_[k] / free;
    }
}

void Under::lay(const Layer& layer) {
    if (std::isinf(layer.thickness_mm)) {
        for (std::size_t k = 0; k < layer.absorption_per_mm.size(); ++k) {
            const KubelkaMunk km = from_transport(layer.absorption_per_mm[k], layer.scattering_per_mm[k], layer.anisotropy);
            const Panel half_space = slab(km.absorption_per_mm, km.scattering_per_mm, layer.thickness_mm);
            reflectance_[k] = half_space.r_above;
            transmittance_[k] = 0;
        }
        return;
    }
    std::copy(layer.absorption_per_mm.begin(), layer.absorption_per_mm.end(), absorption_.begin());
    std::copy(layer.scattering_per_mm.begin(), layer.scattering_per_mm.end(), scattering_.begin());
    kernels::slab_over(kernels::widest(), absorption_.data(), scattering_.data(), layer.anisotropy, layer.thickness_mm,
                       reflectance_.size(), reflectance_.data(), transmittance_.data());
}

}  // namespace foretone::optics
