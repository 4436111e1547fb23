// One board has one wood, one pot one dye, one can one film: a figure of a material is one knob and moves everything
// that uses it. The wet film of one coat is, relative to what is meant, 1 + sd·(√ρ h + √(1−ρ) h_c): h the hand, tool
// and thinning of the step, h_c the coat's own, both standard normal, ρ the share of the variance that the coats of a
// step have in common. Every coat then has the standard deviation sd.

#include "knobs.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/appearance/spread.hpp"
#include "foretone/material/references.hpp"

namespace foretone::appearance {
using material::Shelf;

Knobs::Knobs(const Shelf& shelf, const std::string& wood, const schedule::Finish& finish, double hand) : hand_(hand) {
    std::set<std::string> used = {wood};
    for (const auto& step : finish.steps)
        for (const auto& part : step.mix) used.insert(part.use);
    shelf_ = material::with_parts(shelf, used);
    wood_ = &std::get<material::Wood>(shelf_.at(wood).data);
    add_materials();
    add_hand(finish);
}

void Knobs::add_materials() {
    for (auto& [id, m] : shelf_)
        for (auto& f : material::figures(m)) {
            if (!f.optical || f.sd() <= 0) continue;
            Knob knob{id + " " + f.key, f, -1, -1, f.figure ? f.figure->value : 0, {}};
            if (f.spectrum) knob.values = f.spectrum->values;
            knobs_.push_back(std::move(knob));
        }
}

void Knobs::add_hand(const schedule::Finish& finish) {
    for (std::size_t s = 0; s < finish.steps.size(); ++s) {
        const int step = static_cast<int>(s), coats = finish.steps[s].coats;
        const std::string what = "step " + std::to_string(s + 1) + " wet film";
        if (coats > 0 && hand_ > 0) knobs_.push_back({what, {}, step, -1, 0, {}});
        for (int coat = 0; coat < coats && hand_ > 0; ++coat) knobs_.push_back({what, {}, step, coat, 0, {}});
        coat_hand_.emplace_back(static_cast<std::size_t>(std::max(coats, 0)), 0.0);
    }
    step_hand_.assign(finish.steps.size(), 0.0);
    departure_.wet = coat_hand_;
    for (const auto& step : finish.steps) departure_.soaks.push_back(schedule::deposit(step, shelf_).soaks());
}

void Knobs::turn(std::size_t index, double sigmas) {
    Knob& knob = knobs_[index];
    if (knob.step >= 0) {
        const auto s = static_cast<std::size_t>(knob.step);
        if (knob.coat < 0)
            step_hand_[s] = sigmas;
        else
            coat_hand_[s][static_cast<std::size_t>(knob.coat)] = sigmas;
        return;
    }
    if (knob.at.figure)
        knob.at.figure->value = knob.value;
    else
        knob.at.spectrum->values = knob.values;
    material::move(knob.at, sigmas);
}

const Departure& Knobs::departure() {
    const double common = hand_ * std::sqrt(wet_film_common), own = hand_ * std::sqrt(1 - wet_film_common);
    auto& wet = departure_.wet;
    for (std::size_t s = 0; s < wet.size(); ++s)
        for (std::size_t c = 0; c < wet[s].size(); ++c)
            wet[s][c] = std::max(0.1, 1 + common * step_hand_[s] + own * coat_hand_[s][c]);
    return departure_;
}

}  // namespace foretone::appearance
