// A factor exp(c) on K/S is a shift c of every shade: the mean reading at shifted shades is a mean over the table that
// is there already.

#include "foretone/appearance/mean_matched.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "foretone/appearance/render.hpp"
#include "foretone/appearance/spots.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/optics/kubelka_munk.hpp"
#include "tone_maps.hpp"

namespace foretone::appearance {
namespace {
using spectral::Spectrum;

constexpr std::size_t green = 35;  // 555 nm
constexpr std::array<float, 5> shifts = {-0.4F, -0.2F, 0, 0.2F, 0.4F};

// Some of the spots, for means at shifted shades and multiplied uptakes.
class SomeSpots {
public:
    SomeSpots(const ToneSpectra& spectra, std::size_t of)
        : spectra_(spectra), stride_(std::max<std::size_t>(1, of / 20000) | 1U) {}  // odd: no column of pixels twice

    void add(std::span<const float> shade, std::span<const float> uptake, std::span<const float> pore) {
        for (; next_ < shade.size(); next_ += stride_) {
            shade_.push_back(shade[next_]);
            uptake_.push_back(uptake.empty() ? 1.0F : uptake[next_]);
            if (!pore.empty()) pore_.push_back(pore[next_]);
        }
        next_ -= shade.size();
    }
    Spectrum mean(float shift, double times) const {
        auto shade = shade_, uptake = uptake_;
        for (float& s : shade) s += shift;
        for (float& u : uptake) u *= static_cast<float>(times);
        return spectra_.mean(shade, uptake, pore_).total();
    }

private:
    const ToneSpectra& spectra_;
    std::size_t stride_, next_ = 0;  // next_: from the beginning of the next piece
    std::vector<float> shade_, uptake_, pore_;
};

// Maps held whole are one piece.
class Held : public Spots {
public:
    Held(std::span<const float> shade, std::span<const float> uptake, std::span<const float> pore)
        : shade_(shade), uptake_(uptake), pore_(pore) {}
    void each(const Take& take) const override { take(shade_, uptake_, pore_); }

private:
    std::span<const float> shade_, uptake_, pore_;
};

// The factor on uptake at which the mean at 555 nm is `wanted`, by the secant method; 1 where the wood decides and not
// the dye.
double uptake_factor(const SomeSpots& some, const Spectrum& at_rest, double wanted) {
    const double by_wood = std::abs(some.mean(0.1F, 1)[green] - at_rest[green]);
    double a = 0, fa = at_rest[green] - wanted, b = 0.1, fb = some.mean(0, std::exp(b))[green] - wanted;
    if (std::abs(fb - fa) <= by_wood) return 1;
    for (int n = 0; n < 4 && std::abs(fb) > 1e-6 && fb != fa; ++n) {
        const double next = std::clamp(b - fb * (b - a) / (fb - fa), -0.5, 0.5);
        a = b;
        fa = fb;
        b = next;
        fb = some.mean(0, std::exp(b))[green] - wanted;
    }
    return std::exp(b);
}

MeanMatched matched(const material::Wood& spots, const Board& board, const ToneSpectra& spectra, const Spectrum& due,
                    const Spots& all, std::size_t count) {
    SomeSpots some(spectra, count);
    ToneMean mean(spectra);
    all.each([&](auto shade, auto uptake, auto pore) {
        mean.add(shade, uptake, pore);
        some.add(shade, uptake, pore);
    });
    // What these lack of the whole is taken to be the same after every move.
    Spectrum wanted = due;
    MeanMatched out{spots, board, 1, mean.mean().total()};
    const Spectrum at_rest = some.mean(0, 1);
    for (std::size_t i = 0; i < wanted.size(); ++i) wanted[i] += at_rest[i] - out.uneven[i];

    if (!board.zone.empty()) out.uptake_factor = uptake_factor(some, at_rest, wanted[green]);
    if (out.uptake_factor != 1) out.board = at_uptake(board, out.uptake_factor);
    std::array<Spectrum, shifts.size()> at;
    for (std::size_t k = 0; k < shifts.size(); ++k) at[k] = some.mean(shifts[k], out.uptake_factor);

    const auto body = material::body_reflectance(spots);
    const double k1 = spots.surface_k1.value, k2 = spots.surface_k2.value;
    for (std::size_t i = 0; i < body.size(); ++i) {
        std::size_t k = 0;  // the mean falls with the shift
        while (k + 2 < shifts.size() && at[k + 1][i] > wanted[i]) ++k;
        const double fall = at[k][i] - at[k + 1][i];
        const double share = fall > 1e-7 ? std::clamp((at[k][i] - wanted[i]) / fall, 0.0, 1.0) : 0.5;
        const double c = static_cast<double>(shifts[k]) + share * static_cast<double>(shifts[k + 1] - shifts[k]);
        out.spots.reflectance.values[i] =
            material::dry_surface(k1, k2, optics::r_infinity(optics::k_over_s(body[i]) * std::exp(c)));
    }
    return out;
}

MeanMatchedSpectra settled(const Board& board, const material::Wood& wood, const material::Wood& spots,
                           optics::Geometry geometry, const Solver& solver, const Spots& all, std::size_t count,
                           const ToneRange& range) {
    const auto due = render(board, wood, geometry, solver).total();
    const ToneSpectra first(board, spots, geometry, solver, range);
    const auto moved = matched(spots, board, first, due, all, count);
    return {due, moved.uneven, ToneSpectra(moved.board, moved.spots, geometry, solver, range)};
}

}  // namespace

MeanMatched mean_matched(const material::Wood& spots, const Board& board, const ToneSpectra& spectra,
                         const Spectrum& due, std::span<const float> shade, std::span<const float> uptake,
                         std::span<const float> pore) {
    check_maps(shade, uptake, pore);
    return matched(spots, board, spectra, due, Held(shade, uptake, pore), shade.size());
}

MeanMatchedSpectra mean_matched_spectra(const Board& board, const material::Wood& wood, const material::Wood& spots,
                                        optics::Geometry geometry, const Solver& solver, std::span<const float> shade,
                                        std::span<const float> uptake, std::span<const float> pore) {
    check_maps(shade, uptake, pore);
    return settled(board, wood, spots, geometry, solver, Held(shade, uptake, pore), shade.size(),
                   ToneRange::covering(shade, uptake));
}

MeanMatchedSpectra mean_matched_spectra(const Board& board, const material::Wood& wood, const material::Wood& spots,
                                        optics::Geometry geometry, const Solver& solver, const Spots& all,
                                        const SpotRange& range) {
    return settled(board, wood, spots, geometry, solver, all, range.count, range.covering());
}

}  // namespace foretone::appearance
