#pragma once
/// A finish in trade words, short enough for one line.

#include <string>

#include "foretone/material/material.hpp"
#include "foretone/schedule/step.hpp"

namespace foretone::report {

/// Whether a recipe's figures of films and gloss are said: they are the shop's, not the client's, who reads the gloss
/// in words.
enum class Figures { all, none };

/// One step: "Honey dye 4 : Russet dye 1 : Water 45 by volume, 1 coat wiped, 65 µm wet". Wet film and method are those
/// the step comes to, said or usual. Throws schedule::Fault for a step that cannot be worked out.
std::string step_text(const schedule::Step& step, const material::Materials& materials, Figures figures = Figures::all);

/// All steps, numbered: "1 …; 2 …".
std::string recipe_text(const schedule::Finish& finish, const material::Materials& materials,
                        Figures figures = Figures::all);

/// A gloss in words, by 60° gloss units: dead flat below 5, matte below 10, eggshell below 20, satin below 35,
/// semi-gloss below 70, gloss below 85, then high gloss (common practice; makers draw the lines a little differently).
std::string sheen_text(double gu60);

}  // namespace foretone::report
