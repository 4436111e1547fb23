#pragma once
/// How much finishes change wood, and which figures make one change it more than another.

#include <string>
#include <vector>

#include "foretone/appearance/render.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/color/xyz.hpp"
#include "foretone/scene/library.hpp"

namespace foretone::job {

/// One figure's share in what two finishes differ by.
struct DifferencePart {
    std::string figure;
    double de_ab = 0;  ///< how much more the first would change wood with the second's figure
};

/// What makes `there` change wood more than `here`.
struct DifferenceParts {
    double whole = 0;                   ///< ΔE*ab of `there` less that of `here`, mean over woods
    double sd = 0;                      ///< by the stated spreads of both finishes' figures
    std::vector<DifferencePart> parts;  ///< the largest first; each figure alone, so they need not add up
};

/// ΔE*ab from bare wood, two coats as the material is usually put on, D65, 10°, the mean of d/8 with and without the
/// specular.
class FilmDifferences {
public:
    /// Refuses (`material-unknown`) a library without `named`.
    FilmDifferences(const scene::Library& library, const std::vector<std::string>& named);

    double of(const std::string& wood, const std::string& use) const;
    /// The same under a film of water.
    double wetted(const std::string& wood) const;
    double lightness(const std::string& wood) const;  ///< L* of the bare wood
    /// Both must be binders.
    DifferenceParts between(const std::vector<std::string>& woods, const std::string& here,
                            const std::string& there) const;

private:
    double of(const std::vector<std::string>& woods, const material::Material& finish) const;
    const material::Wood& wood_of(const std::string& id) const;
    color::Lab seen(const appearance::Board& board, const material::Wood& wood) const;

    material::Materials materials_;
    color::Weights weights_;
    appearance::Solver solver_;
};

/// "stay 1.3, solids 0.7, index 0.3": all parts that round to at least 0.1.
std::string parts_text(const DifferenceParts& parts);

}  // namespace foretone::job
