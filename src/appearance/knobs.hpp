#pragma once
// Everything about a finish that is not sure, as knobs that are turned in standard deviations.

#include <span>
#include <string>
#include <vector>

#include "foretone/material/figures.hpp"
#include "walk.hpp"

namespace foretone::appearance {

class Knobs {
public:
    /// `hand`: one standard deviation of a coat's wet film, as a share. Copies what the finish uses of the shelf: the
    /// wood, the parts of its steps, and what those are made of.
    Knobs(const material::Shelf& shelf, const std::string& wood, const schedule::Finish& finish, double hand);
    Knobs(const Knobs&) = delete;  // the knobs point into the shelf
    Knobs& operator=(const Knobs&) = delete;

    std::size_t count() const { return knobs_.size(); }
    /// "hard-maple reflectance", "step 1 wet film": knobs of one name act together and count as one.
    const std::string& what(std::size_t knob) const { return knobs_[knob].what; }

    /// Turns one knob to `sigmas` standard deviations from the figure's own value, kept inside its valid range.
    void turn(std::size_t knob, double sigmas);

    const material::Shelf& shelf() const { return shelf_; }
    const material::Wood& wood() const { return *wood_; }
    /// The hand as it stands. Which steps are seen damp does not depend on the knobs: all draws have the same stages.
    const Departure& departure();

private:
    struct Knob {
        std::string what;
        material::FigureAt at;     // of a material, or
        int step = -1, coat = -1;  // of the hand: one coat, or the whole step for coat −1
        double value = 0;          // before any turn
        spectral::Spectrum values{};
    };
    void add_materials();
    void add_hand(const schedule::Finish& finish);

    material::Shelf shelf_;
    double hand_;
    const material::Wood* wood_ = nullptr;
    std::vector<Knob> knobs_;
    std::vector<double> step_hand_;
    WetFactors coat_hand_;
    Departure departure_;
};

}  // namespace foretone::appearance
