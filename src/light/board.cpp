// A board's pixels.
//
//   seen = light · body(shade, uptake) · (1 + s (f/f₀ − 1)) + white · (c (shine P + sky) + (1 − c) light k1)
//
// c share under film · k1 the dry share's outer reflection · s share of the 45/0 reading that the fibres' highlight
// carries, f its value here and f₀ its mean over the instrument's azimuths: a board read on a turning table is as
// bright as predicted, and the same light only comes back in other directions. The highlight has the body's own color:
// it is light that has crossed the same coats. A broad light widens the lobe: variances add.
//
// The even view leaves the light and the mirror out, and takes the highlight against its own mean over the board:
//
//   seen = reading(shade, uptake) + body s (f/mean(f) − 1),   one direction of light and eye all over the board.
//
// Values above L* 96 (Y 90) roll towards white without change of hue: Y' = 90 + 10 (1 − exp(−(Y − 90)/10)).

#include "foretone/light/board.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <stdexcept>

#include "board_light.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/parallel.hpp"
#include "foretone/optics/gloss.hpp"
#include "foretone/light/rows.hpp"
#include "foretone/grain/noise.hpp"

namespace foretone::light {
namespace {

constexpr int node_pitch = 32;  // pixels between two columns worked out exactly

// A film's surface: it levels to slow waves, and sinks a little into pores that it does not fill.
constexpr double wave_mm = 9, wave_slope = 0.0012;  // common sight of brushed and sprayed films, not measured
constexpr double dent_mm = 0.010, dent_from = 0.9, fill_um = 60;  // depth per unit of shade beyond, under a thin film

// f/k of the lobe without Fresnel's losses, which the reading has too: exp(−ψ_h²/2β²)/(√(2π) β cos²(ψ_d/2)).
struct Lobe {
    float exponent = 0, level = 0;

    Lobe(double beta, double spread, double at_reading) {
        const double variance = beta * beta + spread * spread;
        exponent = static_cast<float>(-0.5 / variance);
        level = static_cast<float>(1 / (std::sqrt(2 * std::numbers::pi * variance) * at_reading));
    }
    // From the sines of ψ_i and ψ_r; arcsin to the fifth order, within 0.1° up to 35°.
    float at(float sine_in, float sine_out) const {
        const auto angle = [](float s) {
            const float q = s * s;
            return s * (1 + q * (0.16666667F + q * 0.075F));
        };
        const float in = angle(sine_in), out = angle(sine_out), half = in + out, difference = out - in;
        const float cosine = 1 - 0.125F * difference * difference;  // of half the difference, within 0.2 % up to 40°
        return level * std::exp(exponent * half * half) / (cosine * cosine);
    }
};

// Mean of the lobe over the azimuths of a 45/0 reading, fibres in the face.
double lobe_at_reading(double n, double beta) {
    constexpr int azimuths = 360;
    double sum = 0;
    for (int i = 0; i < azimuths; ++i) {
        const double phi = (i + 0.5) * 2 * std::numbers::pi / azimuths, s = std::sqrt(0.5);
        sum += optics::fibre_lobe(n, beta, {1, 0, 0}, {s * std::cos(phi), s * std::sin(phi), s}, {0, 0, 1}).over_k;
    }
    return sum / azimuths;
}

double width_of(const Fibres& fibres) { return fibres.beta_deg.value * std::numbers::pi / 180; }

float rolled(float y) { return y <= 90 ? y : 90 + 10 * (1 - std::exp(-(y - 90) / 10)); }

void check(const Lighting& lighting) {
    if (!(std::abs(lighting.tilt_deg) <= 60))
        throw std::invalid_argument("board: a light is swung by -60 to 60 degrees, not " +
                                    base::shortest(lighting.tilt_deg));
}

void check(const grain::Maps& m) {
    const auto pixels =
        static_cast<std::size_t>(std::max(0, m.width)) * static_cast<std::size_t>(std::max(0, m.height));
    const auto fits = [&](const std::vector<float>& map, bool may_miss) {
        return map.size() == pixels || (may_miss && map.empty());
    };
    if (pixels == 0 || !(m.mm_per_px > 0) || !fits(m.shade, false) || !fits(m.uptake, true) || !fits(m.rise, true) ||
        !fits(m.turn, true) || !fits(m.pore, true))
        throw std::invalid_argument("board: maps of " + std::to_string(m.width) + " by " + std::to_string(m.height) +
                                    " pixels do not have as many values each");
}

struct Sums {
    std::array<double, 3> xyz{};
    Tally tally;
};

}  // namespace

// Everything a row needs, made once.
class LitRows {
public:
    LitRows(int width, int height, double mm_per_px, const Finished& finished, const Lighting& lighting, int threads)
        : width_(width),
          height_(height),
          step_(mm_per_px),
          tones_(finished.tones),
          sheen_(finished.sheen),
          screen_(finished.tones.white()),
          flat_(lighting.view == View::flat),
          even_(lighting.view == View::even),
          room_(lighting, width * mm_per_px, height * mm_per_px, std::max(1.01, finished.sheen.n)),
          film_(width_of(finished.fibres), room_.spread(),
                lobe_at_reading(finished.sheen.n, width_of(finished.fibres))),
          dry_(2 * width_of(finished.fibres), room_.spread(), lobe_at_reading(1.5, 2 * width_of(finished.fibres))) {
        const double c = sheen_.covered;
        film_share_ = static_cast<float>(c * finished.fibres.share.value);
        dry_share_ = static_cast<float>((1 - c) * 0.2 * finished.fibres.share.value);
        const color::Xyz& w = tones_.white();
        white_ = {static_cast<float>(w.x), static_cast<float>(w.y), static_cast<float>(w.z)};
        middle_ = room_.at(0, 0);
        if (!flat_ && !even_) glare_.emplace(room_, std::max(0.004, sheen_.alpha), threads);
        dent_ = static_cast<float>(dent_mm * std::exp(-sheen_.film_um / fill_um) / (2 * mm_per_px));
    }

