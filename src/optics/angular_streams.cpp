// Streams.
//
// Between consecutive indices n₀ < n₁ of the stack, air included, lie the directions n₀ < β < n₁: totally reflected by
// every medium up to n₀, travelling in every medium from n₁ on. Written in β, or in the cosine of another medium,
// radiance and Fresnel's coefficients have square-root singularities where such an interval ends; written in the cosine
// c of medium n₁ they have none. So each interval gets a Gauss rule in its own c, from 0 (grazing in n₁) to √(1 −
// n₀²/n₁²) (critical against n₀). The flux element β dβ = n₁² c dc is the same in all media: refraction moves whole
// streams and loses nothing, and total reflection is exact, stream by stream.
//
// In the next denser medium n₂ the weight c dc/µ of such an interval bends at c ≈ √(1 − n₁²/n₂²), harmless unless n₂ is
// close to n₁; then a third of the streams asked for, at least four, are added to cover the bend.
//
// A measuring direction becomes a view, a stream of next to no weight among the others ("dummy node": Chalhoub & Garcia
// 2000), of flux share δ = 1e-6 taken from the Gauss nodes of the air interval by the polynomial through them, so that
// the rule stays as exact as it was. What a view reports is then uncertain by rounding/δ, about 1e-10, and by δ times
// an interpolation error.

#include "angular_streams.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/optics/quadrature.hpp"

namespace foretone::optics::angular_detail {
namespace {

constexpr double view_flux = 1e-6;
constexpr double same_index = 1e-9;
constexpr double close_index = 2e-3;  // steps of index under which the bend needs streams of its own
constexpr int fewest = 3;             // streams of an interval

/// Distinct indices from air up.
std::vector<double> distinct(std::vector<double> indices) {
    indices.push_back(1);
    std::sort(indices.begin(), indices.end());
    const auto same = [](double a, double b) { return b - a < same_index; };
    indices.erase(std::unique(indices.begin(), indices.end(), same), indices.end());
    return indices;
}

/// Half the streams leave into air. The rest covers the totally reflected directions at about the same density in c as
/// a single medium of index 1.5 has, whose interval is 0.745 wide.
int share(std::size_t interval, std::size_t intervals, double widest, int count) {
    if (intervals == 1) return count;
    if (interval == 0) return (count + 1) / 2;
    return std::max(fewest, static_cast<int>(std::lround(0.5 * count * widest / 0.745)));
}

/// Appends Gauss streams of one interval, β rising (cosines falling).
void append(Streams& streams, double n, double low, double high, int count) {
    const Nodes rule = gauss_legendre(count, low, high);
    const int first = streams.size();
    for (std::size_t i = rule.x.size(); i-- > 0;) {
        const double flux = n * n * rule.x[i] * rule.w[i];
        streams.all.push_back({n, rule.x[i], flux, flux});
    }
    streams.intervals.push_back({n, low, high, first, streams.size()});
}

/// Gives view `f` its flux, taken from the streams of the air interval it lies in.
void take_flux(Streams& streams, int f) {
    Stream& view = streams.all[static_cast<std::size_t>(f)];
    const auto holds = [&](const Interval& i) { return view.cosine >= i.low; };
    const Interval& air = *std::find_if(streams.intervals.begin(), streams.intervals.end(), holds);
    for (int i = air.first; i < air.last; ++i) {
        Stream& from = streams.all[static_cast<std::size_t>(i)];
        double lagrange = 1;
        for (int j = air.first; j < air.last; ++j) {
            const double other = streams.all[static_cast<std::size_t>(j)].cosine;
            if (j != i) lagrange *= (view.cosine - other) / (from.cosine - other);
        }
        from.flux -= view_flux * lagrange;
    }
}

}  // namespace

int Streams::in_medium(double n) const {
    int count = views;
    for (const Interval& i : intervals) {
        if (i.index < n + same_index) count = i.last;
    }
    return count;
}

double Streams::beta_squared(int stream) const {
    const Stream& s = all[static_cast<std::size_t>(stream)];
    return s.index * s.index * (1 - s.cosine) * (1 + s.cosine);
}

double Streams::cosine(int stream, double n) const {
    const Stream& s = all[static_cast<std::size_t>(stream)];
    const double m = s.index;
    return std::sqrt(std::clamp((n - m) * (n + m) + m * m * s.cosine * s.cosine, 0.0, n * n)) / n;
}

Streams make_streams(const std::vector<double>& indices, int count, const std::vector<double>& air_cosines) {
    const std::vector<double> media = distinct(indices);
    Streams streams;
    streams.views = static_cast<int>(air_cosines.size());
    for (const double c : air_cosines) streams.all.push_back({1, c, view_flux, view_flux});
    double below = 0;
    for (std::size_t k = 0; k < media.size(); ++k) {
        const double n = media[k], high = std::sqrt((n - below) * (n + below)) / n;
        double low = 0;
        if (k + 1 < media.size() && media[k + 1] - n < close_index) {
            low = std::min(0.5 * high, 4 * std::sqrt((media[k + 1] - n) * (media[k + 1] + n)) / n);
        }
        append(streams, n, low, high, share(k, media.size(), high, count));
        if (low > 0) append(streams, n, 0, low, std::max(4, count / 3));
        below = n;
    }
    for (int f = 0; f < streams.views; ++f) take_flux(streams, f);
    return streams;
}

}  // namespace foretone::optics::angular_detail
