#pragma once
// The figures a finisher asks for, worked out from the unknowns, with errors carried over from theirs.

#include <functional>

#include "fit_model.hpp"

namespace foretone::learn {

/// A figure as a function of the unknowns as the model is set.
struct Headline {
    std::string material, figure, unit;
    std::string group;  ///< of unknowns that are told together
    bool factor = false;
    std::function<double(const FitModel&)> value;
};

/// Wood: bare L*, a*, b*. Stock or powder of a step: strength against the library's. Film: absorption at 450 nm, and
/// per method the dry build of a coat and its tint.
std::vector<Headline> headlines(const FitModel& model);

/// ∂ figure (∂ ln figure for a factor) / ∂ unknowns at `p`. Sets the model to `p`.
Eigen::VectorXd gradient(FitModel& model, const Headline& headline, const Eigen::VectorXd& p);

/// Total absorbance, 400–700 nm, of a litre of a stock or a gram of a powder among those materials.
double whole_absorbance(const material::Materials& materials, const std::string& id);

/// Dry share of a binder's liquid in a step: what a µm of wet film leaves.
double dry_share(const schedule::Step& step, const material::Materials& materials);

}  // namespace foretone::learn