    /// The board's row y, of maps that begin with its row `first`.
    Sums row(const grain::Maps& maps, int first, int y, std::uint8_t* out) const {
        return flat_   ? flat_row(maps, y - first, out)
               : even_ ? even_row(maps, y - first, out)
                       : lit_row(maps, y - first, y, out);
    }

    bool even() const { return even_; }
    int height() const { return height_; }

    /// The lobes' means over some thousands of a whole board's pixels: what the even view goes by.
    void set_levels(const grain::Maps& maps) {
        const std::size_t stride = std::max<std::size_t>(1, maps.shade.size() / 8000) | 1U;
        double film = 0, dry = 0;
        std::size_t count = 0;
        for (std::size_t i = 0; i < maps.shade.size(); i += stride, ++count) {
            const auto [in, outward] = onto_fibre(maps, i);
            film += film_.at(in, outward);
            dry += dry_.at(in, outward);
        }
        film_level_ = static_cast<float>(film / static_cast<double>(count));
        dry_level_ = static_cast<float>(dry / static_cast<double>(count));
    }

private:
    // Sines of light and eye of the even view to the fibre at a pixel.
    std::array<float, 2> onto_fibre(const grain::Maps& maps, std::size_t i) const {
        const float turn = maps.turn.empty() ? 0 : maps.turn[i], rise = maps.rise.empty() ? 0 : maps.rise[i];
        const float flat = 1 - 0.5F * rise * rise, along = flat * (1 - 0.5F * turn * turn), across = flat * turn;
        const auto onto = [&](const float(&to)[3]) { return to[0] * along + to[1] * across + to[2] * rise; };
        return {onto(middle_.in), onto(middle_.out)};
    }

    Sums even_row(const grain::Maps& maps, int row, std::uint8_t* out) const {
        Sums sums;
        for (int x = 0; x < width_; ++x) {
            const std::size_t i = maps.at(x, row);
            const auto tone =
                tones_.at(maps.shade[i], maps.uptake.empty() ? 1.0F : maps.uptake[i], tones_.pore_at(maps.pore, i));
            const auto [in, outward] = onto_fibre(maps, i);
            const float fibres = 1 + film_share_ * (film_.at(in, outward) / film_level_ - 1) +
                                 dry_share_ * (dry_.at(in, outward) / dry_level_ - 1);
            std::array<float, 3> seen{};
            for (std::size_t c = 0; c < 3; ++c) seen[c] = tone.body[c] * fibres + tone.surface[c];
            put(seen, out + 3 * x, sums);
        }
        return sums;
    }

    Sums flat_row(const grain::Maps& maps, int row, std::uint8_t* out) const {
        Sums sums;
        for (int x = 0; x < width_; ++x) {
            const std::size_t i = maps.at(x, row);
            const auto tone =
                tones_.at(maps.shade[i], maps.uptake.empty() ? 1.0F : maps.uptake[i], tones_.pore_at(maps.pore, i));
            put({tone.body[0] + tone.surface[0], tone.body[1] + tone.surface[1], tone.body[2] + tone.surface[2]},
                out + 3 * x, sums);
        }
        return sums;
    }

