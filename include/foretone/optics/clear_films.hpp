#pragma once
/// A run of clear, absorbing films between two media, with every interface and every slanted path counted.
///
/// Symbols: n refractive index · depth = α d, absorption coefficient (natural log) times thickness, along the normal ·
/// µ cosine · β = n sinθ, the Snell invariant. Films are thick against the coherence length: intensities add,
/// interference does not occur. Williams & Clapper 1953 for one film; here any number of films of any index.

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "foretone/optics/kubelka_munk.hpp"

namespace foretone::optics {

/// One film: index 1 or more, depth 0 or more (infinity: opaque).
struct ClearFilm {
    double n;
    double depth;
};

/// What one ray meets, unpolarised.
struct Beam {
    double reflectance;      ///< specular, all interfaces together
    double transmittance;    ///< share of its flux that arrives below (or, coming up on the same path, above)
    double radiance_factor;  ///< radiance above for unit uniform radiance below: transmittance·(n_above/n_below)²
};

/// Diffuse light: the run as one panel. Reciprocity holds to rounding: n_above² t_down = n_below² t_up.
/// Good to 1e-9. Throws std::invalid_argument for an index outside 1–3 or a negative depth.
Panel clear_films(double n_above, std::span<const ClearFilm> films, double n_below);

/// A ray at cosine `mu_above` (0 < µ ≤ 1) in the upper medium. Throws as `clear_films`.
Beam clear_films_beam(double n_above, std::span<const ClearFilm> films, double n_below, double mu_above);

/// How many nodes are put on an interval of β: `smooth` where the integrand is analytic (light that escapes), `grazing`
/// where paths through an absorbing film grow without bound. The default keeps every share of the light within 2e-6 of
/// the converged integral for up to three films of n 1.3–1.7 and depths 0–20 over a medium of 1.3–1.7; {64, 64} is
/// converged to 1e-9.
struct FilmNodes {
    static constexpr int tabulated = 0;  ///< ten or seven nodes made for grazing light
    int smooth = 7;
    int grazing = tabulated;
};

/// Depths above this one are opaque; arrays of depths given to the solvers below must not exceed it.
inline constexpr double deepest_film = 1e4;

/// A run whose indices are fixed and whose depths vary with wavelength: the nodes and interface reflectances are worked
/// out once. `depths[f][i]` is film f's depth at wavelength i.
class ClearFilms {
public:
    /// None yet: `place` says which.
    ClearFilms() = default;

    /// Throws std::invalid_argument for an index outside 1–3 or node counts gauss_legendre refuses.
    ClearFilms(double n_above, std::span<const double> film_indices, double n_below, FilmNodes nodes = {});

    /// Another run in the place of this one, in storage that is reused. `media` from above down: n_above, the films,
    /// n_below. Throws as the constructor.
    void place(std::span<const double> media, FilmNodes nodes = {});

    std::size_t films() const { return media_.size() - 2; }

    /// Doubles of scratch the calls below, and a ClearBeam, need for `count` wavelengths.
    static std::size_t scratch_size(std::size_t count) { return 7 * count; }

    /// Reflectance of diffuse light from below alone.
    void internal(const double* const* depths, std::size_t count, double* r_below, double* scratch) const;

    /// All four quantities: t_down = (n_below/n_above)²·t_up.
    void diffuse(const double* const* depths, std::size_t count, double* r_above, double* r_below, double* t_up,
                 double* scratch) const;

    /// One set of depths, all four quantities.
    Panel diffuse(std::span<const double> depths) const;

    /// A film crossed and the interface after it; `rate` is −log₂e/µ, so that 2^(rate·depth) is left of the light.
    struct Step {
        std::size_t film;
        double rate, s, p;
    };
    /// One β: its weight 2β dβ, the reflectances met first, and its steps.
    struct Node {
        double weight, s, p;
        std::size_t first, count;
    };

private:
    struct Group {
        std::vector<Node> nodes;
        std::vector<Step> steps;
        double constant = 0;  ///< reflectance of the nodes that cross no film
    };

    friend class ClearBeam;
    void set_media(std::span<const double> media);
    void place_interval(double low, double high, FilmNodes nodes);
    void place_node(double beta_squared, double high, double q_high, double weight);

    std::vector<double> media_ = {1, 1};  ///< from above down, neighbours included
    std::vector<double> bounds_, q_;      ///< of the intervals; n cosθ in each medium at the node being placed
    Group through_, below_, above_;
    double constant_transmittance_ = 0;
};

/// One ray through such a run.
class ClearBeam {
public:
    ClearBeam() = default;

    /// `mu_above` as for `clear_films_beam`. Throws as that.
    ClearBeam(double n_above, std::span<const double> film_indices, double n_below, double mu_above);

    /// As ClearFilms::place.
    void place(std::span<const double> media, double mu_above);

    /// Specular reflectance and transmittance at each wavelength; scratch as for ClearFilms.
    void solve(const double* const* depths, std::size_t count, double* reflectance, double* transmittance,
               double* scratch) const;

    /// One set of depths.
    Beam solve(std::span<const double> depths) const;

private:
    ClearFilms run_;
};

}  // namespace foretone::optics
