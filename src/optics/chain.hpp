#pragma once
// A stack as alternating runs of clear films and scattering slabs, and the light under the top run.

#include <cstddef>
#include <optional>
#include <vector>

#include "beam.hpp"
#include "foretone/optics/clear_films.hpp"
#include "foretone/optics/stack.hpp"
#include "kernels.hpp"

namespace foretone::optics {

bool is_clear(const Layer& layer);

/// Room for `wavelengths` values in whole vectors of eight: the loops then have no odd end. The spare ones hold zeros.
inline std::size_t padded(std::size_t wavelengths) { return (wavelengths + 7) / 8 * 8; }

/// Neighbouring clear layers of one index, together one film: layers first … first + count − 1.
struct MergedFilm {
    double n;
    std::size_t first, count;
};

/// A run of clear films (none: a bare interface, or nothing at all where the indices agree) between two media.
struct Run {
    double n_above = 1, n_below = 1;
    std::vector<MergedFilm> films;
    std::vector<double> indices() const;
};

/// The top run; then a slab and the run beneath it, as often as the stack has scattering layers.
struct Chain {
    Run top;
    std::vector<std::size_t> slabs;  ///< layer numbers
    std::vector<Run> runs;           ///< runs[i] lies under slabs[i]
};

Chain make_chain(const Stack& stack);

/// Depths of a run's films at every wavelength, padded, in storage that is reused.
class Depths {
public:
    Depths(const Run& run, std::size_t wavelengths);
    Depths(const Depths&) = delete;  // rows point into values
    Depths(Depths&&) noexcept = default;
    Depths& operator=(const Depths&) = delete;
    Depths& operator=(Depths&&) noexcept = default;
    const double* const* update(const Run& run, const Stack& stack);

private:
    std::size_t wavelengths_, row_length_;
    std::vector<double> values_;
    std::vector<const double*> rows_;
};

/// Everything below the top run: what it does with diffuse light, and, given rays, with a beam and an eye
/// (kernels::Channels). All arrays padded.
class Under {
public:
    Under(const Stack& like, const Chain& chain, std::optional<Rays> rays);
    void solve(const Stack& stack, const Chain& chain);
    const kernels::Channels& channels() const { return channels_; }

private:
    struct Join {
        Join(const Run& run, std::size_t wavelengths, const std::optional<Rays>& rays);
        std::optional<ClearFilms> films;  ///< none: no films and no change of index
        std::optional<ClearBeam> beam, eye;
        Depths depths;
    };
    void start(const Base& base);
    void cross(Join& join, const Run& run, const Stack& stack);
    void cross_seen(Join& join, const Run& run, const double* const* depths);
    void lay(const Layer& layer);
    void lay_half_space(const Layer& layer);

    std::optional<Rays> rays_;
    std::size_t count_;  ///< wavelengths, padded
    std::vector<Join> joins_;
    std::vector<double> channel_values_;
    kernels::Channels channels_{};
    std::vector<double> absorption_, scattering_, r_above_, r_below_, t_up_, scratch_;
    std::vector<double> beam_back_, beam_on_, eye_back_, eye_on_;  ///< of the run being crossed
};

}  // namespace foretone::optics
