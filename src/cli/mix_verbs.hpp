#pragma once
/// The sub-commands of `mix`.

#include <stdexcept>

#include "answer.hpp"
#include "foretone/schedule/shop_arithmetic.hpp"
#include "foretone/schedule/step.hpp"

namespace foretone::cli {

/// All that any sub-command can be told; amounts as written.
struct MixOptions : Common {
    std::string amount, to, volume, have, part, area, percent;
    double resin_density = 1.15, alcohol_density = 0.789, density = 0.998, ratio = 0.5;
    int rungs = 5, step = 1;
    std::string scene, finish;
    std::string scale, syringe;
};

/// Runs it; a Fault or a bad argument becomes an InputError placed at `where`.
int with_place(const std::string& where, const Verb& run);

int mix_cut(const MixOptions& o);
int mix_thin(const MixOptions& o);
int mix_powder(const MixOptions& o);
int mix_weigh(const MixOptions& o);
int mix_ladder(const MixOptions& o);
int mix_tint(const MixOptions& o);
int mix_film(const MixOptions& o);
int mix_pot(const MixOptions& o);

}  // namespace foretone::cli
