#pragma once
/// One finish on every kind of spot a board has: its color as a function of how dark the wood is there and how much it
/// takes up.
///
/// shade   ln of the local K/S of the wood's body over K/S of the mean wood; 0 the library's wood, > 0 darker
/// uptake  local absorbency over the wood's mean absorbency; 1 on average over a board
/// pore    share of the spot that lies in open pores, 0–1: what a wiped pigment fills
///
/// Reflectance and color are smooth in the first two, so a handful of spots is solved and the rest interpolated; pores
/// and flats of a spot lie side by side, so that its reflectance is their mean. Body and
/// first-surface light stay apart throughout: a picture lights them differently.

#include <array>
#include <span>
#include <vector>

#include "foretone/appearance/stages.hpp"
#include "foretone/color/xyz.hpp"

namespace foretone::appearance {

/// The wood where it is darker or paler: K/S of its body times exp(`shade`) at every wavelength, everything else kept.
/// The reading changes with it: it is the new body under the same dry surface. `shade` −8…8; throws
/// std::invalid_argument otherwise.
material::Wood shaded(const material::Wood& wood, double shade);

/// The wood whose spots of the given shades read, on the mean, as `wood` does: at every wavelength K/S of its body is
/// moved by one factor. What an instrument read was the mean of such spots; a spot of shade 0 is then a little darker
/// than the reading where the shades spread. Mean bare reflectance is met within 1e-4. Throws std::invalid_argument for
/// no shades, or a spread beyond `shaded`.
material::Wood centred(const material::Wood& wood, std::span<const float> shade);

/// The board where the wood takes up `uptake` (≥ 0) times its mean: every coat of its past again, by the same account,
/// at the spot's own absorbency. Where the wood is bare, `uptake` times as much goes in, √uptake times as deep in pores
/// √uptake times as roomy; where it was sealed, the seal went in likewise and leaves less of the difference. Films flow
/// level and stay as they are. A board without a past stays as it is. Throws std::invalid_argument for a negative
/// uptake.
Board at_uptake(const Board& mean, double uptake);

/// The same where the share `pore` of the spot lies in open pores. Throws std::invalid_argument for a share outside
/// 0–1.
Board at_spot(const Board& mean, double uptake, double pore);

/// The boards behind `stages`, in the same order: [0] is bare, the last one finished. Throws as `stages` does.
std::vector<Board> boards(const material::Materials& materials, const std::string& wood,
                          const schedule::Finish& finish);

/// What a table spans. Beyond it the nearest spot inside is taken.
struct ToneRange {
    double shade_low = -2, shade_high = 3;
    double uptake_high = 4;  ///< from 0

    /// The least range that holds 0, 1 and all of the two maps, widened by `margin` of its span; kept inside shade −4…5
    /// and uptake 0–9: what no wood is. The maps have one length, or one is empty.
    static ToneRange covering(std::span<const float> shade, std::span<const float> uptake, double margin = 0.02);
};

/// How many spots are solved: as many as 1e-4 takes, or a few, for a picture that is drawn again at once.
enum class ToneSpots { all, few };

/// Reflectance over the range, one state of a board in one geometry. 15 to 315 solves (630 damp over a seal), one or
/// two milliseconds with the fast solver, twice as many under a wiped pigment; every later answer is interpolation by
/// Chebyshev polynomials in shade and in √uptake/(√uptake + a constant of the board), within 1e-4 of the
/// solver for the default range.
class ToneSpectra {
public:
    /// Solves with `solver`; `board` is the mean board (`boards`), `wood` the mean wood. Throws std::invalid_argument
    /// for an empty range or one outside the limits of `shaded` and `at_uptake`.
    ToneSpectra(const Board& board, const material::Wood& wood, optics::Geometry geometry, const Solver& solver,
                const ToneRange& range = {}, ToneSpots spots = ToneSpots::all);

    /// At least what was asked for: stretched where an edge in uptake is to lie on an entry of a table.
    const ToneRange& range() const { return range_; }
    static constexpr std::size_t table_cells = 64;  ///< that tables divide the axis of uptake into

    /// Spots solved: rising shades, rising uptakes (one if nothing has soaked in), flats first and then, where a
    /// pigment was wiped, pores, and the reading of each.
    const std::vector<double>& shades() const { return shades_; }
    const std::vector<double>& uptakes() const { return uptakes_; }
    bool tells_pores() const { return nodes_.size() > shades_.size() * uptakes_.size(); }
    const SplitReflectance& solved(std::size_t shade, std::size_t uptake, bool pore = false) const {
        return nodes_[((pore ? uptakes_.size() : 0) + uptake) * shades_.size() + shade];
    }

    /// Share of pores of the mean spot: what a spot is taken to have whose pores are not told.
    double usual_pore() const { return usual_pore_; }

    /// Weight of each solved shade (uptake) in the answer at `shade` (`uptake`); they sum to 1.
    std::vector<double> shade_weights(double shade) const;
    std::vector<double> uptake_weights(double uptake) const;

    /// The reading at one spot.
    SplitReflectance at(double shade, double uptake) const { return at(shade, uptake, usual_pore_); }
    SplitReflectance at(double shade, double uptake, double pore) const;

