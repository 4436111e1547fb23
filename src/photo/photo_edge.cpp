// Where board and surroundings meet: how much of a pixel is wood, and what the rest of it looks like.
//
// Symbols: c a pixel's color · W, G the colors of wood and of the surroundings nearby · t share of wood, of c = t W +
// (1 − t) G by least squares · d distance of c from that mixture in lengths of W − G. Full trust in t up to d = 1/2,
// none from 1 (choices): what is neither wood nor those surroundings is judged by its own color instead. A camera's
// file keeps hue and chroma coarser than lightness, so that the outermost wood is as light as wood and half as colored:
// judged by its color alone it would be finished by half, and paler than what lies on either side.

#include <algorithm>
#include <cmath>

#include "foretone/photo/photo.hpp"

namespace foretone::photo {
namespace {

constexpr int reach = 4;  // blocks
constexpr float surely = 0.98F, hardly = 0.02F;
constexpr float least_apart = 0.03F;  // W from G: nearer ones are not told apart by mixing
constexpr float most_varied =
    0.25F;  // surroundings of two kinds, say bench and clamp, have no one G: their deviation over W − G

using Color = std::array<float, 3>;

float dot(const Color& a, const Color& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

Color less(const Color& a, const Color& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }

struct Mean {
    Color sum{};
    float squares = 0, n = 0;

    void add(const Color& c) {
        for (std::size_t k = 0; k < 3; ++k) sum[k] += c[k];
        squares += dot(c, c);
        ++n;
    }
    Color value() const { return {sum[0] / n, sum[1] / n, sum[2] / n}; }
    float variance() const { return squares / n - dot(value(), value()); }
};

}  // namespace

void PhotoBoard::find_edges(const std::vector<float>& inside, const std::vector<float>& within) {
    edge_.assign(means_.size(), -1);
    for (int j = 0; j < rows_; ++j) {
        for (int i = 0; i < columns_; ++i) {
            const auto at = std::size_t(j * columns_ + i);
            if (maybe_[at] <= sure_[at]) continue;
            Mean wood, rest;
            for (int v = std::max(0, j - reach); v <= std::min(rows_ - 1, j + reach); ++v) {
                for (int u = std::max(0, i - reach); u <= std::min(columns_ - 1, i + reach); ++u) {
                    const auto k = std::size_t(v * columns_ + u);
                    if (inside[k] > surely) wood.add(means_[k]);
                    if (within[k] < hardly) rest.add(means_[k]);
                }
            }
            if (wood.n == 0 || rest.n == 0) continue;
            const Edge edge{wood.value(), rest.value()};
            const Color apart = less(edge.wood, edge.rest);
            const float length = dot(apart, apart);
            if (length < least_apart * least_apart || rest.variance() > most_varied * most_varied * length) continue;
            edge_[at] = static_cast<int>(edges_.size());
            edges_.push_back(edge);
        }
    }
}

PhotoBoard::WoodShare PhotoBoard::share_of_wood(const MaskRow& row, int x, int y, const Color& c) const {
    const float place = std::clamp((float(x) + 0.5F) / float(block_) - 0.5F, 0.0F, float(columns_ - 1));
    const auto i = static_cast<std::size_t>(place);
    const float f = place - float(i);
    const float most = row.maybe[i] + f * (row.maybe[i + 1] - row.maybe[i]);
    const float least = row.sure[i] + f * (row.sure[i + 1] - row.sure[i]);
    if (most - least < 1e-3F) return {most, c};
    const auto by_color = [&] {
        return least + (most - least) * likeness(own_, field_.even() ? c : without_light(c, light_at(x, y)));
    };
    const int at = edge_[std::size_t(y / block_) * std::size_t(columns_) + std::size_t(x / block_)];
    if (at < 0) return {by_color(), c};

    const Edge& e = edges_[std::size_t(at)];
    const Color apart = less(e.wood, e.rest), from_rest = less(c, e.rest);
    const float length = dot(apart, apart), t = std::clamp(dot(from_rest, apart) / length, 0.0F, 1.0F);
    const Color off = {from_rest[0] - t * apart[0], from_rest[1] - t * apart[1], from_rest[2] - t * apart[2]};
    const float trust = std::clamp(2 - 2 * std::sqrt(dot(off, off) / length), 0.0F, 1.0F);
    if (trust <= 0) return {by_color(), c};
    // A pore at the edge is as dark as the bench may be, and as colored as wood that dark: no mixture with grey is
    // that.
    const float own = by_color();
    WoodShare out{std::max(own, trust * t + (1 - trust) * own), c};
    for (std::size_t k = 0; k < 3; ++k) out.rest[k] += trust * (e.rest[k] - c[k]);
    return out;
}

}  // namespace foretone::photo
