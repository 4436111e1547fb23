// Pixels: out of the photograph's light, through the finish, into its light again, onto the screen.
//
// A row at a time: what is wood alone in loops (paint_loops.inc), what is an edge pixel by pixel. Colors are four
// floats wide, the fourth unused: the compiler's vectors hold them, and every machine does the same operations in the
// same order. Between two columns of blocks weights, rings, blotches and lamps go straight.

#include <algorithm>
#include <cmath>
#include <cstring>

#include "foretone/base/isa.hpp"
#include "foretone/base/large_pages.hpp"
#include "foretone/base/parallel.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/light/screen.hpp"
#include "foretone/photo/photo.hpp"
#include "photo_area.hpp"
#include "photo_curve.hpp"
#include "paint_loops.hpp"
#include "photo_figure.hpp"

namespace foretone::photo {
namespace {

using Color = std::array<float, 3>;

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

Four load(const std::array<float, 4>& v) {
    Four out;
    std::memcpy(&out, v.data(), sizeof out);
    return out;
}

// Between two entries.
Four between(const std::vector<std::array<float, 4>>& v, float place) {
    const auto i = static_cast<std::size_t>(place);
    return load(v[i]) + (load(v[i + 1]) - load(v[i])) * (place - float(i));
}

// The finished color at a place of the table, bilinear.
Four finished_at(const std::vector<std::array<float, 4>>& tones, float place, float ln_uptake) {
    const auto i = static_cast<std::size_t>(place);
    float across = (ln_uptake - ln_uptake_low) * (1 / ln_uptake_step);
    across = across > 0 ? (across < float(uptake_entries) - 1.01F ? across : float(uptake_entries) - 1.01F) : 0.0F;
    const auto j = static_cast<std::size_t>(across);
    const float f = place - float(i), g = across - float(j);
    const auto* at = &tones[i * uptake_entries + j];
    const Four low = load(at[0]) + (load(at[1]) - load(at[0])) * g,
               high = load(at[uptake_entries]) + (load(at[uptake_entries + 1]) - load(at[uptake_entries])) * g;
    return low + (high - low) * f;
}

std::array<float, 9> flat(const std::array<Color, 3>& m) {
    return {m[0][0], m[0][1], m[0][2], m[1][0], m[1][1], m[1][2], m[2][0], m[2][1], m[2][2]};
}

// Between two columns of blocks.
Four at_column(const std::vector<Four>& row, std::uint32_t column, float share) {
    return row[column] + (row[column + 1] - row[column]) * share;
}

}  // namespace

struct PhotoBoard::RowSum {
    std::array<double, 3> color{};
    double pixels = 0, weight = 0, out = 0;
};

// What all rows share.
struct PhotoBoard::Paint {
    Paint(const PhotoBoard& board, const Finish* with)
        : finish(with),
          screen(color::srgb_white),
          to_xyz(board.m_),
          to_cones(board.to_cones_),
          from_cones(board.from_cones_),
          uneven(!board.field_.even()),
          two(finish && !finish->second_tones.empty()),
          usual{board.second_usual_[0], board.second_usual_[1], board.second_usual_[2], 1} {
        const auto width = static_cast<std::size_t>(board.pixels_.width);
        for (std::size_t x = 0; x < width; ++x) {
            const float p = std::clamp((float(x) + 0.5F) / float(board.block_) - 0.5F, 0.0F, float(board.columns_ - 1));
            column.push_back(static_cast<std::uint32_t>(p));
            share.push_back(p - float(column.back()));
        }
        const Curve& curve = finish ? finish->curve : board.own_;
        for (const Entry& e : curve) curve8.insert(curve8.end(), {e.px, e.pz, e.gx, e.gz, e.shade, e.above, 0, 0});
        cells = board.figure_->cells();
        const auto shown = screen.lent();
        tables = {flat(board.m_),
                  flat(board.to_cones_),
                  flat(board.from_cones_),
                  shown.to_linear,
                  shown.codes,
                  shown.entries,
                  shown.edge,
                  curve8.data(),
                  finish ? finish->tones.front().data() : nullptr,
                  two ? finish->second_tones.front().data() : nullptr,
                  two ? finish->second_bare.front().data() : nullptr,
                  board.second_usual_,
                  cells.corners.data(),
                  cells.columns,
                  cells.ring_low,
                  cells.per_ring,
                  cells.ring_last,
                  cells.detail_low,
                  cells.per_detail,
                  cells.detail_last,
                  board.ring_scale_,
                  board.detail_scale_,
                  static_cast<float>(board.shade_),
                  board.ln_mean_};
    }
    Paint(const Paint&) = delete;
    Paint& operator=(const Paint&) = delete;

