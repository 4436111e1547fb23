// Light and wood told apart.
//
// Symbols, all in ln of cone responses (three): y what a patch shows · m the wood in the light at the card · ℓ the
// light over that at the card, along n = (1,1,1)/√3 (brightness) and two directions of color c1, c2 · b what a unit of
// shade adds · s slow change of the wood's shade · e what changes from patch to patch.
//   wood   y = m + ℓ(u, v) + b s(u, v) + e,   e of covariance σ² I + p² b bᵀ
//   card   y = ℓ(u, v) + 1 %
// ℓ and s are sums of uniform cubic B-splines (de Boor 1978) with normal priors on the differences of their
// coefficients (P-splines, Eilers & Marx 1996): light bends slowly and its color slower still, wood changes slowly by
// little. Shade darkens blue more than red and light does not: that is what tells them apart, as far as anything in
// one picture does; where nothing tells, the priors do, which give slow change to the light. Patches count by
// 1/(1 + d²/9) of their distance d (Cauchy's weights), and none that is much brighter than the fit: a mirrored lamp.
// All is linear; the four fields' normal equations share one matrix of products of splines.

#include "foretone/photo/light_field.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "median.hpp"

namespace foretone::photo {
namespace {

using Three = std::array<double, 3>;

constexpr std::size_t spans = 6, side = spans + 3, terms = side * side;  // splines a side
constexpr std::size_t fields = 4;                                        // brightness, two of color, the wood's shade
constexpr std::size_t unknowns = fields * terms + 3;
constexpr double bend[] = {1.0, 0.05, 0.05};  // prior deviations of second differences, at the loosest
constexpr double slope[] = {1.0, 0.2, 0.2};   // and of first ones
// Fits are tried in this order, each with so many times the deviations above, of brightness and of color: light of one
// color before light of two, and of each light that bends little before light that bends.
struct Loose {
    double bright, color;
};
constexpr Loose looser[] = {{0.1, 0.05}, {0.3, 0.05}, {1, 0.05}, {0.1, 1}, {0.3, 1}, {1, 1}}, rough = {0.3, 1};
constexpr double card_off = 0.01;  // of a card's reading
constexpr double slow_spans = 2;   // of the coefficients: splines are smoother than what they are sums of
constexpr int rounds = 3;
constexpr double alike = 1.4;  // neighbours are alike: as if each deviation were so many times as large
constexpr double far_off = 9, close_enough = 1.05, close_by = 0.05;  // of d², and of its mean from the loosest field's
constexpr double glint = 0.25;                                       // ln above the fit
constexpr double least_spread = 0.008;
const double root2 = std::sqrt(2.0), root3 = std::sqrt(3.0), root6 = std::sqrt(6.0);

struct Splines {
    std::array<std::size_t, 16> term{};
    std::array<double, 16> value{};
};

std::array<double, 4> cubic(double t) {
    const double s = 1 - t;
    return {s * s * s / 6, (3 * t * t * t - 6 * t * t + 4) / 6, (3 * s * s * s - 6 * s * s + 4) / 6, t * t * t / 6};
}

Splines splines_at(double u, double v) {
    const auto cell = [](double x) {
        return std::min(static_cast<std::size_t>(std::max(0.0, x * double(spans))), spans - 1);
    };
    const std::size_t i = cell(u), j = cell(v);
    const auto a = cubic(u * double(spans) - double(i)), b = cubic(v * double(spans) - double(j));
    Splines out;
    for (std::size_t k = 0; k < 4; ++k) {
        for (std::size_t l = 0; l < 4; ++l) {
            out.term[4 * k + l] = (j + k) * side + i + l;
            out.value[4 * k + l] = b[k] * a[l];
        }
    }
    return out;
}

double dot(const Three& a, const Three& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

std::size_t place_of(std::size_t field, std::size_t term) { return term * fields + field; }

// Symmetric, lower half, by columns: a band, as splines reach three spans, and the wood's mean at its end. A x = y in
// place (Cholesky).
struct System {
    static constexpr std::size_t band = (3 * side + 3) * fields + fields, banded = fields * terms;
    std::vector<double> a = std::vector<double>(unknowns * unknowns);
    std::vector<double> y = std::vector<double>(unknowns);

    double& at(std::size_t row, std::size_t column) {
        return row >= column ? a[column * unknowns + row] : a[row * unknowns + column];
    }
    // Rows below the diagonal of a column that may hold anything.
    template <class F>
    static void below(std::size_t column, const F& each) {
        const std::size_t end = column < banded ? std::min(column + band, banded) : unknowns;
        each(column + 1, std::max(end, column + 1));
        if (column < banded) each(banded, unknowns);
    }
    void solve() {
        for (std::size_t k = 0; k < unknowns; ++k) {
            double* const col = &a[k * unknowns];
            col[k] = std::sqrt(col[k]);
            below(k, [&](std::size_t from, std::size_t to) {
                for (std::size_t i = from; i < to; ++i) col[i] /= col[k];
            });
            below(k, [&](std::size_t from, std::size_t to) {
                for (std::size_t j = from; j < to; ++j) {
                    const double f = col[j];
                    if (f == 0) continue;
                    double* const target = &a[j * unknowns];
                    target[j] -= f * f;
                    below(k, [&](std::size_t first, std::size_t end) {
                        for (std::size_t i = std::max(first, j + 1); i < end; ++i) target[i] -= f * col[i];
                    });
                }
            });
        }
        for (std::size_t k = 0; k < unknowns; ++k) {
            y[k] /= a[k * unknowns + k];
            below(k, [&](std::size_t from, std::size_t to) {
                for (std::size_t i = from; i < to; ++i) y[i] -= a[k * unknowns + i] * y[k];
            });
        }
        for (std::size_t k = unknowns; k-- > 0;) {
            below(k, [&](std::size_t from, std::size_t to) {
                for (std::size_t i = from; i < to; ++i) y[k] -= a[k * unknowns + i] * y[i];
            });
            y[k] /= a[k * unknowns + k];
        }
    }
};

// The priors of one field, the same in every round.
void add_priors(System& s, std::size_t field, double slow, const Loose& loose) {
    const auto add = [&](std::initializer_list<std::pair<std::size_t, double>> difference, double deviation) {
        for (const auto& [i, p] : difference)
            for (const auto& [j, q] : difference)
                if (i >= j) s.at(place_of(field, i), place_of(field, j)) += p * q / (deviation * deviation);
    };
    const double times = field == 0 ? loose.bright : loose.color;
    const double most = field < 3 ? times * bend[field] : slow, steepest = field == 0  ? slope[0]
                                                                           : field < 3 ? times * slope[field]
                                                                                       : slow;
    for (std::size_t j = 0; j < side; ++j) {
        for (std::size_t i = 0; i < side; ++i) {
            const std::size_t at = j * side + i;
            for (const auto& [inside, step] : {std::pair{i, std::size_t(1)}, {j, side}}) {
                if (inside + 1 < side) add({{at, -1}, {at + step, 1}}, steepest);
                if (inside + 2 < side) add({{at, 1}, {at + step, -2}, {at + 2 * step, 1}}, most);
            }
            if (i + 1 < side && j + 1 < side) add({{at, 1}, {at + 1, -1}, {at + side, -1}, {at + side + 1, 1}}, most);
            add({{at, 1}}, field == 3 ? slow : 10.0);
        }
    }
}

// What a field's parts are in the three responses.
std::array<Three, fields> directions(const Three& along, const Three& by_lamp) {
    std::array<Three, fields> out = {
        {{1 / root3, 1 / root3, 1 / root3}, {1 / root2, -1 / root2, 0}, {1 / root6, 1 / root6, -2 / root6}, along}};
    for (std::size_t f = 1; f < 3; ++f) {
        const double bluer = out[f][2] - out[f][0];
        for (std::size_t c = 0; c < 3; ++c) out[f][c] += bluer * by_lamp[c];
    }
    return out;
}

struct Solution {
    std::vector<double> terms;  // of all fields, then m

    double field(std::size_t f, const Splines& s) const {
        double sum = 0;
        for (std::size_t k = 0; k < 16; ++k) sum += s.value[k] * terms[place_of(f, s.term[k])];
        return sum;
    }
    Three light(const std::array<Three, fields>& d, const Splines& s) const {
        Three out{};
        for (std::size_t f = 0; f < 3; ++f) {
            const double v = field(f, s);
            for (std::size_t c = 0; c < 3; ++c) out[c] += v * d[f][c];
        }
        return out;
    }
    Three wood() const {
        return {terms[fields * photo::terms], terms[fields * photo::terms + 1], terms[fields * photo::terms + 2]};
    }
};

// (σ² I + p² b bᵀ)⁻¹ (Sherman & Morrison 1950).
std::array<Three, 3> precision(const Three& b, double sigma, double p) {
    const double s2 = sigma * sigma, k = p * p / (s2 + p * p * dot(b, b));
    std::array<Three, 3> out{};
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j) out[i][j] = ((i == j ? 1 : 0) - k * b[i] * b[j]) / s2;
    return out;
}

Three times(const std::array<Three, 3>& m, const Three& v) { return {dot(m[0], v), dot(m[1], v), dot(m[2], v)}; }

// One solve of all, the patches of wood weighted.
Solution solved(std::span<const LightSample> wood, const std::vector<Splines>& places, const std::vector<double>& trust,
                std::span<const LightSample> cards, const WoodVariation& varies, double sigma, const Loose& loose) {
    System s;
    for (std::size_t f = 0; f < fields; ++f) add_priors(s, f, slow_spans * varies.slow, loose);
    // Products of splines once, then every pair of fields in proportion.
    const auto add = [&](std::span<const LightSample> samples, const std::vector<Splines>& at, const auto& weight,
                         const std::array<Three, 3>& inverse, const std::array<Three, fields>& d, std::size_t parts,
                         bool with_mean) {
        std::vector<double> products(terms * terms), sums(terms);
        std::array<std::vector<double>, 3> right;
        for (auto& r : right) r.assign(terms, 0.0);
        double all = 0;
        Three total{};
        for (std::size_t k = 0; k < samples.size(); ++k) {
            const double w = weight(k);
            for (std::size_t i = 0; i < 16; ++i) {
                const double wi = w * at[k].value[i];
                double* const to = &products[at[k].term[i] * terms];
                for (std::size_t j = 0; j < 16; ++j) to[at[k].term[j]] += wi * at[k].value[j];
                sums[at[k].term[i]] += wi;
                for (std::size_t c = 0; c < 3; ++c) right[c][at[k].term[i]] += wi * samples[k].ln[c];
            }
            all += w;
            for (std::size_t c = 0; c < 3; ++c) total[c] += w * samples[k].ln[c];
        }
        for (std::size_t f = 0; f < parts; ++f) {
            const Three pf = times(inverse, d[f]);
            for (std::size_t g = 0; g <= f; ++g) {
                const double scale = dot(pf, d[g]);
                for (std::size_t i = 0; i < terms; ++i)
                    for (std::size_t j = 0; j < terms; ++j)
                        if (products[i * terms + j] != 0 && (f != g || j <= i))
                            s.at(place_of(f, i), place_of(g, j)) += scale * products[i * terms + j];
            }
            for (std::size_t i = 0; i < terms; ++i) {
                for (std::size_t c = 0; c < 3; ++c) {
                    s.y[place_of(f, i)] += pf[c] * right[c][i];
                    if (with_mean) s.at(fields * terms + c, place_of(f, i)) += pf[c] * sums[i];
                }
            }
        }
        if (!with_mean) return;
        for (std::size_t c = 0; c < 3; ++c) {
            for (std::size_t e = 0; e <= c; ++e) s.at(fields * terms + c, fields * terms + e) += inverse[c][e] * all;
            s.y[fields * terms + c] += dot(inverse[c], total);
        }
    };
    add(
        wood, places, [&](std::size_t k) { return trust[k]; },
        precision(varies.along, alike * sigma, alike * varies.patch), directions(varies.along, varies.by_lamp), fields,
        true);
    std::vector<Splines> at_cards;
    for (const auto& c : cards) at_cards.push_back(splines_at(c.u, c.v));
    add(
        cards, at_cards, [](std::size_t) { return 1.0; }, precision({}, card_off, 0), directions(varies.along, {}), 3,
        false);
    for (std::size_t c = 0; c < 3; ++c) s.at(fields * terms + c, fields * terms + c) += 1e-6;
    s.solve();
    return {std::move(s.y)};
}

// How far the wood's way of darkening is from that of light, 0–1: the square of the sine between them.
double apart_of(const Three& b) {
    const double bb = dot(b, b), nb = (b[0] + b[1] + b[2]) / root3;
    return bb > 0 ? 1 - nb * nb / bb : 0;
}

// The part of a rest that is light of one color, the wood's shade taken out; 0 where the two look too much alike.
double light_in(const Three& rest, const Three& b) {
    const double bb = dot(b, b), nb = (b[0] + b[1] + b[2]) / root3, apart = apart_of(b);
    if (apart < 0.01) return 0;
    const double rn = (rest[0] + rest[1] + rest[2]) / root3;
    return (rn - nb * dot(rest, b) / bb) / apart / root3;
}

}  // namespace

std::vector<std::array<float, 3>> LightField::row(float v) const {
    const float y = std::clamp(v, 0.0F, 1.0F) * float(nodes - 1);
    const int j = std::min(static_cast<int>(y), nodes - 2);
    const float f = y - float(j);
    std::vector<std::array<float, 3>> out(nodes + 1);
    for (std::size_t i = 0; i < nodes; ++i) {
        const auto &a = gain_[std::size_t(j * nodes) + i], &b = gain_[std::size_t((j + 1) * nodes) + i];
        for (std::size_t c = 0; c < 3; ++c) out[i][c] = a[c] + f * (b[c] - a[c]);
    }
    out[nodes] = out[nodes - 1];
    return out;
}

std::array<float, 3> LightField::at_column(const std::vector<std::array<float, 3>>& row, float u) {
    const float x = std::clamp(u, 0.0F, 1.0F) * float(nodes - 1);
    const auto i = static_cast<std::size_t>(x);
    const float f = x - float(i);
    std::array<float, 3> out{};
    for (std::size_t c = 0; c < 3; ++c) out[c] = row[i][c] + f * (row[i + 1][c] - row[i][c]);
    return out;
}

// ln g = a + p · (place − mean place), p by least squares with a small prior of none.
LightField LightField::by_cards(std::span<const LightSample> cards) {
    LightField out;
    if (cards.size() < 2) return out;
    constexpr double level = 1e-4;  // square of the distance, as a share of the picture, from which cards tell
    const double n = double(cards.size());
    double u = 0, v = 0, uu = level, vv = level, uv = 0;
    Three mean{};
    for (const auto& c : cards) {
        u += c.u / n, v += c.v / n;
        for (std::size_t k = 0; k < 3; ++k) mean[k] += c.ln[k] / n;
    }
    Three by_u{}, by_v{};
    for (const auto& c : cards) {
        const double x = c.u - u, y = c.v - v;
        uu += x * x, vv += y * y, uv += x * y;
        for (std::size_t k = 0; k < 3; ++k) by_u[k] += x * c.ln[k], by_v[k] += y * c.ln[k];
    }
    const double det = uu * vv - uv * uv;
    for (int j = 0; j < nodes; ++j) {
        for (int i = 0; i < nodes; ++i) {
            const double x = double(i) / (nodes - 1) - u, y = double(j) / (nodes - 1) - v;
            std::array<float, 3> g{};
            for (std::size_t k = 0; k < 3; ++k)
                g[k] = static_cast<float>(
                    std::exp(mean[k] + ((vv * by_u[k] - uv * by_v[k]) * x + (uu * by_v[k] - uv * by_u[k]) * y) / det));
            out.gain_.push_back(g);
        }
    }
    return out;
}

std::array<float, 3> LightField::at(float u, float v) const {
    if (even()) return {1, 1, 1};
    const float x = std::clamp(u, 0.0F, 1.0F) * float(nodes - 1), y = std::clamp(v, 0.0F, 1.0F) * float(nodes - 1);
    const int i = std::min(static_cast<int>(x), nodes - 2), j = std::min(static_cast<int>(y), nodes - 2);
    const float f = x - float(i), g = y - float(j);
    const auto* upper = &gain_[std::size_t(j * nodes + i)];
    const auto* lower = upper + nodes;
    std::array<float, 3> out{};
    for (std::size_t c = 0; c < 3; ++c) {
        const float a = upper[0][c] + f * (upper[1][c] - upper[0][c]),
                    b = lower[0][c] + f * (lower[1][c] - lower[0][c]);
        out[c] = a + g * (b - a);
    }
    return out;
}

LightFit fit_light(std::span<const LightSample> wood, std::span<const LightSample> cards, const WoodVariation& varies,
                   bool draft) {
    if (wood.size() < 12) throw std::invalid_argument("photo::fit_light: at least 12 patches of wood are needed");
    const LightSample middle{0.5, 0.5, {}};
    const auto pinned = cards.empty() ? std::span(&middle, 1) : cards;
    const auto d = directions(varies.along, varies.by_lamp);
    std::vector<Splines> places;
    for (const auto& w : wood) places.push_back(splines_at(w.u, w.v));
    LightFit out;
    out.trust.assign(wood.size(), 1.0);
    out.rest.resize(wood.size());
    double sigma = 0.03;
    Solution solution;
    const auto fit = [&](const Loose& loose) {
        solution = solved(wood, places, out.trust, pinned, varies, sigma, loose);
        const Three m = solution.wood();
        for (std::size_t k = 0; k < wood.size(); ++k) {
            const Three light = solution.light(d, places[k]);
            const double shade = solution.field(3, places[k]);
            for (std::size_t c = 0; c < 3; ++c)
                out.rest[k][c] = wood[k].ln[c] - m[c] - light[c] - shade * varies.along[c];
        }
    };
    const auto distance = [&](std::size_t k) {
        return dot(out.rest[k], times(precision(varies.along, sigma, varies.patch), out.rest[k]));
    };
    for (int round = 0; round < (draft ? 2 : rounds); ++round) {
        fit(draft ? rough : Loose{1, 1});
        std::vector<double> across;  // of the rest, beside the wood's own direction
        for (const Three& r : out.rest) {
            const double rb = dot(r, varies.along);
            across.push_back(
                std::sqrt(std::max(0.0, dot(r, r) - rb * rb / std::max(dot(varies.along, varies.along), 1e-9))));
        }
        // Two deviates make up what lies across: their length's median is 1.177 σ (Rayleigh).
        sigma = std::max(least_spread, median(across) / 1.1774);
        for (std::size_t k = 0; k < wood.size(); ++k) {
            const double up = (out.rest[k][0] + out.rest[k][1] + out.rest[k][2]) / 3;
            out.trust[k] = up > glint ? 0 : 1 / (1 + distance(k) / far_off);
        }
    }
    // The field that bends least and leaves hardly more than the loosest: it follows the light and not the wood.
    const auto left_over = [&] {
        double sum = 0;
        for (std::size_t k = 0; k < wood.size(); ++k) sum += std::min(distance(k), far_off);
        return sum / double(wood.size());
    };
    const double least = left_over(), enough = std::max(close_enough * least, least + close_by);
    for (const Loose& loose : looser) {
        if (draft) break;
        fit(loose);
        if (left_over() <= enough) break;
    }
    out.wood = solution.wood();
    const Three at_card = solution.light(d, splines_at(pinned[0].u, pinned[0].v));
    auto& gain = out.field.gain_;
    for (int j = 0; j < LightField::nodes; ++j) {
        for (int i = 0; i < LightField::nodes; ++i) {
            const Three l =
                solution.light(d, splines_at(double(i) / (LightField::nodes - 1), double(j) / (LightField::nodes - 1)));
            std::array<float, 3> g{};
            for (std::size_t c = 0; c < 3; ++c) g[c] = static_cast<float>(std::exp(l[c] - at_card[c]));
            gain.push_back(g);
        }
    }
    double dark = 1e9, bright = -1e9, cold = 1e9, warm = -1e9;
    std::vector<double> sharp, shades;
    const double bb = std::max(dot(varies.along, varies.along), 1e-9);
    double squares = 0;
    for (std::size_t k = 0; k < wood.size(); ++k) {
        shades.push_back(dot(out.rest[k], varies.along) / bb + solution.field(3, places[k]));
        squares += shades.back() * shades.back() / double(wood.size());
    }
    for (std::size_t k = 0; k < wood.size(); ++k) {
        if (out.trust[k] <= 0) continue;
        const Three l = solution.light(d, places[k]);
        const double y = (l[0] + l[1] + l[2] - at_card[0] - at_card[1] - at_card[2]) / 3, c = l[2] - l[0];
        dark = std::min(dark, y), bright = std::max(bright, y);
        cold = std::min(cold, c), warm = std::max(warm, c);
        Three rest = out.rest[k];
        for (std::size_t i = 0; i < 3; ++i) rest[i] -= 0.5 * varies.bend[i] * (shades[k] * shades[k] - squares);
        sharp.push_back(std::abs(light_in(rest, varies.along)));
    }
    if (sharp.empty()) return out;
    out.darkest = dark;
    out.brightest = bright;
    out.color_range = warm - cold;
    const auto at95 = sharp.begin() + std::ptrdiff_t(sharp.size() * 95 / 100);
    std::nth_element(sharp.begin(), at95, sharp.end());
    // Less what the patches' own irregular color would make of it.
    const double irregular = 1.96 * sigma / (root3 * std::sqrt(std::max(apart_of(varies.along), 1e-9)));
    out.sharp = std::sqrt(std::max(0.0, *at95 * *at95 - irregular * irregular));
    return out;
}

}  // namespace foretone::photo
