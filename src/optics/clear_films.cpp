// Clear films: the four-quantity layer at each β, integrated over β.
//
// A ray keeps β = n sinθ through every film. With q = n cosθ = √(n² − β²), a film of index n and depth τ passes
// exp(−τ n/q) of it, and interfaces reflect by Fresnel; adding film to interface to film gives, per β and polarisation,
// the reflectance from each side and one transmittance t for both directions. Uniform diffuse light brings flux 2β
// dβ/n² at β, so
//   r_above = ∫₀^{n_a} r_a 2β dβ/n_a²,  r_below = ∫₀^{n_b} r_b 2β dβ/n_b²,  n_b² t_up = n_a² t_down = ∫ t 2β dβ.
//
// Conditioning. Between two neighbouring indices of the sequence the integrand is smooth in β except for a square root
// at the upper end, where the medium of that index (h) turns grazing: media of lower index are totally reflecting
// throughout. With µ = cosine in that medium, 2β dβ = 2h² µ dµ, and q_j = √(n_j² − h² + h²µ²) is analytic in µ: a few
// Gauss nodes suffice. For light that escapes to air h = 1 and µ is the cosine outside. If the medium is an absorbing
// film its path τ/µ is unbounded and the integrand only smooth, not analytic, at µ = 0: those intervals get a rule made
// for that (grazing_rule.hpp) or µ = µ_max s³, which crowds nodes there; so do intervals where an interface to a medium
// of similar index turns from clear to mirror within a small µ. The weights of an interval sum to its share from three
// nodes on, so energy is kept to rounding.

#include "foretone/optics/clear_films.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"
#include "foretone/optics/fresnel.hpp"
#include "foretone/optics/quadrature.hpp"
#include "grazing_rule.hpp"
#include "kernels.hpp"

