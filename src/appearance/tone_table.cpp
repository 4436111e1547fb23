// Colors over shade and uptake for pixels: the spectra's XYZ spread onto a fine regular lattice in shade and in
// ToneSpectra's axis of uptake.

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "foretone/appearance/tones.hpp"
#include "tone_maps.hpp"

namespace foretone::appearance {
namespace {

using Rows = std::vector<std::vector<double>>;  // weights of the solved spots at each entry

std::array<double, 3> parts(const color::Xyz& c) { return {c.x, c.y, c.z}; }

// entry(shade, uptake) = Σ over solved spots, one axis after the other.
std::vector<std::array<float, 4>> spread(const Rows& shade, const Rows& uptake,
                                         const std::vector<std::array<double, 3>>& solved) {
    const std::size_t ns = shade.front().size(), nu = uptake.front().size();
    std::vector<std::array<double, 3>> along(shade.size() * nu);
    for (std::size_t u = 0; u < nu; ++u)
        for (std::size_t x = 0; x < shade.size(); ++x) {
            auto& sum = along[u * shade.size() + x];
            for (std::size_t s = 0; s < ns; ++s)
                for (std::size_t c = 0; c < 3; ++c) sum[c] += shade[x][s] * solved[u * ns + s][c];
        }
    std::vector<std::array<float, 4>> out(shade.size() * uptake.size());
    for (std::size_t v = 0; v < uptake.size(); ++v)
        for (std::size_t x = 0; x < shade.size(); ++x)
            for (std::size_t c = 0; c < 3; ++c) {
                double sum = 0;
                for (std::size_t u = 0; u < nu; ++u) sum += uptake[v][u] * along[u * shade.size() + x][c];
                out[v * shade.size() + x][c] = static_cast<float>(sum);
            }
    return out;
}

}  // namespace

ToneTable::ToneTable(const ToneSpectra& spectra, const color::Weights& light)
    : range_(spectra.range()), white_(light.white) {
    const double width = range_.shade_high - range_.shade_low, t_high = spectra.place_of(range_.uptake_high);
    half_way_ = static_cast<float>(spectra.half_way());
    shade_scale_ = static_cast<float>((shade_entries - 1) / width);
    uptake_scale_ = static_cast<float>((uptake_entries - 1) / t_high);
    Rows shade(shade_entries), uptake(uptake_entries);
    for (std::size_t x = 0; x < shade_entries; ++x)
        shade[x] = spectra.shade_weights(range_.shade_low + width * static_cast<double>(x) / (shade_entries - 1));
    for (std::size_t t = 0; t < uptake_entries; ++t)
        uptake[t] = spectra.uptake_weights(spectra.uptake_at(t_high * static_cast<double>(t) / (uptake_entries - 1)));
    usual_pore_ = static_cast<float>(spectra.usual_pore());
    for (const bool pore : {false, true}) {
        if (pore && !spectra.tells_pores()) break;
        pores_ = body_.size();
        std::vector<std::array<double, 3>> body, surface;
        for (std::size_t u = 0; u < spectra.uptakes().size(); ++u)
            for (std::size_t s = 0; s < spectra.shades().size(); ++s) {
                body.push_back(parts(color::xyz(spectra.solved(s, u, pore).body, light)));
                surface.push_back(parts(color::xyz(spectra.solved(s, u, pore).surface, light)));
            }
        const auto add = [&](std::vector<Entry>& to, const auto& solved) {
            const auto entries = spread(shade, uptake, solved);
            to.insert(to.end(), entries.begin(), entries.end());
        };
        add(body_, body);
        add(surface_, surface);
    }
}

ToneTable::Place ToneTable::place(float shade, float uptake) const {
    const float x = std::clamp((shade - static_cast<float>(range_.shade_low)) * shade_scale_, 0.0F,
                               static_cast<float>(shade_entries - 1));
    const float v = std::sqrt(std::max(0.0F, uptake));
    const float t = std::min(v / (v + half_way_) * uptake_scale_, static_cast<float>(uptake_entries - 1));
    const auto ix = std::min(static_cast<std::size_t>(x), shade_entries - 2);
    const auto it = std::min(static_cast<std::size_t>(t), uptake_entries - 2);
    return {it * shade_entries + ix, x - static_cast<float>(ix), t - static_cast<float>(it)};
}

ToneTable::Lent ToneTable::lent() const {
    const auto pores = [&](const std::vector<Entry>& e) { return pores_ == 0 ? nullptr : e[pores_].data(); };
    return {body_.front().data(),
            surface_.front().data(),
            pores(body_),
            pores(surface_),
            static_cast<int>(shade_entries),
            static_cast<int>(uptake_entries),
            static_cast<float>(range_.shade_low),
            shade_scale_,
            uptake_scale_,
            half_way_,
            usual_pore_};
}

color::Xyz ToneTable::reading(double shade, double uptake, double pore) const {
    const Tone t = at(static_cast<float>(shade), static_cast<float>(uptake), static_cast<float>(pore));
    return {double{t.body[0]} + t.surface[0], double{t.body[1]} + t.surface[1], double{t.body[2]} + t.surface[2]};
}

color::Xyz ToneTable::mean(std::span<const float> shade, std::span<const float> uptake,
                           std::span<const float> pore) const {
    check_maps(shade, uptake, pore);
    double sum[3] = {0, 0, 0};
    for (std::size_t i = 0; i < shade.size(); ++i) {
        const Tone t = at(shade[i], uptake.empty() ? 1.0F : uptake[i], pore_at(pore, i));
        for (std::size_t c = 0; c < 3; ++c) sum[c] += double{t.body[c]} + t.surface[c];
    }
    const double n = static_cast<double>(shade.size());
    return {sum[0] / n, sum[1] / n, sum[2] / n};
}

}  // namespace foretone::appearance
