// Tristimulus values by the reference sum at 1 nm and by weights on a grid.
//
// Symbols: λ wavelength, nm · S relative power of the light · x̄ ȳ z̄ color-matching functions · R reflectance 0–1 ·
// X = k Σ R S x̄, Y = k Σ R S ȳ, Z = k Σ R S z̄ over λ = 360, 361 … 830, with k = 100/Σ S ȳ (CIE 15:2018).
// A grid weight is the same sum with R written as the Lagrange interpolation of its grid values (ASTM E2022), so both
// routes are one linear map evaluated in two orders. All sums run from short to long wavelengths in plain double: 471
// terms of one sign (the interpolation weights apart) lose about 1e-14 of the total.

#include "foretone/color/xyz.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"
#include "foretone/spectral/stencil.hpp"

namespace foretone::color {
namespace {

using spectral::Illuminant;
using spectral::Observer;
using spectral::Sampled;
using base::shortest;

constexpr int first_nm = 360;
constexpr int last_nm = 830;

void check_light(const Illuminant& light) {
    spectral::check(light.power);
    const auto& v = light.power.value;
    const auto low = std::min_element(v.begin(), v.end());
    if (*low < 0) {
        throw std::invalid_argument("light " + light.id + ": power[" + std::to_string(low - v.begin()) + "] is " +
                                    shortest(*low) + ", below 0");
    }
    if (*std::max_element(v.begin(), v.end()) <= 0)
        throw std::invalid_argument("light " + light.id + ": power is 0 everywhere");
}

void check_observer(const Observer& o) {
    for (const Sampled* s : {&o.x, &o.y, &o.z}) {
        spectral::check(*s);
        for (std::size_t i = 0; i < s->wavelength_nm.size(); ++i) {
            const double nm = s->wavelength_nm[i];
            if (nm != s->first_nm() + static_cast<double>(i) || nm != std::floor(nm)) {
                throw std::invalid_argument("observer " + o.id + ": wavelength_nm[" + std::to_string(i) + "] is " +
                                            shortest(nm) + ", not the next whole nanometre");
            }
        }
    }
}

// The response at a whole nanometre; nothing is seen outside the table.
double response(const Sampled& s, int nm) {
    const double i = static_cast<double>(nm) - s.first_nm();
    if (i < 0 || i >= static_cast<double>(s.value.size())) return 0;
    return s.value[static_cast<std::size_t>(i)];
}

// Calls `use(nm, Sx̄, Sȳ, Sz̄)` for every nanometre of the sum.
template <class Use>
void each_nanometre(const Illuminant& light, const Observer& observer, Use use) {
    for (int nm = first_nm; nm <= last_nm; ++nm) {
        const double s = spectral::linear_at(light.power, nm);
        use(static_cast<double>(nm), s * response(observer.x, nm), s * response(observer.y, nm),
            s * response(observer.z, nm));
    }
}

// k = 100/Σ S ȳ.
double scale(const Illuminant& light, const Observer& observer) {
    double sum = 0;
    each_nanometre(light, observer, [&](double, double, double y, double) { sum += y; });
    if (!(sum > 0))
        throw std::invalid_argument("light " + light.id + ": observer " + observer.id + " sees nothing of it");
    return 100.0 / sum;
}

}  // namespace

WeightTable weight_table(const Illuminant& light, const Observer& observer, double start_nm, double step_nm,
                         std::size_t count) {
    check_light(light);
    check_observer(observer);
    if (count < 2) throw std::invalid_argument("weight table: count is " + std::to_string(count) + ", below 2");
    if (!(step_nm > 0)) throw std::invalid_argument("weight table: step_nm is " + shortest(step_nm) + ", not above 0");

    const auto grid = Sampled::regular(start_nm, step_nm, std::vector<double>(count, 0.0)).wavelength_nm;
    const double k = scale(light, observer);
    WeightTable w{start_nm, step_nm, std::vector<double>(count), std::vector<double>(count),
                  std::vector<double>(count)};
    each_nanometre(light, observer, [&](double nm, double x, double y, double z) {
        const auto s = spectral::cubic_stencil(grid, nm);
        for (std::size_t j = 0; j < s.count; ++j) {
            w.x[s.first + j] += k * s.weight[j] * x;
            w.y[s.first + j] += k * s.weight[j] * y;
            w.z[s.first + j] += k * s.weight[j] * z;
        }
    });
    return w;
}

Weights make_weights(const Illuminant& light, const Observer& observer) {
    const auto t = weight_table(light, observer, spectral::grid_start_nm, spectral::grid_step_nm, spectral::grid_size);
    Weights w;
    std::copy(t.x.begin(), t.x.end(), w.x.begin());
    std::copy(t.y.begin(), t.y.end(), w.y.begin());
    std::copy(t.z.begin(), t.z.end(), w.z.begin());
    w.white = white_by_summation(light, observer);
    return w;
}

Xyz xyz(const spectral::Spectrum& reflectance, const Weights& w) {
    Xyz c;
    for (std::size_t i = 0; i < spectral::grid_size; ++i) {
        c.x += w.x[i] * reflectance[i];
        c.y += w.y[i] * reflectance[i];
        c.z += w.z[i] * reflectance[i];
    }
    return c;
}

Xyz xyz_by_summation(const Sampled& reflectance, const Illuminant& light, const Observer& observer) {
    spectral::check(reflectance);
    check_light(light);
    check_observer(observer);
    Xyz c;
    each_nanometre(light, observer, [&](double nm, double x, double y, double z) {
        const double r = spectral::cubic_at(reflectance, nm);
        c.x += r * x;
        c.y += r * y;
        c.z += r * z;
    });
    const double k = scale(light, observer);
    return {k * c.x, k * c.y, k * c.z};
}

Xyz white_by_summation(const Illuminant& light, const Observer& observer) {
    check_light(light);
    check_observer(observer);
    Xyz c;
    each_nanometre(light, observer, [&](double, double x, double, double z) {
        c.x += x;
        c.z += z;
    });
    const double k = scale(light, observer);
    return {k * c.x, 100.0, k * c.z};  // Σ S ȳ cancels against k: Y is 100 by definition, not by rounding
}

}  // namespace foretone::color
