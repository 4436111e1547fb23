#pragma once
/// The fast solver: two diffuse fluxes, a beam and an eye for what scatters, clear films integrated over angle.
///
/// Clear films over a Lambertian base exact to 1e-6. With scattering zones (wood of reflectance 0.03–0.85 within,
/// n 1.33–1.54, 6–14 /mm of reduced scattering, 0.02–0.3 mm in one or two zones, pores filled to 0–70 %, dye of
/// absorbance 0–2.5 and a clear film above), relative error of the body radiance factor against the angular solver, 600
/// seeded finishes each:
///
///     reading   film                                median   95th percentile   largest
///     45/0      clear                                0.22 %       0.72 %         1.4 %
///     d/8       clear                                0.22 %       1.0 %          2.0 %
///     45/0      scattering, 0.05–1 /mm, 20–100 µm    0.29 %       1.6 %          4.3 %
///     d/8       scattering                           0.38 %       1.9 %          4.4 %
///
/// (45/0 by dye: largest 1.2 % without, 1.3 % up to 0.1, 1.4 % up to 0.5, 1.1 % beyond. The largest errors under
/// scattering films are those of nearly black boards, 0.001 of radiance factor.) h0, h1 (calibration.hpp), the source
/// gain and the cone's share (beam.hpp) are fitted to such finishes. Forward scattering is not told from a weaker
/// isotropic one: only µs(1 − g) counts. Uniform diffuse light (`Light::diffuse`) is taken as diffuse inside too, which
/// it is not under a step of index: slabs of n = 1.5 in air that hardly scatter come out as much as 0.24 wrong.
///
/// Outside finishes, absolute error of the radiance factor in either geometry, 0.5–20 /mm of reduced scattering and
/// 0.01–20 /mm of absorption, slabs of 0.02–1 mm over a Lambertian base and half-spaces, largest of 1000 seeded stacks:
///
///     one scattering layer, n 1.33–1.58, g 0–0.95            0.03
///     the same, g −0.3–0                                     0.04
///     the same, g −0.99 – −0.3: not a model of it            0.6
///     g = 0, n 1–3, under one to five clear films of n 1–3   0.03
///
/// `angular` is the solver for media that scatter backward. Boards are made of media with g = 0.

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

#include "foretone/optics/stack.hpp"

namespace foretone::optics {

/// Hemispherical fluxes. Throws as `check(stack)` does.
Fluxes two_flux(const Stack& stack, const Light& light);

/// Radiance factor in a measuring geometry. Throws as `check(stack)` does.
Radiance two_flux(const Stack& stack, Geometry geometry);

/// Diffuse–diffuse reflectance of the stack seen from inside its top medium, that is without the top interface: what a
/// dry, rough surface model is put over. The stack's top layer must scatter, or the stack have no layers.
std::vector<double> two_flux_inside(const Stack& stack);

/// The same, bit for bit, for many stacks one after another: storage is kept, and so is what indices decide of the last
/// few runs of clear films, angles and interfaces; nothing is allocated once everything has its size. Not to be shared
/// between threads: it owns the scratch it works in.
class TwoFluxReader {
public:
    TwoFluxReader();
    ~TwoFluxReader();
    TwoFluxReader(TwoFluxReader&&) noexcept;
    TwoFluxReader& operator=(TwoFluxReader&&) noexcept;

    /// Throw as the free functions do.
    void read(const Stack& stack, Geometry geometry, Radiance& out);
    void read(const Stack& stack, const Light& light, Fluxes& out);
    void inside(const Stack& stack, std::vector<double>& out);

private:
    friend class TwoFluxSolver;
    void read_checked(const Stack& stack, Geometry geometry, Radiance& out);
    void read_checked(const Stack& stack, const Light& light, Fluxes& out);

    struct Work;
    std::unique_ptr<Work> work_;
};

/// The same for many stacks of one make alone: the same sequence of indices, the same layers clear, the same base kind
/// and number of wavelengths; coefficients and thicknesses differ. Not to be shared between threads.
class TwoFluxSolver {
public:
    /// Prepared for the make of `like` and a geometry (then solve into Radiance), or a light (then solve into Fluxes).
    /// Throws as `check(like)` does.
    TwoFluxSolver(const Stack& like, Geometry geometry);
    TwoFluxSolver(const Stack& like, const Light& light);

    /// Throws as `check(stack)` does, and std::invalid_argument if the stack is of another make or `out` is not what
    /// this solver was prepared for.
    void solve(const Stack& stack, Radiance& out);
    void solve(const Stack& stack, Fluxes& out);

private:
    explicit TwoFluxSolver(const Stack& like);
    void require_same_make(const Stack& stack) const;

    TwoFluxReader reader_;
    std::size_t wavelengths_;
    Base::Kind base_;
    std::vector<double> indices_;
    std::vector<bool> clear_;
    std::optional<Geometry> geometry_;
    std::optional<Light> light_;
};

}  // namespace foretone::optics
