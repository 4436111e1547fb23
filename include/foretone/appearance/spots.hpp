#pragma once
/// A board's spots handed over in pieces: what is worked out of all of them without holding them all.

#include <array>
#include <cstddef>
#include <functional>
#include <span>

#include "foretone/appearance/mean_matched.hpp"

namespace foretone::appearance {

/// All spots of a board, as often as asked, always in one order. Uptake and pore are as long as shade in every piece,
/// or empty in every one.
class Spots {
public:
    using Take =
        std::function<void(std::span<const float> shade, std::span<const float> uptake, std::span<const float> pore)>;
    virtual ~Spots() = default;
    virtual void each(const Take& take) const = 0;
};

/// Extremes of all spots, and their number.
struct SpotRange {
    float shade_low = 0, shade_high = 0, uptake_high = 1;
    std::size_t count = 0;

    /// As ToneRange::covering of all spots.
    ToneRange covering(double margin = 0.02) const;
};

/// How often each shade is met, dealt linearly onto 128 points between the lowest and the highest.
class ShadeShares {
public:
    static constexpr std::size_t points = 128;

    /// Throws std::invalid_argument for shades beyond `shaded`.
    ShadeShares(float lowest, float highest);
    void add(std::span<const float> shade);

    std::size_t count() const { return count_; }
    double low() const { return low_; }
    double width() const { return width_; }
    double share(std::size_t point) const { return sums_[point] / static_cast<double>(count_); }

private:
    double low_, width_;
    std::array<double, points> sums_{};
    std::size_t count_ = 0;
};

/// As `centred` of the shades that were added. Throws std::invalid_argument if there were none.
material::Wood centred(const material::Wood& wood, const ShadeShares& shares);

/// The mean of ToneSpectra over spots that come in pieces: the same sum in the same order.
class ToneMean {
public:
    /// `spectra` must outlive it.
    explicit ToneMean(const ToneSpectra& spectra);

    /// Throws std::invalid_argument for maps of two lengths.
    void add(std::span<const float> shade, std::span<const float> uptake, std::span<const float> pore);
    SplitReflectance mean() const;

private:
    static constexpr std::size_t nx = 257, nt = 129;  // points in shade and on the axis of uptake
    const ToneSpectra& spectra_;
    double t_high_, width_;
    std::size_t count_ = 0;
    std::vector<double> share_;  // flats and, where they are told, pores
};

/// As `mean_matched_spectra` of all spots, which are gone through once.
MeanMatchedSpectra mean_matched_spectra(const Board& board, const material::Wood& wood, const material::Wood& spots,
                                        optics::Geometry geometry, const Solver& solver, const Spots& all,
                                        const SpotRange& range);

}  // namespace foretone::appearance
