#pragma once
// A stack as alternating runs of clear films and scattering slabs, and the light under the top run.

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "beam.hpp"
#include "foretone/optics/clear_films.hpp"
#include "foretone/optics/stack.hpp"
#include "interfaces.hpp"
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

/// A run of clear films (none: a bare interface, or nothing at all where the indices agree) between two media: films
/// first_film … first_film + films − 1 of the chain.
struct Run {
    double n_above = 1, n_below = 1;
    std::size_t first_film = 0, films = 0;

    bool nothing() const { return films == 0 && n_above == n_below; }
};

/// The top run; then a slab and the run beneath it, as often as the stack has scattering layers. Storage is reused.
class Chain {
public:
    void make(const Stack& stack);

    const Run& top() const { return runs_.front(); }
    std::size_t slabs() const { return slabs_.size(); }
    std::size_t slab(std::size_t i) const { return slabs_[i]; }  ///< its layer number
    const Run& under(std::size_t i) const { return runs_[i + 1]; }
    std::span<const MergedFilm> films(const Run& run) const { return {films_.data() + run.first_film, run.films}; }

    /// Indices of a run's media from above down, its two neighbours included. Valid until the next call.
    std::span<const double> media(const Run& run);

private:
    std::vector<MergedFilm> films_;
    std::vector<Run> runs_;
    std::vector<std::size_t> slabs_;
    std::vector<double> media_;
};

/// Depths of a run's films at every wavelength, padded, in storage that is reused.
class Depths {
public:
    /// Valid until the next call.
    const double* const* update(std::span<const MergedFilm> films, const Stack& stack);

private:
    std::vector<double> values_;
    std::vector<const double*> rows_;
};

/// Everything below the top run: what it does with diffuse light, and, given rays, with a beam and an eye
/// (kernels::Channels). All arrays padded, in storage that is reused.
class Under {
public:
    void solve(const Stack& stack, Chain& chain, const std::optional<Rays>& rays, InterfaceShelf& shelf);
    const kernels::Channels& channels() const { return channels_; }

private:
    void make_room(std::size_t wavelengths);
    void start(const Base& base);
    void cross(const Run& run, Chain& chain, const Stack& stack, InterfaceShelf& shelf);
    void cross_seen(const Run& run, const Interfaces& interfaces, const double* const* depths);
    void lay(const Layer& layer);
    void lay_half_space(const Layer& layer);
    const double* padded_row(const std::vector<double>& values, std::vector<double>& row) const;

    std::optional<Rays> rays_;
    std::size_t count_ = 0;  ///< wavelengths, padded
    std::vector<double> channel_values_;
    kernels::Channels channels_{};
    Depths depths_;
    std::vector<double> absorption_, scattering_, r_above_, r_below_, t_up_, scratch_;
    std::vector<double> beam_back_, beam_on_, eye_back_, eye_on_;  ///< of the run being crossed
};

}  // namespace foretone::optics
