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
#include "loops.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/parallel.hpp"
#include "foretone/optics/gloss.hpp"
#include "foretone/light/rows.hpp"
#include "foretone/grain/noise.hpp"

namespace foretone::light {
namespace {

constexpr int node_pitch = 32;  // pixels between two columns worked out exactly; blocks hold whole ones
static_assert(light_block % node_pitch == 0);

// A film's surface: it levels to slow waves, and sinks a little into pores that it does not fill.
constexpr double wave_mm = 9, wave_slope = 0.0012;  // common sight of brushed and sprayed films, not measured
constexpr double dent_mm = 0.010, dent_from = 0.9, fill_um = 60;  // depth per unit of shade beyond, under a thin film

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
          lent_(tones_.lent()),
          sheen_(finished.sheen),
          screen_(finished.tones.white()),
          shown_(screen_.lent()),
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

    // A block of pixels on its way from spots to codes.
    struct Block {
        int first[light_block];
        float along[light_block], across[light_block];
        float x[light_block], y[light_block], z[light_block], x2[light_block], y2[light_block], z2[light_block];
        float x3[light_block], y3[light_block], z3[light_block];
        float light[light_block], times[light_block], surface[light_block];
        int r[light_block], g[light_block], b[light_block], outside[light_block];

        Colors body() { return {x, y, z}; }
        Colors shine() { return {x2, y2, z2}; }
        Colors spare() { return {x3, y3, z3}; }
    };

    // A row's maps, with straight fibres and an even uptake where there are none, and what is seen beside its pixels.
    struct Row {
        const float *shade, *uptake, *turn, *rise, *pore;
        std::vector<float> ones, zeros, usual, beside, tilt_x, tilt_y;
    };

    void find(Row& r, const grain::Maps& maps, int row) const {
        const auto wide = static_cast<std::size_t>(width_);
        const std::size_t at = maps.at(0, row);
        const auto of = [&](const std::vector<float>& map, std::vector<float>& stead, float value) {
            if (!map.empty()) return map.data() + at;
            stead.assign(wide, value);
            return static_cast<const float*>(stead.data());
        };
        r.shade = maps.shade.data() + at;
        r.uptake = of(maps.uptake, r.ones, 1);
        r.turn = of(maps.turn, r.zeros, 0), r.rise = of(maps.rise, r.zeros, 0);
        r.pore = of(maps.pore, r.usual, lent_.usual_pore);
    }

    // What went into the wood at `count` pixels from x on; with what its surface reads, if `surface`.
    void read_body(Block& w, const Row& r, int x, int count, bool surface) const {
        const TonePlaces places{w.first, w.along, w.across};
        find_tones(isa_,
                   {lent_.shade_low, lent_.per_shade, lent_.per_uptake, lent_.half_way, lent_.shades, lent_.uptakes},
                   r.shade + x, r.uptake + x, places, count);
        const auto read = [&](const float* flats, const float* pores, const Colors& to) {
            read_tones(isa_, flats, lent_.shades, places, to, count);
            if (!pores) return;
            read_tones(isa_, pores, lent_.shades, places, w.spare(), count);
            move_colors(isa_, to, w.spare(), r.pore + x, count);
        };
        read(lent_.body, lent_.pore_body, w.body());
        if (surface) read(lent_.surface, lent_.pore_surface, w.shine());
    }

    FibreLobes lobes() const {
        return {film_share_, film_.exponent, film_.level, film_level_,
                dry_share_,  dry_.exponent,  dry_.level,  dry_level_};
    }

    Sums even_row(const grain::Maps& maps, int row, std::uint8_t* out) const {
        thread_local Row r;
        thread_local Block w;
        Sum sum;
        find(r, maps, row);
        Aspect all_over = middle_;
        all_over.light = 1;
        for (int x = 0; x < width_; x += light_block) {
            const int count = std::min(light_block, width_ - x);
            read_body(w, r, x, count, true);
            light_fibres(isa_, all_over, all_over, 0, lobes(), r.turn + x, r.rise + x, w.light, w.times, count);
            put_reading(isa_, w.body(), w.times, w.shine(), count);
            put(w, count, out + 3 * x, sum);
        }
        return sum.whole();
    }

    Sums flat_row(const grain::Maps& maps, int row, std::uint8_t* out) const {
        thread_local Row r;
        thread_local Block w;
        Sum sum;
        find(r, maps, row);
        std::fill(w.times, w.times + light_block, 1.0F);
        for (int x = 0; x < width_; x += light_block) {
            const int count = std::min(light_block, width_ - x);
            read_body(w, r, x, count, true);
            put_reading(isa_, w.body(), w.times, w.shine(), count);
            put(w, count, out + 3 * x, sum);
        }
        return sum.whole();
    }