namespace foretone::optics {
namespace {

void require_index(double n) {
    if (!(n >= 1 && n <= 3)) throw std::invalid_argument("clear films: index " + base::shortest(n) + ", not 1 to 3");
}

std::vector<double> all_media(double n_above, std::span<const double> films, double n_below) {
    std::vector<double> media;
    media.reserve(films.size() + 2);
    media.push_back(n_above);
    media.insert(media.end(), films.begin(), films.end());
    media.push_back(n_below);
    return media;
}

/// Keeps every exponent the kernels see above −1e14 (depths are at most deepest_film): nothing is left of the light
/// long before.
constexpr double steepest = -1e10;

/// The rule of the usual node count, made once: a rule costs more than placing its nodes.
const Nodes& usual_rule() {
    static const Nodes rule = gauss_legendre(FilmNodes{}.smooth, 0, 1);
    return rule;
}

/// Depths as the kernels want them: a pointer a film, one wavelength.
struct SingleDepths {
    explicit SingleDepths(std::span<const double> depths) : values(depths.begin(), depths.end()) {
        for (double& v : values) {
            if (!(v >= 0)) throw std::invalid_argument("clear films: depth " + base::shortest(v) + ", not 0 or more");
            v = std::min(v, deepest_film);
            pointers.push_back(&v);
        }
    }
    std::vector<double> values;
    std::vector<const double*> pointers;
};

/// A group of nodes as the kernels want it.
template <class Group>
kernels::Paths paths(const Group& group) {
    return {group.nodes.data(), group.nodes.size(), group.steps.data()};
}

struct Split {
    std::vector<double> indices, depths;
};

Split split(std::span<const ClearFilm> films) {
    Split out;
    for (const ClearFilm& f : films) {
        out.indices.push_back(f.n);
        out.depths.push_back(f.depth);
    }
    return out;
}

}  // namespace

ClearFilms::ClearFilms(double n_above, std::span<const double> film_indices, double n_below, FilmNodes nodes) {
    place(all_media(n_above, film_indices, n_below), nodes);
}

void ClearFilms::set_media(std::span<const double> media) {
    for (const double n : media) require_index(n);
    media_.assign(media.begin(), media.end());
    q_.resize(media_.size());
    for (Group* g : {&through_, &below_, &above_}) {
        g->nodes.clear(), g->steps.clear();
        g->constant = 0;
    }
    constant_transmittance_ = 0;
}

void ClearFilms::place(std::span<const double> media, FilmNodes nodes) {
    set_media(media);
    bounds_.assign(1, 0.0);
    const double top = std::max(media_.front(), media_.back());
    for (const double n : media_) {
        if (n <= top) bounds_.push_back(n);
    }
    std::sort(bounds_.begin(), bounds_.end());
    bounds_.erase(std::unique(bounds_.begin(), bounds_.end()), bounds_.end());
    // Room for the usual rules' nodes at once: these lists are made for every new set of indices.
    const std::size_t most = 10 * (bounds_.size() - 1);
    through_.nodes.reserve(most), through_.steps.reserve(most * films());
    if (bounds_.size() > 2) below_.nodes.reserve(most), below_.steps.reserve(most * films());
    for (std::size_t i = 1; i < bounds_.size(); ++i) place_interval(bounds_[i - 1], bounds_[i], nodes);
}

void ClearFilms::place_interval(double low, double high, FilmNodes nodes) {
    const bool in_film = std::find(media_.begin() + 1, media_.end() - 1, high) != media_.end() - 1;
    const double near = (low > 0 ? 1.5 : 1.3) * high;  // how far the square roots of other media must be
    const bool near_match = std::any_of(media_.begin(), media_.end(), [&](double n) { return n > high && n < near; });
    const double share = (high - low) * (high + low) / (high * high), mu_max = std::sqrt(share);
    const auto place = [&](double mu, double weight) {  // weights of 2µ dµ on 0–1
        const double q_high = high * mu_max * mu;
        place_node((high - q_high) * (high + q_high), high, q_high, high * high * share * weight);
    };
    const bool crowd = in_film || near_match;
    if (crowd && nodes.grazing == FilmNodes::tabulated) {
        const auto place_all = [&](const auto& rule) {
            for (const GrazingNode& node : rule) place(node.mu, node.weight);
        };
        return share < 0.15 ? place_all(grazing_seven) : place_all(grazing_ten);
    }
    const int count = crowd ? nodes.grazing : nodes.smooth;
    const Nodes& gauss = count == FilmNodes{}.smooth ? usual_rule() : gauss_legendre(count, 0, 1);
    for (std::size_t i = 0; i < gauss.x.size(); ++i) {
        const double s = gauss.x[i], w = gauss.w[i];
        if (crowd)
            place(s * s * s, 6 * s * s * s * s * s * w);
        else
            place(s, 2 * s * w);
    }
}

// One β. If every medium carries the ray, one node serves both directions. If some medium does not, light from either
// side turns back at the first such medium it meets: its interface reflects everything.
void ClearFilms::place_node(double beta_squared, double high, double q_high, double weight) {
    const std::vector<double>& media = media_;
    const auto carries = [&](std::size_t m) { return media[m] >= high; };
    for (std::size_t m = 0; m < media.size(); ++m)
        if (carries(m)) q_[m] = std::sqrt((media[m] - high) * (media[m] + high) + q_high * q_high);
    const auto interface = [&](std::size_t a, std::size_t b) -> Reflectance {
        if (media[a] == media[b]) return {0, 0};
        if (!carries(a) || !carries(b)) return {1, 1};
        const double qa = q_[a], qb = q_[b];
        const double rs = (media[a] - media[b]) * (media[a] + media[b]) / ((qa + qb) * (qa + qb));
        const double rp = rs * (qa * qb - beta_squared) / (qa * qb + beta_squared);
        return {rs * rs, rp * rp};
    };
    // Steps through media first, first + way, … to (not including) `end`; the interface before the first one starts the
    // sum.
    const auto place = [&](Group& group, std::size_t first, std::size_t end, bool downward) {
        const auto next = [downward](std::size_t m) { return downward ? m + 1 : m - 1; };
        const auto previous = [downward](std::size_t m) { return downward ? m - 1 : m + 1; };
        const Reflectance start = interface(previous(first), first);
        Node node{weight, start.s, start.p, group.steps.size(), 0};
        for (std::size_t m = first; m != end; m = next(m)) {
            const Reflectance r = interface(m, next(m));
            group.steps.push_back({m - 1, std::max(-std::numbers::log2e * media[m] / q_[m], steepest), r.s, r.p});
            ++node.count;
        }
        if (node.count > 0)
            group.nodes.push_back(node);
        else
            group.constant += weight * 0.5 * (node.s + node.p);
        if (node.count == 0 && &group == &through_) constant_transmittance_ += weight * (1 - 0.5 * (node.s + node.p));
    };
    const std::size_t last = media.size() - 1;
    std::size_t from_top = 0, from_bottom = last;
    while (from_top <= last && carries(from_top)) ++from_top;
    if (from_top > last) return place(through_, 1, last, true);
    while (carries(from_bottom)) --from_bottom;
    if (from_bottom < last) place(below_, from_bottom + 1, last, true);
    if (from_top > 0) place(above_, from_top - 1, 0, false);
}

void ClearFilms::internal(const double* const* depths, std::size_t count, double* r_below, double* scratch) const {
    const kernels::Isa isa = base::widest_isa();
    std::fill(r_below, r_below + count, through_.constant + below_.constant);
    for (const Group* g : {&through_, &below_})
        kernels::film_reflectance(isa, paths(*g), depths, count, r_below, scratch);
    const double scale = 1 / (media_.back() * media_.back());
    for (std::size_t k = 0; k < count; ++k) r_below[k] *= scale;
}

void ClearFilms::diffuse(const double* const* depths, std::size_t count, double* r_above, double* r_below, double* t_up,
                         double* scratch) const {
    const kernels::Isa isa = base::widest_isa();
    std::fill(r_below, r_below + count, through_.constant + below_.constant);
    std::fill(r_above, r_above + count, through_.constant + above_.constant);
    std::fill(t_up, t_up + count, constant_transmittance_);
    kernels::film_panel(isa, paths(through_), depths, count, r_below, r_above, t_up, scratch);
    kernels::film_reflectance(isa, paths(below_), depths, count, r_below, scratch);
    kernels::film_reflectance(isa, paths(above_), depths, count, r_above, scratch);
    const double n_above = media_.front(), n_below = media_.back();
    const double below = 1 / (n_below * n_below), above = 1 / (n_above * n_above);
    for (std::size_t k = 0; k < count; ++k) {
        r_below[k] *= below;
        r_above[k] *= above;
        t_up[k] *= below;
    }
}

Panel ClearFilms::diffuse(std::span<const double> depths) const {
    if (depths.size() != films())
        throw std::invalid_argument("clear films: " + std::to_string(depths.size()) + " depths for " +
                                    std::to_string(films()) + " films");
    const SingleDepths single(depths);
    Panel p;
    std::array<double, 6> scratch{};
    diffuse(single.pointers.data(), 1, &p.r_above, &p.r_below, &p.t_up, scratch.data());
    const double n_above = media_.front(), n_below = media_.back();
    p.t_down = p.t_up * (n_below * n_below) / (n_above * n_above);
    return p;
}

ClearBeam::ClearBeam(double n_above, std::span<const double> film_indices, double n_below, double mu_above) {
    place(all_media(n_above, film_indices, n_below), mu_above);
}

void ClearBeam::place(std::span<const double> media, double mu_above) {
    run_.set_media(media);
    if (!(mu_above > 0 && mu_above <= 1))
        throw std::invalid_argument("clear films: cosine " + base::shortest(mu_above));
    const double n_above = media.front();
    // One node of weight 1 at this β, whatever the run, in place of a quadrature.
    const double q_above = n_above * mu_above;
    const double beta_squared = n_above * n_above * (1 - mu_above) * (1 + mu_above);
    double high = n_above;
    double q_high = q_above;
    for (const double n : media) {  // the medium of least index that carries the ray
        if (n * n > beta_squared && n < high) {
            high = n;
            q_high = std::sqrt((n - n_above) * (n + n_above) + q_above * q_above);
        }
    }
    run_.place_node(beta_squared, high, q_high, 1);
}

void ClearBeam::solve(const double* const* depths, std::size_t count, double* reflectance, double* transmittance,
                      double* scratch) const {
    const kernels::Isa isa = base::widest_isa();
    std::fill(reflectance, reflectance + count, run_.through_.constant + run_.above_.constant);
    std::fill(transmittance, transmittance + count, run_.constant_transmittance_);
    // The kernel's "other" side is the upper one; its near side is not wanted, and is given room at the end of the
    // scratch.
    double* unwanted = scratch + 6 * count;
    std::fill(unwanted, unwanted + count, 0.0);
    kernels::film_panel(isa, paths(run_.through_), depths, count, unwanted, reflectance, transmittance, scratch);
    kernels::film_reflectance(isa, paths(run_.above_), depths, count, reflectance, scratch);
}

Beam ClearBeam::solve(std::span<const double> depths) const {
    const SingleDepths single(depths);
    Beam beam{};
    std::array<double, 7> scratch{};
    solve(single.pointers.data(), 1, &beam.reflectance, &beam.transmittance, scratch.data());
    const double n_above = run_.media_.front(), n_below = run_.media_.back();
    beam.radiance_factor = beam.transmittance * (n_above * n_above) / (n_below * n_below);
    return beam;
}

Panel clear_films(double n_above, std::span<const ClearFilm> films, double n_below) {
    const Split s = split(films);
    return ClearFilms(n_above, s.indices, n_below, FilmNodes{64, 64}).diffuse(s.depths);
}

Beam clear_films_beam(double n_above, std::span<const ClearFilm> films, double n_below, double mu_above) {
    const Split s = split(films);
    return ClearBeam(n_above, s.indices, n_below, mu_above).solve(s.depths);
}

}  // namespace foretone::optics
