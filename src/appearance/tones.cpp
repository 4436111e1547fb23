// One finish over the spots of a board.
//
// Symbols: x shade, v = √uptake, A the zone's greatest absorbance and scattering together, at uptake 1. A zone's depth
// goes with v and what it holds with v², so that all that depends on uptake is smooth in v down to v = 0. Of a strong
// dye R falls like 1/(1 + A v²), with poles at v = ±i/√A, near the range; in t = v/(v + v0), v0 = 1/√A (at most ½),
// they stand a whole range's length off. What a coat leaves in the wood under a film or behind a plug falls like u/(1 +
// r u), r the resistance that it meets there, with poles at v = ±i/√r or on −v nearer yet: under a later coat v0 is at
// most ¼, and there are more points. A damp board over a seal has an edge: up to some u its liquid fills the pores as
// far as it goes, beyond it there is too little; each side has points of its own. R is smooth in x because K/S goes
// with exp(x). On n Chebyshev points
//   t_k = −cos(π k/(n − 1)),  k = 0 … n − 1,
// the interpolating polynomial converges geometrically, and its barycentric form
//   f(t) = Σ w_k f_k/(t − t_k) / Σ w_k/(t − t_k),  w_k = (−1)^k (½ at both ends),
// is good to rounding everywhere in the range (Berrut & Trefethen 2004).

#include "foretone/appearance/tones.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "foretone/appearance/spots.hpp"
#include "foretone/base/number.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/optics/kubelka_munk.hpp"
#include "moments.hpp"
#include "tone_maps.hpp"