    Sums lit_row(const grain::Maps& maps, int row, int y, std::uint8_t* out) const {
        thread_local Row r;
        thread_local Block w;
        Sum sum;
        find(r, maps, row);
        const double down = (y + 0.5 - 0.5 * height_) * step_;
        if (sheen_.covered > 0) tilts(r, maps, row, down);
        const auto cover = static_cast<float>(sheen_.covered);
        const float scattered = (1 - cover) * static_cast<float>(sheen_.outer);
        Aspect next = room_.at((0.5 - 0.5 * width_) * step_, down);
        for (int x = 0; x < width_; x += light_block) {
            const int count = std::min(light_block, width_ - x);
            read_body(w, r, x, count, false);
            for (int from = 0; from < count; from += node_pitch) {
                const int some = std::min(node_pitch, count - from), at = x + from;
                const Aspect here = next;
                next = room_.at((at + node_pitch + 0.5 - 0.5 * width_) * step_, down);
                light_fibres(isa_, here, next, 1.0F / node_pitch, lobes(), r.turn + at, r.rise + at, w.light + from,
                             w.times + from, some);
                // The dry share's own scatter, and what the film's facets mirror.
                for (int i = from; i < from + some; ++i) w.surface[i] = scattered * w.light[i];
                if (cover > 0)
                    mirror_light(isa_, here, next, 1.0F / node_pitch, glare_table(), cover, r.tilt_x.data() + at,
                                 r.tilt_y.data() + at, w.surface + from, some);
            }
            put_surface(isa_, w.body(), w.times, white_.data(), w.surface, count);
            put(w, count, out + 3 * x, sum);
        }
        return sum.whole();
    }

    GlareTable glare_table() const {
        constexpr auto last = static_cast<float>(Glare::entries);
        return {glare_->table(), static_cast<int>(Glare::entries), Glare::reach, (last - 1) / (2 * Glare::reach),
                last - 1.001F};
    }

    // Slopes of the film: slow waves, and over pores how much darker than the wood the neighbours are, as depth.
    void tilts(Row& r, const grain::Maps& maps, int row, double down) const {
        const auto wide = static_cast<std::size_t>(width_);
        r.tilt_x.assign(wide, 0.0F), r.tilt_y.assign(wide, 0.0F);
        waves_[0].add_row(r.tilt_x.data(), width_, 0.5, step_, wave_slope, step_, [&](double) { return down; });
        waves_[1].add_row(r.tilt_y.data(), width_, 0.5, step_, wave_slope, step_, [&](double) { return down; });
        if (dent_ == 0) return;
        r.beside.resize(wide + 2);
        std::copy(r.shade, r.shade + wide, r.beside.begin() + 1);
        r.beside.front() = r.shade[0], r.beside.back() = r.shade[wide - 1];
        const auto from = static_cast<float>(dent_from);
        const float* before = maps.shade.data() + maps.at(0, std::max(0, row - 1));
        const float* after = maps.shade.data() + maps.at(0, std::min(maps.height - 1, row + 1));
        tilt_over_pores(isa_, r.tilt_x.data(), r.beside.data(), r.beside.data() + 2, dent_, from, width_);
        tilt_over_pores(isa_, r.tilt_y.data(), before, after, dent_, from, width_);
    }

    // Sums of a row, lane by lane: the order of `add_sums`.
    struct Sum {
        double lanes[3][sum_lanes] = {};
        Tally tally;

        Sums whole() const {
            Sums out;
            for (std::size_t c = 0; c < 3; ++c)
                for (const double lane : lanes[c]) out.xyz[c] += lane;
            out.tally = tally;
            return out;
        }
    };

    // The block's colors as codes.
    void put(Block& w, int count, std::uint8_t* out, Sum& sum) const {
        const Colors seen = w.body();
        add_sums(isa_, sum.lanes[0], seen.x, count);
        add_sums(isa_, sum.lanes[1], seen.y, count);
        add_sums(isa_, sum.lanes[2], seen.z, count);
        if (!flat_) roll_bright(isa_, seen, count);
        find_codes(isa_, shown_.to_linear.data(), shown_.edge, static_cast<float>(shown_.entries - 1), seen,
                   {w.r, w.g, w.b, w.outside}, count);
        for (int i = 0; i < count; ++i) {
            out[3 * i] = shown_.codes[w.r[i]], out[3 * i + 1] = shown_.codes[w.g[i]];
            out[3 * i + 2] = shown_.codes[w.b[i]];
        }
        for (int i = 0; i < count; ++i) {
            if (!w.outside[i]) continue;
            const Code code = screen_.code(seen.x[i], seen.y[i], seen.z[i], sum.tally);
            std::copy(code.begin(), code.end(), out + 3 * i);
        }
    }

    const base::Isa isa_ = base::widest_isa();
    int width_, height_;
    double step_;
    const appearance::ToneTable& tones_;
    const appearance::ToneTable::Lent lent_;
    Sheen sheen_;
    Screen screen_;
    const Screen::Lent shown_;
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
