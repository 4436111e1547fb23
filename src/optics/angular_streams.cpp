// Streams.
//
// Between consecutive indices n₀ < n₁ of the stack, air included, lie the directions n₀ < β < n₁: totally reflected by every
// medium up to n₀, travelling in every medium from n₁ on. Written in β, or in the cosine of another medium, radiance and
// Fresnel's coefficients have square-root singularities where such an interval ends; written in the cosine c of medium n₁
// they have none. So each interval gets a Gauss rule in its own c, from 0 (grazing in n₁) to √(1 − n₀²/n₁²) (critical
// against n₀). The flux element β dβ = n₁² c dc is the same in all media: refraction moves whole streams and loses nothing,
// and total reflection is exact, stream by stream.
//
// A direction of measurement becomes a feeler: a stream of flux share δ = 1e-6 taken from the Gauss nodes of the air
// interval by the polynomial through them, so that the rule stays as exact as it was. What a feeler reports is then
// uncertain by rounding/δ, about 1e-10, and by δ times an interpolation error.

#include "angular_streams.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/optics/quadrature.hpp"

namespace foretone::optics::angular_detail {
namespace {

constexpr double feeler_flux = 1e-6;
constexpr double same_index = 1e-9;   // indices closer than this are one
constexpr int fewest = 3;             // streams of an interval

/// Distinct indices from air up.
std::vector<double> ladder_of(std::vector<double> indices) {
    indices.push_back(1);
    std::sort(indices.begin(), indices.end());
    const auto same = [](double a, double b) { return b - a < same_index; };
    indices.erase(std::unique(indices.begin(), indices.end(), same), indices.end());
    return indices;
}

/// Half the streams leave into air. The rest covers the totally reflected directions at about the same density in c as a
/// single medium of index 1.5 has, whose interval is 0.745 wide.
int share(std::size_t interval, std::size_t intervals, double widest, int count) {
    if (intervals == 1) return count;
    if (interval == 0) return (count + 1) / 2;
    return std::max(fewest, static_cast<int>(std::lround(0.5 * count * widest / 0.745)));
}

/// Takes the flux of a stream at cosine `at` from the nodes of the air interval.
Stream take_feeler(std::vector<Stream>& air, double at) {
    for (std::size_t i = 0; i < air.size(); ++i) {
        double lagrange = 1;
        for (std::size_t j = 0; j < air.size(); ++j) {
            if (j != i) lagrange *= (at - air[j].cosine) / (air[i].cosine - air[j].cosine);
        }
        air[i].flux -= feeler_flux * lagrange;
    }
    return {1, at, feeler_flux, feeler_flux};
}

/// Gauss streams of one interval, β rising (cosines falling).
std::vector<Stream> gauss_streams(double n, double widest, int count) {
    const Nodes rule = gauss_legendre(count, 0, widest);
    std::vector<Stream> streams;
    for (std::size_t i = rule.x.size(); i-- > 0;) {
        const double flux = n * n * rule.x[i] * rule.w[i];
        streams.push_back({n, rule.x[i], flux, flux});
    }
    return streams;
}

}  // namespace

int Streams::in_medium(double n) const {
    int count = feelers;
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
    const std::vector<double> ladder = ladder_of(indices);
    Streams streams;
    streams.feelers = static_cast<int>(air_cosines.size());
    double below = 0;
    for (std::size_t k = 0; k < ladder.size(); ++k) {
        const double n = ladder[k];
        const double widest = std::sqrt((n - below) * (n + below)) / n;
        std::vector<Stream> interval = gauss_streams(n, widest, share(k, ladder.size(), widest, count));
        if (k == 0) {
            for (const double c : air_cosines) streams.all.push_back(take_feeler(interval, c));
        }
        const int first = streams.size();
        streams.all.insert(streams.all.end(), interval.begin(), interval.end());
        streams.intervals.push_back({n, widest, first, streams.size()});
        below = n;
    }
    return streams;
}

}  // namespace foretone::optics::angular_detail
