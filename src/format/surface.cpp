// Three channels for 81 wavelengths.
//
// A renderer keeps red, green and blue of the board under D65 and multiplies them by those of its light. Under D65 that
// loses nothing. Under another light it does: the light's spectrum meets the wood's, not the product of two triples.
// The loss told is that of the most common renderer: the lamp enters as its linear sRGB triple, the picture is judged
// against the lamp's white.
//
// L(αa, αb) = π D G2/(4 cos 45°) with D the GGX density of the half vector (22.5° off the normal) and G2
// height-correlated Smith (Heitz 2014); the eye looks along the normal and shadows nothing.

#include "foretone/format/surface.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "foretone/color/adaptation.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/optics/gloss.hpp"
#include "foretone/grain/rows.hpp"
#include "foretone/spectral/text.hpp"

namespace foretone::format {
namespace {

Rgb linear(const color::Xyz& c) {
    Rgb out = color::xyz_to_srgb(c);
    for (double& v : out) v = color::srgb_decode(v);
    return out;
}

color::Xyz to_xyz(Rgb rgb) {
    for (double& v : rgb) v = color::srgb_encode(v);
    return color::srgb_to_xyz(rgb);
}

}  // namespace

Surface surface_of(const appearance::Board& board, const material::Wood& wood, const appearance::Solver& solver) {
    Surface out;
    out.reflectance = appearance::render(board, wood, optics::Geometry::g45_0, solver).total();
    if (board.coats.empty()) return out;
    out.covered = std::clamp(board.covered(wood), 0.0, 1.0);
    out.n = board.coats.back().n;
    out.alpha = board.under_liquid ? 0 : optics::roughness_from_gu60(board.sheen_gu60, out.n);
    for (std::size_t i = 0; i < out.film_twice.size(); ++i) {
        double depth = 0;
        for (const auto& coat : board.coats) depth += coat.absorption_per_mm[i] * coat.thickness_um / 1000;
        out.film_twice[i] = std::exp(-2 * depth);
    }
    return out;
}

FibreGlint fibre_glint(double share, double beta, double n) {
    if (!(share >= 0 && share <= 0.5))
        throw std::invalid_argument("format::fibre_glint: share (0 to 0.5) is " + spectral::text(share));
    if (!(beta > 0)) throw std::invalid_argument("format::fibre_glint: width (above 0) is " + spectral::text(beta));
    return {share, std::clamp(n * beta / std::numbers::sqrt2, 0.05, 1.0)};
}

Rgb linear_srgb(const color::Xyz& c, const color::Xyz& white) {
    return linear(color::adapt(c, white, color::srgb_white));
}

Rgb linear_srgb(const spectral::Spectrum& reflectance, const FitLights& lights) {
    return linear_srgb(color::xyz(reflectance, lights.d65), lights.d65.white);
}

Loss loss_of(const Rgb& shown, const spectral::Spectrum& reflectance, const FitLights& lights) {
    const auto lab = [&](const color::Weights& light) {
        return color::to_lab(color::xyz(reflectance, light), light.white);
    };
    Loss out;
    out.d65 = color::delta_e_00(lab(lights.d65), color::to_lab(to_xyz(shown), color::srgb_white));
    const Rgb lamp = linear(lights.a.white);
    const Rgb lit = {shown[0] * lamp[0], shown[1] * lamp[1], shown[2] * lamp[2]};
    out.a = color::delta_e_00(lab(lights.a), color::to_lab(to_xyz(lit), lights.a.white));
    return out;
}

BaseTexture base_texture(const LinearImage& board, const BaseSolver& solve) {
    // Where the code changes, in linear light: finding the code among these rounds the encoded value exactly.
    std::array<double, 255> above{};
    for (std::size_t k = 0; k < above.size(); ++k) above[k] = color::srgb_decode((static_cast<double>(k) + 0.5) / 255);
    BaseTexture out{{board.width, board.height, std::vector<std::uint8_t>(board.rgb.size())}, 0};
    std::atomic<std::size_t> clipped = 0;
    grain::for_rows(board.height, 0, [&](int first, int end) {
        const std::size_t row = 3 * static_cast<std::size_t>(board.width);
        std::size_t here = 0;
        for (std::size_t i = static_cast<std::size_t>(first) * row; i < static_cast<std::size_t>(end) * row; i += 3) {
            const Rgb base = solve({board.rgb[i], board.rgb[i + 1], board.rgb[i + 2]});
            bool outside = false;
            for (std::size_t c = 0; c < 3; ++c) {
                outside = outside || base[c] < 0 || base[c] > 1;
                out.image.rgb[i + c] =
                    static_cast<std::uint8_t>(std::upper_bound(above.begin(), above.end(), base[c]) - above.begin());
            }
            here += outside ? 1 : 0;
        }
        clipped += here;
    });
    out.clipped_share = static_cast<double>(clipped) / std::max(1.0, static_cast<double>(board.rgb.size() / 3));
    return out;
}

double lobe_45_0(double along, double across) {
    if (along <= 0 || across <= 0) return 0;
    constexpr int azimuths = 256;  // of a smooth periodic function
    const double half = std::numbers::pi / 8, light = std::numbers::pi / 4;
    double sum = 0;
    for (int i = 0; i < azimuths; ++i) {
        const double phi = 2 * std::numbers::pi * (i + 0.5) / azimuths, c = std::cos(phi), s = std::sin(phi);
        const double h = std::sin(half) * std::sin(half) * (c * c / (along * along) + s * s / (across * across)) +
                         std::cos(half) * std::cos(half);
        const double d = 1 / (std::numbers::pi * along * across * h * h);
        const double stretched = std::sin(light) * std::sin(light) * (along * along * c * c + across * across * s * s) +
                                 std::cos(light) * std::cos(light);
        // G2/(4 cos_l cos_v), written so that it needs no division by the cosines.
        sum += d * 0.5 / (std::cos(light) + std::sqrt(stretched));
    }
    return std::numbers::pi * sum / azimuths;
}

}  // namespace foretone::format
