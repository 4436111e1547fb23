// Pixels: out of the photograph's light, through the finish, into its light again, onto the screen.
//
// A row at a time. Colors are four floats wide, the fourth unused: the compiler's vectors hold them, and every machine
// does the same operations in the same order. Between two columns of blocks weights, rings and blotches go straight.

#include <algorithm>
#include <cmath>
#include <cstring>

#include "foretone/base/parallel.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/light/screen.hpp"
#include "foretone/photo/photo.hpp"
#include "photo_area.hpp"
#include "photo_curve.hpp"
#include "photo_figure.hpp"

namespace foretone::photo {
namespace {

using Color = std::array<float, 3>;
using Four [[gnu::vector_size(16)]] = float;

struct Matrix4 {
    Four x{}, y{}, z{};  // columns

    Matrix4() = default;
    explicit Matrix4(const std::array<Color, 3>& m)
        : x{m[0][0], m[1][0], m[2][0], 0}, y{m[0][1], m[1][1], m[2][1], 0}, z{m[0][2], m[1][2], m[2][2], 0} {}
    Four operator()(float a, float b, float c) const { return x * a + y * b + z * c; }
    Four operator()(const Four& v) const { return x * v[0] + y * v[1] + z * v[2]; }
};

// Kept between `most` and one over it.
constexpr Four most_off{x_limit, 1, z_limit, 1};
Four within(const Four& v, const Four& most) {
    const Four least = 1.0F / most, below = v < least ? least : v;
    return below > most ? most : below;
}

// The finished color at a place of the table, bilinear.
Four finished_at(const std::vector<std::array<float, 4>>& tones, float place, float ln_uptake) {
    const auto i = static_cast<std::size_t>(place);
    float across = (ln_uptake - ln_uptake_low) * (1 / ln_uptake_step);
    across = across > 0 ? (across < float(uptake_entries) - 1.01F ? across : float(uptake_entries) - 1.01F) : 0.0F;
    const auto j = static_cast<std::size_t>(across);
    const float f = place - float(i), g = across - float(j);
    const auto* at = &tones[i * uptake_entries + j];
    const auto load = [](const std::array<float, 4>& v) {
        Four out;
        std::memcpy(&out, v.data(), sizeof out);
        return out;
    };
    const Four low = load(at[0]) + (load(at[1]) - load(at[0])) * g,
               high = load(at[uptake_entries]) + (load(at[uptake_entries + 1]) - load(at[uptake_entries])) * g;
    return low + (high - low) * f;
}

struct RowSum {
    std::array<double, 3> color{};
    double pixels = 0, weight = 0, out = 0;
};

// The place of every column of pixels among the blocks.
struct BlockPlace {
    std::uint32_t first = 0;
    float share = 0;
};

}  // namespace

FinishedPhoto PhotoBoard::paint(const Finish* finish) const {
    const light::Screen screen(color::srgb_white);
    const int width = pixels_.width, height = pixels_.height;
    FinishedPhoto out;
    out.image.width = width;
    out.image.height = height;
    out.image.rgb.resize(pixels_.rgb.size());
    std::vector<RowSum> sums(
        static_cast<std::size_t>(height));  // added in order of rows: the same for any number of threads
    std::vector<BlockPlace> places(static_cast<std::size_t>(width));
    for (int x = 0; x < width; ++x) {
        const float p = std::clamp((float(x) + 0.5F) / float(block_) - 0.5F, 0.0F, float(columns_ - 1));
        const auto i = static_cast<std::uint32_t>(p);
        places[std::size_t(x)] = {i, p - float(i)};
    }
    const Matrix4 to_xyz(m_), to_cones(to_cones_), from_cones(from_cones_);
    const bool uneven = !field_.even();
    const auto shade = static_cast<float>(shade_);
    const FigureUptake& figure = *figure_;
    const bool marked = !area_->all();

    base::parallel_rows(height, static_cast<unsigned>(threads_), [&](int first, int end) {
        MaskRow row;
        std::vector<float> ring(std::size_t(columns_) + 1), blotch(ring.size()), area;
        for (int y = first; y < end; ++y) {
            const std::uint16_t* v = &pixels_.rgb[3 * std::size_t(y) * std::size_t(width)];
            std::uint8_t* to = &out.image.rgb[3 * std::size_t(y) * std::size_t(width)];
            RowSum sum;
            mask_row(y, row);
            figure_row(y, ring, blotch);
            if (marked) area_->row(y, width, area);
            const auto light = uneven ? field_.row((float(y) + 0.5F) / float(height)) : std::vector<Color>{};
            for (int x = 0; x < width; ++x, v += 3, to += 3) {
                Four c = to_xyz(v[0], v[1], v[2]);
                const auto [i, f] = places[std::size_t(x)];
                float w = 1;
                Four rest{};
                bool plain = true;
                const float in_area = marked ? area[std::size_t(x)] : 1.0F;
                const bool inside = row.sure[i] >= 1 && row.sure[i + 1] >= 1;
                if (!inside) {
                    w = 0;
                    if (row.maybe[i] > 0 || row.maybe[i + 1] > 0) {
                        const WoodShare part = share_of_wood(row, x, y, {c[0], c[1], c[2]});
                        w = part.wood;
                        rest = Four{part.rest[0], part.rest[1], part.rest[2], 0};
                        plain = w >= whole && rest[0] == c[0] && rest[1] == c[1] && rest[2] == c[2];
                    }
                }
                if (in_area <= 0) w = 0;
                if (w > 0) {
                    Four own = c;  // c = rest + w own
                    if (!inside) {
                        for (int k = 0; k < 3; ++k) rest[k] = std::min((1 - w) * rest[k], std::max(c[k], 0.0F));
                        own = (c - rest) / Four{w, w, w, 1};
                    }
                    const Four bare = own;
                    Four gain{1, 1, 1, 1};
                    if (uneven) {
                        const Color g = LightField::at_column(light, (float(x) + 0.5F) / float(width));
                        gain = Four{g[0], g[1], g[2], 1};
                        own = from_cones(to_cones(own) / gain);
                    }
                    const float place = curve_place(own[1]);
                    const Entry e = entry_at_place(finish ? finish->curve : own_, place);
                    plain = plain && e.above < 0.5F && in_area >= 1;  // at the edge the file's colors are mixed
                    if (finish) {
                        const float r = ring[i] + f * (ring[i + 1] - ring[i]);
                        const float b = blotch[i] + f * (blotch[i + 1] - blotch[i]);
                        const float u =
                            figure.ln_uptake_scaled(e.shade - shade, r, ring_scale_, detail_scale_) + b - ln_mean_;
                        const Four q = finished_at(finish->tones, place, u);
                        const Four ratio{own[0] / std::max(e.px, 1e-9F), 1, own[2] / std::max(e.pz, 1e-9F), 1};
                        own = q * power(within(ratio, most_off), Four{e.gx, 1, e.gz, 1});
                        for (std::size_t k = 0; k < 3 && plain; ++k) sum.color[k] += double(own[int(k)]);
                        if (uneven) own = from_cones(to_cones(own) * gain);
                        if (in_area < 1) own = bare + (own - bare) * in_area;
                        c = inside ? own : rest + own * w;
                    } else if (plain) {
                        for (std::size_t k = 0; k < 3; ++k) sum.color[k] += double(own[int(k)]);
                    }
                }
                light::Tally tally;
                const light::Code code = screen.code(100 * c[0], 100 * c[1], 100 * c[2], tally);
                std::copy(code.begin(), code.end(), to);
                w *= in_area;
                if (!(w > 0)) continue;
                sum.pixels += plain ? 1 : 0;
                sum.weight += double(w);
                sum.out += double(w) * double(tally.reduced);
            }
            sums[std::size_t(y)] = sum;
        }
    });
    RowSum all;
    for (const auto& s : sums) {
        for (std::size_t k = 0; k < 3; ++k) all.color[k] += s.color[k];
        all.pixels += s.pixels;
        all.weight += s.weight;
        all.out += s.out;
    }
    if (all.pixels > 0)
        out.mean = {100 * all.color[0] / all.pixels, 100 * all.color[1] / all.pixels, 100 * all.color[2] / all.pixels};
    if (all.weight > 0) out.out_of_gamut = all.out / all.weight;
    return out;
}

void PhotoBoard::figure_row(int y, std::vector<float>& ring, std::vector<float>& blotch) const {
    const float v = std::clamp((float(y) + 0.5F) / float(block_) - 0.5F, 0.0F, float(rows_ - 1));
    const int j = std::min(static_cast<int>(v), std::max(rows_ - 2, 0));
    const float f = v - float(j);
    const std::size_t down = rows_ > 1 ? std::size_t(columns_) : 0, at = std::size_t(j) * std::size_t(columns_);
    for (std::size_t i = 0; i < std::size_t(columns_); ++i) {
        ring[i] = ring_[at + i] + f * (ring_[at + down + i] - ring_[at + i]);
        blotch[i] = blotch_[at + i] + f * (blotch_[at + down + i] - blotch_[at + i]);
    }
    ring.back() = ring[ring.size() - 2];
    blotch.back() = blotch[blotch.size() - 2];
}

}  // namespace foretone::photo