    Sums lit_row(const grain::Maps& maps, int row, int y, std::uint8_t* out) const {
        const int width = width_;
        const double step = step_, down = (y + 0.5 - 0.5 * height_) * step;
        thread_local std::vector<float> wave_x, wave_y;
        wave_x.assign(static_cast<std::size_t>(width), 0.0F);
        wave_y.assign(static_cast<std::size_t>(width), 0.0F);
        if (sheen_.covered > 0) {
            waves_[0].add_row(wave_x.data(), width, 0.5, step, wave_slope, step, [&](double) { return down; });
            waves_[1].add_row(wave_y.data(), width, 0.5, step, wave_slope, step, [&](double) { return down; });
        }
        Sums sums;
        Aspect next = room_.at((0.5 - 0.5 * width) * step, down);
        for (int first = 0; first < width; first += node_pitch) {
            const Aspect here = next;
            next = room_.at((first + node_pitch + 0.5 - 0.5 * width) * step, down);
            const int end = std::min(width, first + node_pitch);
            for (int x = first; x < end; ++x) {
                const float t = static_cast<float>(x - first) / node_pitch;
                const auto between = [t](float a, float b) { return a + t * (b - a); };
                const std::size_t i = maps.at(x, row);
                const float light = between(here.light, next.light);

                // The body, and the fibres' share of it.
                const float turn = maps.turn.empty() ? 0 : maps.turn[i], rise = maps.rise.empty() ? 0 : maps.rise[i];
                const float flat = 1 - 0.5F * rise * rise, along = flat * (1 - 0.5F * turn * turn),
                            across = flat * turn;
                const float in = between(here.in[0], next.in[0]) * along + between(here.in[1], next.in[1]) * across +
                                 between(here.in[2], next.in[2]) * rise;
                const float outward = between(here.out[0], next.out[0]) * along +
                                      between(here.out[1], next.out[1]) * across +
                                      between(here.out[2], next.out[2]) * rise;
                float fibres = 1;
                if (film_share_ > 0) fibres += film_share_ * (film_.at(in, outward) - 1);
                if (dry_share_ > 0) fibres += dry_share_ * (dry_.at(in, outward) - 1);
                const auto body = tones_.body(maps.shade[i], maps.uptake.empty() ? 1.0F : maps.uptake[i],
                                              tones_.pore_at(maps.pore, i));
                const float times = light * fibres;

                // What the film's facets mirror, and the dry share's own scatter.
                const auto cover = static_cast<float>(sheen_.covered);
                float surface = (1 - cover) * static_cast<float>(sheen_.outer) * light;
                if (cover > 0) {
                    const float tilt_x = wave_x[static_cast<std::size_t>(x)] + dent(maps, x, row, 1, 0);
                    const float tilt_y = wave_y[static_cast<std::size_t>(x)] + dent(maps, x, row, 0, 1);
                    const float share = glare_->at(tilt_x - between(here.slope_x, next.slope_x),
                                                   tilt_y - between(here.slope_y, next.slope_y));
                    surface += cover * (between(here.shine, next.shine) * share + between(here.sky, next.sky));
                }
                std::array<float, 3> seen{};
                for (std::size_t c = 0; c < 3; ++c) seen[c] = body[c] * times + white_[c] * surface;
                put(seen, out + 3 * x, sums);
            }
        }
        return sums;
    }

    // Slope of the film over pores: how much darker than the wood the neighbours are, as depth.
    float dent(const grain::Maps& maps, int x, int y, int dx, int dy) const {
        if (dent_ == 0) return 0;
        const auto depth = [&](int u, int v) {
            u = std::clamp(u, 0, maps.width - 1);
            v = std::clamp(v, 0, maps.height - 1);
            return std::max(0.0F, maps.shade[maps.at(u, v)] - static_cast<float>(dent_from));
        };
        const float slope = dent_ * (depth(x + dx, y + dy) - depth(x - dx, y - dy));
        return slope / (1 + std::abs(slope) * 3);  // never steeper than a third
    }

    void put(std::array<float, 3> seen, std::uint8_t* out, Sums& sums) const {
        for (std::size_t c = 0; c < 3; ++c) sums.xyz[c] += seen[c];
        if (!flat_ && seen[1] > 90) {
            const float times = rolled(seen[1]) / seen[1];
            for (float& v : seen) v *= times;
        }
        const Code code = screen_.code(seen[0], seen[1], seen[2], sums.tally);
        std::copy(code.begin(), code.end(), out);
    }

