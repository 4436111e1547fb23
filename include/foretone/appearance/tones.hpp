#pragma once
/// One finish on every kind of spot a board has: its color as a function of how dark the wood is there and how much it
/// takes up.
///
/// shade   ln of the local K/S of the wood's body over K/S of the mean wood; 0 the library's wood, > 0 darker
/// uptake  local absorbency over the wood's mean absorbency; 1 on average over a board
///
/// Reflectance and color are smooth in both, so a handful of spots is solved and the rest interpolated. Body and
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

/// The boards behind `stages`, in the same order: [0] is bare, the last one finished. Throws as `stages` does.
std::vector<Board> boards(const material::Shelf& shelf, const std::string& wood, const schedule::Finish& finish);

/// What a table spans. Beyond it the nearest spot inside is taken.
struct ToneRange {
    double shade_low = -2, shade_high = 3;
    double uptake_high = 4;  ///< from 0

    /// The least range that holds 0, 1 and all of the two maps, widened by `margin` of its span; kept inside shade −4…5
    /// and uptake 0–9: what no wood is. The maps have one length, or one is empty.
    static ToneRange covering(std::span<const float> shade, std::span<const float> uptake, double margin = 0.02);
};

/// Reflectance over the range, one state of a board in one geometry. 15 to 315 solves, one or two
/// milliseconds with the fast solver; every later answer is interpolation by
/// Chebyshev polynomials in shade and in √uptake/(√uptake + a constant of the board), within 1e-4 of the
/// solver for the default range.
class ToneSpectra {
public:
    /// Solves with `solver`; `board` is the mean board (`boards`), `wood` the mean wood. Throws std::invalid_argument
    /// for an empty range or one outside the limits of `shaded` and `at_uptake`.
    ToneSpectra(const Board& board, const material::Wood& wood, optics::Geometry geometry, const Solver& solver,
                const ToneRange& range = {});

    const ToneRange& range() const { return range_; }

    /// Spots solved: rising shades, rising uptakes (one if nothing has soaked in), and the reading of each.
    const std::vector<double>& shades() const { return shades_; }
    const std::vector<double>& uptakes() const { return uptakes_; }
    const Reading& solved(std::size_t shade, std::size_t uptake) const {
        return nodes_[uptake * shades_.size() + shade];
    }

    /// Weight of each solved shade (uptake) in the answer at `shade` (`uptake`); they sum to 1.
    std::vector<double> shade_weights(double shade) const;
    std::vector<double> uptake_weights(double uptake) const;

    /// The reading at one spot.
    Reading at(double shade, double uptake) const;

    /// The reading of a board: the mean over its maps, of equal length (uptake empty: 1 throughout). Throws
    /// std::invalid_argument for maps of two lengths or none.
    Reading mean(std::span<const float> shade, std::span<const float> uptake) const;

    /// The axis on which reflectance is smooth in uptake, t = √u/(√u + half_way()), and its inverse.
    double place_of(double uptake) const;
    double uptake_at(double place) const;
    double half_way() const { return half_way_; }

private:
    ToneRange range_;
    double half_way_ = 0.5;                          // √uptake at t = ½
    std::vector<double> shades_, uptakes_, places_;  // places_: of the uptakes on their axis
    std::vector<Reading> nodes_;
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

    /// The color at one spot, nearest inside if beyond the range. About 5 ns.
    Tone at(float shade, float uptake) const {
        const Place p = place(shade, uptake);
        Tone t;
        for (std::size_t c = 0; c < 3; ++c) {
            t.body[c] = between(body_, p, c);
            t.surface[c] = between(surface_, p, c);
        }
        return t;
    }

    /// The body alone: half the work.
    std::array<float, 3> body(float shade, float uptake) const {
        const Place p = place(shade, uptake);
        return {between(body_, p, 0), between(body_, p, 1), between(body_, p, 2)};
    }

    /// Body and surface together, as a reading sees them.
    color::Xyz reading(double shade, double uptake) const;

    /// Mean reading over the maps of a board (as ToneSpectra::mean).
    color::Xyz mean(std::span<const float> shade, std::span<const float> uptake) const;

private:
    static constexpr std::size_t shade_entries = 193, uptake_entries = 65;
    using Entry = std::array<float, 4>;  // X, Y, Z and nothing: aligned for vector loads
    struct Place {
        std::size_t first;
        float along, across;
    };
    Place place(float shade, float uptake) const;
    static float between(const std::vector<Entry>& e, const Place& p, std::size_t c) {
        const Entry* at = e.data() + p.first;
        const float low = at[0][c] + p.along * (at[1][c] - at[0][c]);
        const float high = at[shade_entries][c] + p.along * (at[shade_entries + 1][c] - at[shade_entries][c]);
        return low + p.across * (high - low);
    }

    ToneRange range_;
    color::Xyz white_;
    float shade_scale_ = 0, uptake_scale_ = 0, half_way_ = 1;
    std::vector<Entry> body_, surface_;
};

}  // namespace foretone::appearance
