#pragma once
/// Runs of interfaces and clear films on one stream.

#include <array>
#include <cstddef>

#include "angular_adding.hpp"

namespace foretone::optics::angular_detail {

/// Interfaces and clear films met by one ray, from above down; s and p are kept apart.
class FilmRun {
public:
    /// `averaged`: s and p are averaged at each interface instead.
    explicit FilmRun(bool averaged) : averaged_(averaged) {}

    void add_interface(double beta_squared, double n_upper, double n_lower);
    void add_absorption(double transmittance);
    void add_unpolarised(const FilmRun& run);  ///< another run below this one, its polarisations averaged

    /// Unpolarised reflectance from above.
    double reflectance() const { return mean(above_); }

    /// The run as channel `channel` of a port, for unpolarised light.
    void write(TwoPort& port, int channel) const;

private:
    void add(std::size_t polarisation, double r_above, double r_below, double transmittance);

    double mean(const std::array<double, 2>& both) const { return 0.5 * (both[0] + both[1]); }

    bool averaged_;
    std::array<double, 2> above_{0, 0}, below_{0, 0}, through_{1, 1};
};

}  // namespace foretone::optics::angular_detail
