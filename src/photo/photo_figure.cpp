// Uptake from figure.
//
// A bare board shows how dark each spot is; what it takes up hangs on what the spot is: early wood, late wood, a pore,
// a ray. They are told apart by scale and direction. Symbols: s a pixel's shade · r the mean shade of its cell and the
// cells along the grain on either side (reach_mm): the rings · d = s − r, what stands out of them: pores, fibres, rays.
//   u(r, d) = Q(F(E[u | r, d]))
// E is learned on a board drawn from the wood's own figures at the photograph's scale, in a table of cells of (r, d);
// a mean is narrower than what it is the mean of, so F, the rank of that mean among all of them, and Q, the drawn
// board's uptake of that rank, give it the drawn board's spread (matching of distributions). Without this the
// difference of early and late wood under dye came out a tenth too small. Both r and d are scaled by their spreads, so
// that a board with fainter rings than usual keeps them as rings.
//
// Blotches show on no bare board. They are drawn as the wood has them, from the same figures, so that a dyed picture
// is as uneven as such wood is: not where this board's will lie.

#include "photo_figure.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/base/parallel.hpp"
#include "foretone/grain/blotch.hpp"
#include "foretone/grain/grain.hpp"

namespace foretone::photo {
namespace {

constexpr double reach_mm = 4, most_reach = 40;
constexpr int drawn_along = 160, drawn_across = 480;  // pixels of the board that is learned from
constexpr std::uint64_t drawn_seed = 77, blotch_seed = 5001;
constexpr double ring_span = 3.5, detail_low_spans = 4, detail_high_spans = 12;
constexpr double least_mm = 0.02, most_mm = 2;
constexpr int fewest = 20;  // pixels behind an entry of the table

float quantile(std::vector<float>& v, double share) {
    const auto at = v.begin() + std::ptrdiff_t(share * double(v.size() - 1));
    std::nth_element(v.begin(), at, v.end());
    return *at;
}

}  // namespace

double spread_of(std::vector<float> values) {
    if (values.size() < 10) return 1;
    const float high = quantile(values, 0.9), low = quantile(values, 0.1);
    return std::max(1e-3, 0.5 * double(high - low));
}

std::array<double, 2> grain_direction(const ShadeGrid& g, std::uint8_t only) {
    double xx = 0, yy = 0, xy = 0;
    const auto in = [&](std::size_t k) { return only == 0 ? g.wood[k] != 0 : g.wood[k] == only; };
    for (int y = 1; y + 1 < g.rows; ++y) {
        for (int x = 1; x + 1 < g.columns; ++x) {
            const auto k = g.at(x, y);
            const auto up = k - std::size_t(g.columns), down = k + std::size_t(g.columns);
            if (!(in(k) && in(k - 1) && in(k + 1) && in(up) && in(down))) continue;
            const double dx = double(g.shade[k + 1] - g.shade[k - 1]), dy = double(g.shade[down] - g.shade[up]);
            xx += dx * dx, yy += dy * dy, xy += dx * dy;
        }
    }
    if (!(xx + yy > 0)) return {1, 0};
    const double across = 0.5 * std::atan2(2 * xy, xx - yy);
    return {-std::sin(across), std::cos(across)};
}

std::vector<float> along_grain(const ShadeGrid& g, const std::array<double, 2>& direction, double reach,
                               std::uint8_t only, int threads) {
    std::vector<float> out(g.shade.size());
    const int taps = std::max(1, static_cast<int>(std::lround(std::min(reach, 6.0))));
    const double step = std::max(1.0, reach / taps);
    struct Tap {
        int dx, dy;
        float weight;
    };
    std::vector<Tap> list;
    for (int k = -taps; k <= taps; ++k)
        list.push_back({static_cast<int>(std::lround(k * step * direction[0])),
                        static_cast<int>(std::lround(k * step * direction[1])),
                        1 - std::abs(float(k)) / float(taps + 1)});
    base::parallel_rows(g.rows, static_cast<unsigned>(threads), [&](int first, int end) {
        for (int y = first; y < end; ++y) {
            for (int x = 0; x < g.columns; ++x) {
                const auto k = g.at(x, y);
                if (only == 0 ? g.wood[k] == 0 : g.wood[k] != only) continue;
                float sum = 0, n = 0;
                for (const auto& t : list) {
                    const int u = x + t.dx, v = y + t.dy;
                    if (u < 0 || v < 0 || u >= g.columns || v >= g.rows) continue;
                    const auto i = g.at(u, v);
                    if (g.wood[i] != g.wood[k]) continue;
                    sum += t.weight * g.shade[i];
                    n += t.weight;
                }
                out[k] = sum / n;
            }
        }
    });
    return out;
}

FigureUptake::FigureUptake(const material::Wood& wood, double mm_per_px, int block,
                           const std::function<double(double)>& light_of_shade,
                           const std::function<double(double)>& shade_of_light) {
    const double mm = std::clamp(mm_per_px, least_mm, most_mm);
    reach_ = std::clamp(reach_mm / (mm * block), 1.0, most_reach);
    material::Wood even = wood;
    if (!even.grain) even.grain = material::plain_grain();
    even.grain->blotch.value = 0;
    const int width = std::max(drawn_along, 24 * block), height = std::max(drawn_across, 48 * block);
    const auto maps = grain::grain(even, grain::Cut::flat, width, height, mm, drawn_seed, 1);

    ShadeGrid grid{width / block, height / block, {}, {}};
    grid.wood.assign(std::size_t(grid.columns) * std::size_t(grid.rows), 1);
    std::vector<float> middle(maps.shade.begin(), maps.shade.end());
    const float centre = quantile(middle, 0.5);
    for (int j = 0; j < grid.rows; ++j) {
        for (int i = 0; i < grid.columns; ++i) {
            double light = 0;
            for (int y = 0; y < block; ++y)
                for (int x = 0; x < block; ++x)
                    light += light_of_shade(double(maps.shade[maps.at(i * block + x, j * block + y)]));
            grid.shade.push_back(static_cast<float>(shade_of_light(light / (block * block))) - centre);
        }
    }
    const auto ring = along_grain(grid, {1, 0}, reach_);
    ring_spread_ = spread_of(ring);
    struct Spot {
        float ring, detail, uptake;
    };
    std::vector<Spot> spots;
    std::vector<float> detail;
    for (int y = 0; y < grid.rows * block; ++y) {
        for (int x = 0; x < grid.columns * block; ++x) {
            const float u = std::clamp((float(x) + 0.5F) / float(block) - 0.5F, 0.0F, float(grid.columns) - 1.001F);
            const float v = std::clamp((float(y) + 0.5F) / float(block) - 0.5F, 0.0F, float(grid.rows) - 1.001F);
            const int i = static_cast<int>(u), j = static_cast<int>(v);
            const float f = u - float(i), e = v - float(j);
            const auto k = grid.at(i, j), below = k + std::size_t(grid.columns);
            const float upper = ring[k] + f * (ring[k + 1] - ring[k]),
                        lower = ring[below] + f * (ring[below + 1] - ring[below]);
            const float r = upper + e * (lower - upper);
            const auto at = maps.at(x, y);
            spots.push_back({r, maps.shade[at] - centre - r, maps.uptake[at]});
            detail.push_back(spots.back().detail);
        }
    }
    detail_spread_ = spread_of(detail);
    ring_low_ = static_cast<float>(-ring_span * ring_spread_);
    ring_scale_ = static_cast<float>(double(rings - 1) / (2 * ring_span * ring_spread_));
    detail_low_ = static_cast<float>(-detail_low_spans * detail_spread_);
    detail_scale_ = static_cast<float>(double(details - 1) / ((detail_low_spans + detail_high_spans) * detail_spread_));

    // Means in cells of the table, each over as wide a neighbourhood as holds enough pixels.
    std::vector<double> sum(rings * details), count(rings * details);
    for (const auto& s : spots) {
        const auto i = static_cast<std::size_t>(place(s.ring, ring_low_, ring_scale_, rings) + 0.5F),
                   j = static_cast<std::size_t>(place(s.detail, detail_low_, detail_scale_, details) + 0.5F);
        sum[i * details + j] += double(s.uptake);
        ++count[i * details + j];
    }
    table_.resize(rings * details);
    for (int i = 0; i < int(rings); ++i) {
        for (int j = 0; j < int(details); ++j) {
            double total = 0, n = 0;
            for (int wide = 0; wide < int(details) && n < fewest; ++wide) {
                total = n = 0;
                for (int a = std::max(0, i - wide); a <= std::min(int(rings) - 1, i + wide); ++a)
                    for (int b = std::max(0, j - wide); b <= std::min(int(details) - 1, j + wide); ++b) {
                        total += sum[std::size_t(a) * details + std::size_t(b)];
                        n += count[std::size_t(a) * details + std::size_t(b)];
                    }
            }
            table_[std::size_t(i) * details + std::size_t(j)] = static_cast<float>(total / std::max(n, 1.0));
        }
    }
    std::vector<float> found, drawn;
    for (const auto& s : spots) {
        found.push_back(ln_uptake(s.ring, s.detail));
        drawn.push_back(s.uptake);
    }
    std::sort(found.begin(), found.end());
    std::sort(drawn.begin(), drawn.end());
    for (float& u : table_) {
        const auto low = std::lower_bound(found.begin(), found.end(), u) - found.begin(),
                   high = std::upper_bound(found.begin(), found.end(), u) - found.begin();
        const auto rank = std::min(std::size_t(low + high) / 2, drawn.size() - 1);
        u = std::log(std::clamp(drawn[rank], 0.05F, 8.0F));
    }
}

FigureUptake::Cells FigureUptake::cells() const {
    Cells out{{}, int(details), ring_low_, ring_scale_, last(rings), detail_low_, detail_scale_, last(details)};
    for (std::size_t i = 0; i + 1 < rings; ++i)
        for (std::size_t j = 0; j < details; ++j) {
            const float *at = &table_[i * details + j], *next = j + 1 < details ? at + 1 : at;
            out.corners.insert(out.corners.end(), {at[0], next[0], at[details], next[details]});
        }
    return out;
}

std::vector<float> blotches(const material::Wood& wood, int columns, int rows, double cell_mm) {
    std::vector<float> out(std::size_t(columns) * std::size_t(rows), 0.0F);
    const material::Grain grain = wood.grain ? *wood.grain : material::plain_grain();
    if (!(grain.blotch.value > 0 && grain.blotch_mm.value > 0)) return out;
    const grain::Blotches drawn(grain, blotch_seed);
    for (int y = 0; y < rows; ++y) {
        const double down = (y + 0.5) * cell_mm;
        drawn.add_row(&out[std::size_t(y) * std::size_t(columns)], columns, cell_mm, [&](double) { return down; });
    }
    return out;
}

}  // namespace foretone::photo