    int width_, height_;
    double step_;
    const appearance::ToneTable& tones_;
    Sheen sheen_;
    Screen screen_;
    bool flat_, even_;
    Room room_;
    std::optional<Glare> glare_;  // where light is mirrored
    Lobe film_, dry_;
    Aspect middle_{};                       // of the even view, all over
    float film_level_ = 1, dry_level_ = 1;  // the lobes' means there
    std::array<grain::Noise, 2> waves_{grain::Noise{71, 2 * wave_mm, wave_mm}, grain::Noise{72, 2 * wave_mm, wave_mm}};
    std::array<float, 3> white_{};
    float film_share_ = 0, dry_share_ = 0, dent_ = 0;
};

std::string_view word(View view) {
    constexpr std::array<std::string_view, 5> words = {"flat", "window", "lamp", "passing", "even"};
    return words[static_cast<std::size_t>(view)];
}

Sheen sheen_of(const appearance::Board& board, const material::Wood& wood) {
    Sheen s;
    s.outer = wood.surface_k1.value;
    s.film_um = board.film_um;
    if (board.coats.empty()) return s;
    s.covered = board.covered(wood);
    s.n = board.coats.back().n;
    s.alpha = board.under_liquid ? 0 : optics::roughness_from_gu60(board.sheen_gu60, s.n);
    return s;
}

Fibres fibres_of(const material::Wood& wood) {
    const material::Grain grain = wood.grain ? *wood.grain : material::plain_grain();
    double share = 0.12;
    switch (grain.pores) {
        case material::Pores::ring:
            share = 0.07;
            break;
        case material::Pores::semi_ring:
            share = 0.11;
            break;
        case material::Pores::diffuse:
            share = 0.13;
            break;
        case material::Pores::resin:
        case material::Pores::none:
            share = 0.09;
            break;
    }
    share += 0.06 * std::min(1.0, grain.ribbon_deg.value / 8);
    const material::Provenance practice{
        material::Mark::practice,
        "common sight of finished boards turned in the light, by kind of pores and interlocked grain; "
        "measured boards of Marschner et al. 2005 differ among themselves by as much"};
    return {{share, share / 2, practice}, {11, 4, practice}};
}

double Lit::reduced_share() const {
    return static_cast<double>(tally.reduced) / (static_cast<double>(image.width) * image.height);
}
double Lit::white_share() const {
    return static_cast<double>(tally.white) / (static_cast<double>(image.width) * image.height);
}

BoardPicture::BoardPicture(int width, int height, double mm_per_px, const Finished& finished, const Lighting& lighting,
                           int threads)
    : width_(width), threads_(threads) {
    check(lighting);
    rows_ = std::make_unique<LitRows>(width, height, mm_per_px, finished, lighting, threads);
}

BoardPicture::~BoardPicture() = default;
BoardPicture::BoardPicture(BoardPicture&&) noexcept = default;

void BoardPicture::draw(const grain::Maps& maps, int first, int from, int end, std::span<std::uint8_t> rgb) {
    check(maps);
    const std::size_t row_bytes = 3 * static_cast<std::size_t>(width_);
    if (maps.width != width_ || from < first || end > first + maps.height ||
        rgb.size() != row_bytes * static_cast<std::size_t>(std::max(0, end - from)))
        throw std::invalid_argument("board: rows " + std::to_string(from) + " to " + std::to_string(end) +
                                    " are not those of the maps and the picture");
    if (rows_->even()) {
        if (maps.height != rows_->height())
            throw std::invalid_argument("board: the even view is drawn of a whole board's maps");
        if (pixels_ == 0) rows_->set_levels(maps);
    }
    std::vector<Sums> sums(static_cast<std::size_t>(end - from));
    base::parallel_rows(end - from, static_cast<unsigned>(threads_), [&](int low, int high) {
        for (int y = low; y < high; ++y)
            sums[static_cast<std::size_t>(y)] =
                rows_->row(maps, first, from + y, rgb.data() + row_bytes * static_cast<std::size_t>(y));
    });
    for (const auto& s : sums) {  // in the order of the rows, whatever the threads
        tally_.add(s.tally);
        for (std::size_t c = 0; c < 3; ++c) total_[c] += s.xyz[c];
    }
    pixels_ += static_cast<std::uint64_t>(width_) * static_cast<std::uint64_t>(end - from);
}

color::Xyz BoardPicture::mean() const {
    const auto pixels = static_cast<double>(pixels_);
    return {total_[0] / pixels, total_[1] / pixels, total_[2] / pixels};
}

Lit light_board(const grain::Maps& maps, const Finished& finished, const Lighting& lighting, int threads) {
    check(maps);
    BoardPicture picture(maps.width, maps.height, maps.mm_per_px, finished, lighting, threads);
    Lit lit{Image::filled(maps.width, maps.height, {0, 0, 0}), {}, {}};
    picture.draw(maps, 0, 0, maps.height, lit.image.rgb);
    lit.mean = picture.mean();
    lit.tally = picture.tally();
    return lit;
}

}  // namespace foretone::light