    /// The reading of a board: the mean over its maps, of equal length (uptake empty: 1 throughout; pore empty: the
    /// usual share). Throws std::invalid_argument for maps of two lengths or none.
    SplitReflectance mean(std::span<const float> shade, std::span<const float> uptake,
                          std::span<const float> pore = {}) const;

    /// The axis on which reflectance is smooth in uptake, t = √u/(√u + half_way()), and its inverse.
    double place_of(double uptake) const;
    double uptake_at(double place) const;
    double half_way() const { return half_way_; }

private:
    ToneRange range_;
    double half_way_ = 0.5;  // √uptake at t = ½
    double usual_pore_ = 0;
    std::vector<double> shades_, uptakes_, places_;  // places_: of the uptakes on their axis
    std::size_t before_edge_ = 0;                    // uptakes before an edge in a damp board; 0: there is none
    std::vector<SplitReflectance> nodes_;
};

/// Linear XYZ, Y = 100 for the perfect diffuser.
struct Tone {
    std::array<float, 3> body{};     ///< light that went into the wood
    std::array<float, 3> surface{};  ///< light of the first surface, as the geometry of the spectra reads it
};

/// Colors over the range under one light: for pixels. Bilinear between 193 × 65 entries, single precision; within ΔE00
/// 0.1 of solving the spot (tested over woods, finishes and lights).
class ToneTable {
public:
    ToneTable(const ToneSpectra& spectra, const color::Weights& light);

    const ToneRange& range() const { return range_; }
    const color::Xyz& white() const { return white_; }

    /// The color at one spot, nearest inside if beyond the range. About 5 ns, twice that where pores tell.
    Tone at(float shade, float uptake) const { return at(shade, uptake, usual_pore_); }
    Tone at(float shade, float uptake, float pore) const {
        const Place p = place(shade, uptake);
        Tone t = sheet(p);
        if (pores_ == 0) return t;
        const Tone in = sheet({p.first + pores_, p.along, p.across});
        for (std::size_t c = 0; c < 3; ++c) {
            t.body[c] += pore * (in.body[c] - t.body[c]);
            t.surface[c] += pore * (in.surface[c] - t.surface[c]);
        }
        return t;
    }

    /// The body alone: half the work.
    std::array<float, 3> body(float shade, float uptake, float pore) const {
        const Place p = place(shade, uptake);
        std::array<float, 3> out{between(body_, p, 0), between(body_, p, 1), between(body_, p, 2)};
        if (pores_ == 0) return out;
        const Place in{p.first + pores_, p.along, p.across};
        for (std::size_t c = 0; c < 3; ++c) out[c] += pore * (between(body_, in, c) - out[c]);
        return out;
    }

    /// The share of pores to ask for at pixel `i` of a map that may be empty.
    float pore_at(std::span<const float> pore, std::size_t i) const { return pore.empty() ? usual_pore_ : pore[i]; }

    /// Body and surface together, as a reading sees them.
    color::Xyz reading(double shade, double uptake) const { return reading(shade, uptake, double{usual_pore_}); }
    color::Xyz reading(double shade, double uptake, double pore) const;

    /// Mean reading over the maps of a board (as ToneSpectra::mean).
    color::Xyz mean(std::span<const float> shade, std::span<const float> uptake,
                    std::span<const float> pore = {}) const;

    /// What loops over pixels read: entries of X, Y, Z and nothing, rising shades, then rising uptakes, of flats and
    /// then of pores (null: there are none). An entry's shade is shade_low + i/per_shade, its uptake u the one of
    /// √u/(√u + half_way) = i/per_uptake.
    struct Lent {
        const float *body, *surface, *pore_body, *pore_surface;
        int shades, uptakes;
        float shade_low, per_shade, per_uptake, half_way, usual_pore;
    };
    Lent lent() const;

private:
    static constexpr std::size_t shade_entries = 193, uptake_entries = ToneSpectra::table_cells + 1;
    using Entry = std::array<float, 4>;  // X, Y, Z and nothing: aligned for vector loads
    struct Place {
        std::size_t first;
        float along, across;
    };
    Place place(float shade, float uptake) const;
    Tone sheet(const Place& p) const {
        Tone t;
        for (std::size_t c = 0; c < 3; ++c) {
            t.body[c] = between(body_, p, c);
            t.surface[c] = between(surface_, p, c);
        }
        return t;
    }
    static float between(const std::vector<Entry>& e, const Place& p, std::size_t c) {
        const Entry* at = e.data() + p.first;
        const float low = at[0][c] + p.along * (at[1][c] - at[0][c]);
        const float high = at[shade_entries][c] + p.along * (at[shade_entries + 1][c] - at[shade_entries][c]);
        return low + p.across * (high - low);
    }

    ToneRange range_;
    color::Xyz white_;
    float shade_scale_ = 0, uptake_scale_ = 0, half_way_ = 1, usual_pore_ = 0;
    std::size_t pores_ = 0;              // entries before those of pores; 0 if there are none
    std::vector<Entry> body_, surface_;  // flats, then pores
};

}  // namespace foretone::appearance
