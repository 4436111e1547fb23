#pragma once
/// The fast solver: Kubelka–Munk slabs for what scatters, clear films integrated over angle for what does not.

#include <memory>

#include "foretone/optics/stack.hpp"

namespace foretone::optics {

/// Hemispherical fluxes. Throws as `check(stack)` does.
Fluxes two_flux(const Stack& stack, const Light& light);

/// Radiance factor in a measuring geometry. Throws as `check(stack)` does.
Radiance two_flux(const Stack& stack, Geometry geometry);

/// Diffuse–diffuse reflectance of the stack seen from inside its top medium, that is without the top interface: what a dry, rough
/// surface model is put over. The stack's top layer must scatter, or the stack have no layers.
std::vector<double> two_flux_inside(const Stack& stack);

/// The same for many stacks of one make: the same sequence of indices, the same layers clear, the same base kind and number of
/// wavelengths; coefficients and thicknesses differ. Angles and interfaces are worked out once, and solving allocates
/// nothing once `out` has its size. Not to be shared between threads: it owns the scratch it works in.
class TwoFluxSolver {
public:
    /// Prepared for the make of `like` and a geometry (then solve into Radiance), or a light (then solve into Fluxes).
    /// Throws as `check(like)` does.
    TwoFluxSolver(const Stack& like, Geometry geometry);
    TwoFluxSolver(const Stack& like, const Light& light);
    ~TwoFluxSolver();
    TwoFluxSolver(TwoFluxSolver&&) noexcept;
    TwoFluxSolver& operator=(TwoFluxSolver&&) noexcept;

    /// Throws as `check(stack)` does, and std::invalid_argument if the stack is of another make or `out` is not what this solver
    /// was prepared for.
    void solve(const Stack& stack, Radiance& out);
    void solve(const Stack& stack, Fluxes& out);

private:
    struct Prepared;
    std::unique_ptr<Prepared> prepared_;
};

}  // namespace foretone::optics