    const Finish* finish;
    light::Screen screen;
    Matrix4 to_xyz, to_cones, from_cones;
    bool uneven, two;
    Four usual;
    std::vector<std::uint32_t> column;  // of each column of pixels: the column of blocks to its left,
    std::vector<float> share;           // and how far it lies towards the next
    std::vector<float> curve8;
    FigureUptake::Cells cells;
    PaintTables tables;
};

// What one row has of its own.
struct PhotoBoard::PaintedRow {
    MaskRow mask;
    std::vector<Four> figure, lamps;  // at the columns of blocks: ring, blotch; β and the second lamp's weight
    std::vector<float> area;
};

namespace {

// Of a column of blocks and the next: nothing between them is wood, all of it is, or each pixel has to be looked at.
enum class Between : std::uint8_t { rest, wood, edge };

}  // namespace

FinishedPhoto PhotoBoard::paint(const Finish* finish) const {
    const int width = pixels_.width, height = pixels_.height;
    FinishedPhoto out;
    out.image.width = width;
    out.image.height = height;
    out.image.rgb.reserve(pixels_.rgb.size());
    base::prefer_large_pages(out.image.rgb.data(), pixels_.rgb.size());
    out.image.rgb.resize(pixels_.rgb.size());
    std::vector<RowSum> sums(
        static_cast<std::size_t>(height));  // added in order of rows: the same for any number of threads
    const Paint paint(*this, finish);
    const bool marked = !area_->all();
    const auto isa = base::widest_isa();

    base::parallel_rows(height, static_cast<unsigned>(threads_), [&](int first, int end) {
        PaintedRow row;
        Painted painted;
        std::vector<Between> kinds;  // between each column of blocks and the next
        std::array<std::uint8_t, paint_block> judge{};
        for (int y = first; y < end; ++y) {
            const std::uint16_t* v = &pixels_.rgb[3 * std::size_t(y) * std::size_t(width)];
            std::uint8_t* to = &out.image.rgb[3 * std::size_t(y) * std::size_t(width)];
            RowSum& sum = sums[std::size_t(y)];
            mask_row(y, row.mask);
            figure_row(y, row.figure);
            if (marked) area_->row(y, width, row.area);
            if (paint.uneven) lamps_at_columns(y, row.lamps);
            const PaintRow loops{v, paint.column.data(), paint.share.data(),
                                 reinterpret_cast<const float*>(row.figure.data()),
                                 paint.uneven ? reinterpret_cast<const float*>(row.lamps.data()) : nullptr};
            kinds.resize(std::size_t(columns_));
            for (std::size_t i = 0; i < kinds.size(); ++i) {
                const auto &maybe = row.mask.maybe, &sure = row.mask.sure;
                kinds[i] = maybe[i] <= 0 && maybe[i + 1] <= 0 ? Between::rest
                           : sure[i] >= 1 && sure[i + 1] >= 1 ? Between::wood
                                                              : Between::edge;
            }
            const auto kind_at = [&](int x) {
                const Between kind = kinds[paint.column[std::size_t(x)]];
                if (!marked || kind == Between::rest) return kind;
                const float in_area = row.area[std::size_t(x)];
                return in_area <= 0 ? Between::rest : in_area < 1 ? Between::edge : kind;
            };
            for (int x = 0; x < width;) {
                const Between kind = kind_at(x);
                int next = x + 1;
                while (next < width && next - x < paint_block && kind_at(next) == kind) ++next;
                if (kind == Between::edge) {
                    for (; x < next; ++x) paint_pixel(paint, row, x, y, sum, to + 3 * std::size_t(x));
                    continue;
                }
                const int count = next - x;
                const bool wood = kind == Between::wood;
                (wood ? paint_wood : paint_rest)(isa, paint.tables, loops, x, count, painted);
                std::uint64_t reduced = 0;
                if (encode_painted(isa, paint.tables, painted, count, to + 3 * std::size_t(x), judge.data())) {
                    light::Tally tally;
                    for (int k = 0; k < count; ++k) {
                        if (!judge[std::size_t(k)]) continue;
                        const auto p = std::size_t(k);
                        const light::Code code =
                            paint.screen.code(100 * painted.x[p], 100 * painted.y[p], 100 * painted.z[p], tally);
                        std::copy(code.begin(), code.end(), to + 3 * (std::size_t(x) + p));
                    }
                    reduced = tally.reduced;
                }
                if (wood) {
                    for (std::size_t k = 0; k < 3; ++k) sum.color[k] += painted.sum[k];
                    sum.pixels += painted.counted;
                    sum.weight += count;
                    sum.out += double(reduced);
                }
                x = next;
            }
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

// One pixel that may be wood in part. What is not at an edge goes through the same operations in paint_loops.inc.
void PhotoBoard::paint_pixel(const Paint& p, const PaintedRow& row, int x, int y, RowSum& sum, std::uint8_t* to) const {
    const auto at = std::size_t(x);
    const std::uint16_t* v = &pixels_.rgb[3 * (std::size_t(y) * std::size_t(pixels_.width) + at)];
    Four c = p.to_xyz(v[0], v[1], v[2]);
    const std::uint32_t i = p.column[at];
    float w = 1;
    Four rest{};
    bool plain = true;
    const float in_area = row.area.empty() ? 1.0F : row.area[at];
    const bool inside = row.mask.sure[i] >= 1 && row.mask.sure[i + 1] >= 1;
    if (!inside) {
        const WoodShare part = share_of_wood(row.mask, x, y, {c[0], c[1], c[2]});
        w = part.wood;
        rest = Four{part.rest[0], part.rest[1], part.rest[2], 0};
        plain = w >= whole && rest[0] == c[0] && rest[1] == c[1] && rest[2] == c[2];
    }
    if (w > 0) {
        Four own = c;  // c = rest + w own
        if (!inside) {
            for (int k = 0; k < 3; ++k) rest[k] = std::min((1 - w) * rest[k], std::max(c[k], 0.0F));
            own = (c - rest) / Four{w, w, w, 1};
        }
        const Four bare = own;
        Four bright{1, 1, 1, 1};  // β
        float second = 0, place = 0;
        if (p.uneven) {
            const Four lamp = at_column(row.lamps, i, p.share[at]);
            const Four cones = p.to_cones(own);
            bright = Four{lamp[0], lamp[1], lamp[2], 1};
            second = lamp[3];
            own = p.from_cones(cones / (bright * (1.0F + second * (p.usual - 1.0F))));
            if (p.two) {  // wood of this shade, not of the usual one
                place = curve_place(own[1]);
                own = p.from_cones(cones / (bright * (1.0F + second * (between(p.finish->second_bare, place) - 1.0F))));
            }
        }
        place = curve_place(own[1]);
        const Entry e = entry_at_place(p.finish ? p.finish->curve : own_, place);
        plain = plain && e.above < 0.5F && in_area >= 1;  // at the edge the file's colors are mixed
        if (p.finish) {
            const Four spot = at_column(row.figure, i, p.share[at]);
            const float u =
                figure_->ln_uptake_scaled(e.shade - static_cast<float>(shade_), spot[0], ring_scale_, detail_scale_) +
                spot[1] - ln_mean_;
            const Four q = finished_at(p.finish->tones, place, u);
            const Four ratio{own[0] / std::max(e.px, 1e-9F), 1, own[2] / std::max(e.pz, 1e-9F), 1};
            const Four apart = power(within(ratio, most_off), Four{e.gx, 1, e.gz, 1});
            own = q * apart;
            for (std::size_t k = 0; k < 3 && plain; ++k) sum.color[k] += double(own[int(k)]);
            if (p.two) {
                const Four mixed = q + second * (finished_at(p.finish->second_tones, place, u) - q);
                own = p.from_cones(p.to_cones(mixed * apart) * bright);
            } else if (p.uneven) {
                own = p.from_cones(p.to_cones(own) * bright * (1.0F + second * (p.usual - 1.0F)));
            }
            if (in_area < 1) own = bare + (own - bare) * in_area;
            c = inside ? own : rest + own * w;
        } else if (plain) {
            for (std::size_t k = 0; k < 3; ++k) sum.color[k] += double(own[int(k)]);
        }
    }
    light::Tally tally;
    const light::Code code = p.screen.code(100 * c[0], 100 * c[1], 100 * c[2], tally);
    std::copy(code.begin(), code.end(), to);
    w *= in_area;
    if (!(w > 0)) return;
    sum.pixels += plain ? 1 : 0;
    sum.weight += double(w);
    sum.out += double(w) * double(tally.reduced);
}

// Rings and blotches of a row at the columns of blocks.
void PhotoBoard::figure_row(int y, std::vector<Four>& at_columns) const {
    const float v = std::clamp((float(y) + 0.5F) / float(block_) - 0.5F, 0.0F, float(rows_ - 1));
    const int j = std::min(static_cast<int>(v), std::max(rows_ - 2, 0));
    const float f = v - float(j);
    const std::size_t down = rows_ > 1 ? std::size_t(columns_) : 0, at = std::size_t(j) * std::size_t(columns_);
    at_columns.resize(std::size_t(columns_) + 1);
    for (std::size_t i = 0; i < std::size_t(columns_); ++i)
        at_columns[i] = Four{ring_[at + i] + f * (ring_[at + down + i] - ring_[at + i]),
                             blotch_[at + i] + f * (blotch_[at + down + i] - blotch_[at + i]), 0, 0};
    at_columns.back() = at_columns[at_columns.size() - 2];
}

// The lamps of a row there.
void PhotoBoard::lamps_at_columns(int y, std::vector<Four>& at_columns) const {
    const auto nodes = lamps_row((float(y) + 0.5F) / float(pixels_.height));
    at_columns.resize(std::size_t(columns_) + 1);
    for (std::size_t i = 0; i < std::size_t(columns_); ++i) {
        const float u = (float(i) + 0.5F) * float(block_) / float(pixels_.width);
        at_columns[i] = between(nodes, std::min(u, 1.0F) * float(LightField::nodes - 1));
    }
    at_columns.back() = at_columns[at_columns.size() - 2];
}

}  // namespace foretone::photo
