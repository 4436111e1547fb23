#pragma once
/// A stack made ready: streams, scattering, and the adding of layers from base to top at one wavelength.

#include <cstddef>
#include <map>
#include <utility>
#include <vector>

#include "angular_films.hpp"
#include "angular_adding.hpp"
#include "angular_modes.hpp"
#include "angular_scatter.hpp"
#include "angular_streams.hpp"
#include "foretone/optics/angular.hpp"

namespace foretone::optics::angular_detail {

/// Where the adding ends: in the air above the stack, or in its top medium, under the top interface.
enum class Top { air, inside };

/// Valid while the stack it was made for lives.
class AngularSolver {
public:
    /// Measuring directions (views) are at the given cosines in air. Throws std::invalid_argument for a bad stack or
    /// stream count.
    AngularSolver(const Stack& stack, AngularOptions options, const std::vector<double>& air_cosines);

    /// Light of unit radiance in all directions of the air, or of the medium under the top interface.
    Eigen::VectorXd uniform(Top top) const;
    const Eigen::VectorXd& root_flux() const { return root_flux_; }

    /// Adds up the stack at a wavelength; the calls below then speak of that wavelength.
    void solve(std::size_t wavelength, Top top);

    /// (1 + Z)⁻¹e: light going up under incident light e is twice this less e; the light let through, twice
    /// through·this.
    Eigen::VectorXd answer(const Eigen::VectorXd& incident);
    const Eigen::VectorXd& through() const { return below_.through; }

    /// Regular reflectance of a stream: what is neither scattered nor reflected by the base.
    double regular(int stream, std::size_t wavelength) const;

private:
    double scattering(std::size_t layer, std::size_t wavelength) const;
    bool scatters(std::size_t layer, std::size_t wavelength) const;
    double index(std::size_t medium) const;
    std::pair<double, double> kind(std::size_t layer) const;
    void start(std::size_t wavelength);
    void add_loss(FilmRun& run, std::size_t layer, double loss_per_mm, int stream) const;
    FilmRun films(std::size_t first, std::size_t last, int stream, std::size_t wavelength) const;
    void add_films(std::size_t first, std::size_t last, std::size_t wavelength);
    void add_films_inside(std::size_t last, std::size_t wavelength);
    void add_layer(std::size_t layer, std::size_t wavelength);

    const Stack& stack_;
    bool averaged_;
    std::vector<double> indices_;  ///< of the layers, nearly equal ones made equal
    Streams streams_;
    Eigen::VectorXd root_flux_;
    std::map<std::pair<double, double>, Scattering> media_;  ///< by kind: index and anisotropy
    ModeSolver mode_solver_;
    Adder adder_;
    TwoPort port_;
    Below below_, inner_;
    Eigen::MatrixXd work_;
    Eigen::LLT<Eigen::MatrixXd> cholesky_;
};

}  // namespace foretone::optics::angular_detail