namespace foretone::appearance {
namespace {

constexpr std::size_t shade_points = 15, few_shade_points = 6, few_uptake_points = 11;
constexpr double shade_limit = 8;
constexpr double lodged_half_way = 1;  // what lodges goes with v⁴: poles stand wider off

[[noreturn]] void refuse(const std::string& what, double value) {
    throw std::invalid_argument("tones: " + what + ", not " + base::shortest(value));
}

std::vector<double> chebyshev(std::size_t n, double low, double high) {
    std::vector<double> x(n);
    for (std::size_t k = 0; k < n; ++k) {
        const double t = -std::cos(std::numbers::pi * static_cast<double>(k) / static_cast<double>(n - 1));
        x[k] = 0.5 * (low + high) + 0.5 * (high - low) * t;
    }
    return x;
}

// Barycentric weights at `x`, which is kept inside the points.
std::vector<double> weights(const std::vector<double>& points, double x) {
    const std::size_t n = points.size();
    std::vector<double> w(n, 0.0);
    x = std::clamp(x, points.front(), points.back());
    double sum = 0;
    for (std::size_t k = 0; k < n; ++k) {
        const double off = x - points[k];
        if (off == 0) {
            std::fill(w.begin(), w.end(), 0.0);
            w[k] = 1;
            return w;
        }
        w[k] = (k % 2 == 0 ? 1.0 : -1.0) * (k == 0 || k + 1 == n ? 0.5 : 1.0) / off;
        sum += w[k];
    }
    for (double& v : w) v /= sum;
    return w;
}

// A: all layers of the zone, at the wavelength of the greatest.
double strongest(const Board& board) {
    double most = 0;
    for (std::size_t i = 0; i < spectral::grid_size; ++i) {
        double sum = 0;
        for (const auto& soaked : board.zone)
            if (soaked.where != Where::pores) sum += soaked.absorbance[i] + soaked.scattering[i];
        most = std::max(most, sum);
    }
    return most;
}

// Whether pores hold what flats do not.
bool lodges(const Board& board) {
    return std::any_of(board.past.begin(), board.past.end(),
                       [](const Laid& l) { return l.coat->wiped && l.coat->has_pigment; });
}

// Whether a coat went into wood that an earlier one had sealed.
bool over_a_seal(const Board& board) {
    return std::count_if(board.zone.begin(), board.zone.end(), [](const Soaked& s) { return s.fill > 0; }) > 1;
}

// The uptake up to which a damp board's pores are as full as they get; 0 if they are so everywhere or nowhere. With a
// seal between, what comes in falls behind the room as uptake grows, so there is one such place, found by halving.
double full_up_to(const Board& board, double high) {
    if (!board.under_liquid || board.zone.empty()) return 0;
    const auto fill = [&](double u) { return at_uptake(board, u).zone.back().fill; };
    const double most = fill(1e-3);
    const auto full = [&](double u) { return std::abs(fill(u) - most) <= 1e-9 * most; };
    if (!full(2e-3) || full(high)) return 0;
    double low = 2e-3;
    for (int n = 0; n < 40; ++n) {
        const double mid = 0.5 * (low + high);
        (full(mid) ? low : high) = mid;
    }
    return 0.5 * (low + high);
}

}  // namespace

void check_maps(std::span<const float> shade, std::span<const float> uptake, std::span<const float> pore) {
    if (shade.empty()) throw std::invalid_argument("tones: the mean of a board without pixels");
    if (!uptake.empty() && uptake.size() != shade.size())
        throw std::invalid_argument("tones: " + std::to_string(shade.size()) + " shades and " +
                                    std::to_string(uptake.size()) + " uptakes");
    if (!pore.empty() && pore.size() != shade.size())
        throw std::invalid_argument("tones: " + std::to_string(shade.size()) + " shades and " +
                                    std::to_string(pore.size()) + " pores");
}

material::Wood shaded(const material::Wood& wood, double shade) {
    if (!(std::abs(shade) <= shade_limit)) refuse("a shade is between -8 and 8", shade);
    if (shade == 0) return wood;
    material::Wood out = wood;
    const auto body = material::body_reflectance(wood);
    const double times = std::exp(shade);
    for (std::size_t i = 0; i < body.size(); ++i) {
        const double local = optics::r_infinity(optics::k_over_s(body[i]) * times);
        out.reflectance.values[i] = material::dry_surface(wood.surface_k1.value, wood.surface_k2.value, local);
    }
    return out;
}

// The mean over spots is worked out on a histogram of 128 points between which every shade is dealt linearly; each
// wavelength's factor is found by the secant method on its logarithm c: mean reflectance falls steadily with c and is
// nearly straight in it.
material::Wood centred(const material::Wood& wood, std::span<const float> shade) {
    if (shade.empty()) throw std::invalid_argument("tones: centring without shades");
    const auto [lowest, highest] = std::minmax_element(shade.begin(), shade.end());
    ShadeShares shares(*lowest, *highest);
    shares.add(shade);
    return centred(wood, shares);
}

ShadeShares::ShadeShares(float lowest, float highest)
    : low_(static_cast<double>(lowest)), width_(static_cast<double>(highest) - low_) {
    if (!(std::abs(low_) <= shade_limit)) refuse("a shade is between -8 and 8", low_);
    if (!(std::abs(low_ + width_) <= shade_limit)) refuse("a shade is between -8 and 8", low_ + width_);
}

void ShadeShares::add(std::span<const float> shade) {
    count_ += shade.size();
    if (width_ < 1e-9) return;
    for (const float s : shade) {
        const double x = (static_cast<double>(s) - low_) / width_ * (points - 1);
        const std::size_t i = std::min(points - 2, static_cast<std::size_t>(x));
        sums_[i] += 1 - (x - static_cast<double>(i));
        sums_[i + 1] += x - static_cast<double>(i);
    }
}

material::Wood centred(const material::Wood& wood, const ShadeShares& shares) {
    if (shares.count() == 0) throw std::invalid_argument("tones: centring without shades");
    if (shares.width() < 1e-9) return shaded(wood, -shares.low());
    constexpr std::size_t points = ShadeShares::points;
    std::array<double, points> share{}, times{};
    for (std::size_t j = 0; j < points; ++j) {
        share[j] = shares.share(j);
        times[j] = std::exp(shares.low() + shares.width() * static_cast<double>(j) / (points - 1));
    }
    const double k1 = wood.surface_k1.value, k2 = wood.surface_k2.value;
    const auto body = material::body_reflectance(wood);
    material::Wood out = wood;
    for (std::size_t i = 0; i < body.size(); ++i) {
        const double due = material::dry_surface(k1, k2, body[i]), ratio = optics::k_over_s(body[i]);
        const auto off = [&](double c) {
            double sum = 0;
            for (std::size_t j = 0; j < points; ++j)
                sum += share[j] * material::dry_surface(k1, k2, optics::r_infinity(ratio * std::exp(c) * times[j]));
            return sum - due;
        };
        double a = 0, b = 0.05, fa = off(a), fb = off(b);
        for (int n = 0; n < 30 && std::abs(fb) > 1e-9 && fa != fb; ++n) {
            const double next = std::clamp(b - fb * (b - a) / (fb - fa), b - 1, b + 1);
            a = b;
            fa = fb;
            b = next;
            fb = off(b);
        }
        out.reflectance.values[i] = material::dry_surface(k1, k2, optics::r_infinity(ratio * std::exp(b)));
    }
    return out;
}

std::vector<Board> boards(const material::Materials& materials, const std::string& wood,
                          const schedule::Finish& finish) {
    std::vector<Board> out;
    visit_moments(materials, std::get<material::Wood>(materials.at(wood).data), finish, {}, nullptr,
                  [&](const Moment& m) { out.push_back(m.board()); });
    return out;
}

ToneRange ToneRange::covering(std::span<const float> shade, std::span<const float> uptake, double margin) {
    SpotRange range;
    for (const float s : shade) {
        range.shade_low = std::min(range.shade_low, s);
        range.shade_high = std::max(range.shade_high, s);
    }
    for (const float u : uptake) range.uptake_high = std::max(range.uptake_high, u);
    return range.covering(margin);
}

ToneRange SpotRange::covering(double margin) const {
    const double low = std::min(0.0, static_cast<double>(shade_low)),
                 high = std::max(0.0, static_cast<double>(shade_high)),
                 most = std::max(1.0, static_cast<double>(uptake_high));
    const double span = std::max(0.1, high - low);
    return {std::max(-4.0, low - margin * span), std::min(5.0, high + margin * span),
            std::min(9.0, most * (1 + margin))};
}

ToneSpectra::ToneSpectra(const Board& board, const material::Wood& wood, optics::Geometry geometry,
                         const Solver& solver, const ToneRange& range, ToneSpots spots)
    : range_(range) {
    const bool few = spots == ToneSpots::few;
    if (!(range.shade_low < range.shade_high)) refuse("the highest shade is above the lowest", range.shade_high);
    if (!(range.uptake_high > 0)) refuse("the highest uptake is above 0", range.uptake_high);
    shades_ = chebyshev(few ? few_shade_points : shade_points, range.shade_low, range.shade_high);
    uptakes_ = {1.0};
    if (!board.zone.empty()) {
        const double strength = strongest(board);
        const bool sealed = over_a_seal(board);
        half_way_ = 1 / std::sqrt(std::clamp(strength, sealed ? 16.0 : 4.0, 400.0));
        if (lodges(board)) half_way_ = lodged_half_way;
        const std::size_t usual = lodges(board) ? 33 : sealed || strength >= 6 ? 21 : strength < 2 ? 13 : 17;
        const std::size_t points = few ? few_uptake_points : usual;
        const double edge = place_of(full_up_to(board, range.uptake_high));
        double end = place_of(range.uptake_high);
        // The range is stretched so that the edge lies on an entry of a table of `table_cells` equal cells.
        const double wider = edge > 0 ? table_cells * edge / std::max(1.0, std::floor(table_cells * edge / end)) : 1;
        if (wider < 0.95) {
            end = wider;
            range_.uptake_high = uptake_at(end);
        }
        places_ = chebyshev(points, 0, edge > 0 ? edge : end);
        if (edge > 0) {
            before_edge_ = points;
            for (const double t : chebyshev(points, edge, end)) places_.push_back(t);
        }
        uptakes_.clear();
        for (const double t : places_) uptakes_.push_back(uptake_at(t));
    }
    std::vector<material::Wood> woods;
    for (const double s : shades_) woods.push_back(shaded(wood, s));
    const bool pores = lodges(board);
    if (pores) usual_pore_ = board.pore;
    for (const double pore : pores ? std::vector<double>{0, 1} : std::vector<double>{board.pore})
        for (const double u : uptakes_) {
            const Board local = at_spot(board, u, pore);
            for (const auto& w : woods) nodes_.push_back(render(local, w, geometry, solver));
        }
}

double ToneSpectra::place_of(double uptake) const {
    const double v = std::sqrt(std::max(0.0, uptake));
    return v / (v + half_way_);
}

double ToneSpectra::uptake_at(double place) const {
    const double v = half_way_ * place / (1 - place);
    return v * v;
}

std::vector<double> ToneSpectra::shade_weights(double shade) const { return weights(shades_, shade); }

std::vector<double> ToneSpectra::uptake_weights(double uptake) const {
    if (uptakes_.size() == 1) return {1.0};
    const double t = place_of(uptake);
    if (before_edge_ == 0) return weights(places_, t);
    const auto middle = places_.begin() + static_cast<std::ptrdiff_t>(before_edge_);
    const bool before = t <= *middle;
    const auto here = before ? weights({places_.begin(), middle}, t) : weights({middle, places_.end()}, t);
    std::vector<double> out(places_.size(), 0.0);
    std::copy(here.begin(), here.end(), before ? out.begin() : out.begin() + (middle - places_.begin()));
    return out;
}

SplitReflectance ToneSpectra::at(double shade, double uptake, double pore) const {
    const auto ws = shade_weights(shade), wu = uptake_weights(uptake);
    SplitReflectance out;
    for (const bool in : {false, true}) {
        if (in && !tells_pores()) break;
        const double share = in ? pore : tells_pores() ? 1 - pore : 1;
        for (std::size_t u = 0; u < wu.size(); ++u)
            for (std::size_t s = 0; s < ws.size(); ++s) out.add(share * wu[u] * ws[s], solved(s, u, in));
    }
    return out;
}

SplitReflectance ToneSpectra::mean(std::span<const float> shade, std::span<const float> uptake,
                                   std::span<const float> pore) const {
    check_maps(shade, uptake, pore);
    ToneMean all(*this);
    all.add(shade, uptake, pore);
    return all.mean();
}

}  // namespace foretone::appearance
