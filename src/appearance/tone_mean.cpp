// The mean reading over many spots. Interpolation is linear in what was solved: the mean needs only the mean weight of
// every solved spot. Spots are dealt onto a fine lattice first, linearly between its points, so that weights are worked
// out once a row and once a column; those of flats and of pores each onto their own.

#include <algorithm>

#include "foretone/appearance/spots.hpp"
#include "tone_maps.hpp"

namespace foretone::appearance {

ToneMean::ToneMean(const ToneSpectra& spectra)
    : spectra_(spectra),
      t_high_(spectra.place_of(spectra.range().uptake_high)),
      width_(spectra.range().shade_high - spectra.range().shade_low),
      share_((spectra.tells_pores() ? 2 : 1) * nx * nt, 0.0) {}

void ToneMean::add(std::span<const float> shade, std::span<const float> uptake, std::span<const float> pore) {
    if (shade.empty()) return;
    check_maps(shade, uptake, pore);
    const std::size_t sheets = spectra_.tells_pores() ? 2 : 1;
    const double low = spectra_.range().shade_low;
    for (std::size_t i = 0; i < shade.size(); ++i) {
        const double u = uptake.empty() ? 1.0 : static_cast<double>(uptake[i]);
        const double x = std::clamp((shade[i] - low) / width_, 0.0, 1.0) * (nx - 1);
        const double t = std::clamp(spectra_.place_of(u) / t_high_, 0.0, 1.0) * (nt - 1);
        const std::size_t ix = std::min(nx - 2, static_cast<std::size_t>(x)),
                          it = std::min(nt - 2, static_cast<std::size_t>(t));
        const double fx = x - static_cast<double>(ix), ft = t - static_cast<double>(it);
        const double in = pore.empty() ? spectra_.usual_pore() : static_cast<double>(pore[i]);
        for (std::size_t k = 0; k < sheets; ++k) {
            const double part = sheets == 1 ? 1 : k == 1 ? in : 1 - in;
            double* at = share_.data() + k * nx * nt + it * nx + ix;
            at[0] += part * (1 - fx) * (1 - ft);
            at[1] += part * fx * (1 - ft);
            at[nx] += part * (1 - fx) * ft;
            at[nx + 1] += part * fx * ft;
        }
    }
    count_ += shade.size();
}

SplitReflectance ToneMean::mean() const {
    const std::size_t sheets = spectra_.tells_pores() ? 2 : 1, shades = spectra_.shades().size(),
                      uptakes = spectra_.uptakes().size();
    std::vector<std::vector<double>> of_shade;
    for (std::size_t ix = 0; ix < nx; ++ix)
        of_shade.push_back(
            spectra_.shade_weights(spectra_.range().shade_low + width_ * static_cast<double>(ix) / (nx - 1)));
    std::vector<double> per_node(sheets * uptakes * shades, 0.0);
    for (std::size_t it = 0; it < nt; ++it) {
        const auto wu = spectra_.uptake_weights(spectra_.uptake_at(t_high_ * static_cast<double>(it) / (nt - 1)));
        for (std::size_t k = 0; k < sheets; ++k) {
            std::vector<double> row(shades, 0.0);
            for (std::size_t ix = 0; ix < nx; ++ix)
                for (std::size_t s = 0; s < shades; ++s) row[s] += share_[(k * nt + it) * nx + ix] * of_shade[ix][s];
            for (std::size_t u = 0; u < uptakes; ++u)
                for (std::size_t s = 0; s < shades; ++s) per_node[(k * uptakes + u) * shades + s] += wu[u] * row[s];
        }
    }
    SplitReflectance out;
    for (std::size_t k = 0; k < sheets; ++k)
        for (std::size_t u = 0; u < uptakes; ++u)
            for (std::size_t s = 0; s < shades; ++s)
                out.add(per_node[(k * uptakes + u) * shades + s] / static_cast<double>(count_),
                        spectra_.solved(s, u, k == 1));
    return out;
}

}  // namespace foretone::appearance
