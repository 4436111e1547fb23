#pragma once
// One wood, cut and seed made ready; paints bands of a board's maps.

#include <memory>

#include "foretone/grain/blotch.hpp"
#include "grain_log.hpp"
#include "grain_pores.hpp"
#include "grain_rays.hpp"
#include "grain_rings.hpp"
#include "grain_tone.hpp"

namespace foretone::grain {

class BoardFace {
public:
    BoardFace(const material::Wood& wood, const material::Grain& grain, Cut cut, int width, int height, double step,
              std::uint64_t seed, int threads);

    const Tone& tone() const { return tone_; }

    /// Fills rows [first, end) of the board, into maps whose first row is the board's row `origin`; uptake not yet
    /// brought to mean 1, shade not yet to the wood's mean.
    void paint(Maps& maps, int origin, int first, int end) const;

private:
    struct Work;  // buffers of one band
    void radii(Work& work, int first, int end) const;
    void tangent_row(float* out, double y) const;
    void grooves(Work& work, int first, int end) const;
    void layers(Work& work, int row) const;
    void row(Work& work, Maps& maps, int origin, int y) const;
    void lend();
    bool has_rays() const { return rays_ != nullptr; }
    double y_of(double row) const { return row * step_ - centre_; }

    material::Grain grain_;
    int width_;
    double step_, centre_;
    std::uint64_t seed_;
    Tone tone_;
    Log log_;
    base::Isa isa_ = base::widest_isa();
    PixelTables tables_;
    std::vector<float> v_, corner_drift_;        // by pixel corner
    std::vector<float> drift_px_, turn_, rise_;  // by pixel
    std::unique_ptr<Rings> rings_;
    std::unique_ptr<Rays> rays_;
    Noise fibre_[5], mix_[2], contrast_, drift_[2];
    Blotches blotches_;
    Noise curl_[2];
    LineNoise curl_shift_;
};

}  // namespace foretone::grain
