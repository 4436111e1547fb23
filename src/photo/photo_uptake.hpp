#pragma once
/// How much a spot of a photographed board is, judged by how dark it is: by the wood's own early and late wood and
/// its pores.

#include "foretone/material/material.hpp"

namespace foretone::photo {

/// Absorbency over shade. In a wood whose latewood is darker and denser, darker spots drink less, until they are so
/// dark that they are pores, which drink more. Between early and late wood ln(absorbency) goes straight with shade.
class UptakeOfShade {
public:
    /// From the wood's grain; 1 throughout for a wood without.
    explicit UptakeOfShade(const material::Wood& wood);

    /// At `shade` from the board's middle: relative to that of the wood's mean, 0.05–8. Not yet centred on the board at
    /// hand.
    double at(double shade) const;

    /// How far below the middle the palest wood lies: early or late wood, and two standard deviations of what else
    /// varies.
    double palest() const { return palest_; }

private:
    double pale_ = 0, dark_ = 0;        // shades of the paler and the darker of early and late wood
    double ln_pale_ = 0, ln_dark_ = 0;  // ln absorbency there
    double pore_begin_ = 0, pore_ = 0, ln_pore_ = 0;
    double palest_ = -1;
};

}  // namespace foretone::photo
