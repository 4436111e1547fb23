#pragma once
/// The comparison: the finished color of every finish side by side under every light, with the bare wood as control.

#include <string>
#include <vector>

#include "foretone/layout/field.hpp"
#include "foretone/layout/sheet.hpp"

namespace foretone::layout {

/// One finish under one light, and how it differs from the reference.
struct ComparedField {
    Field field;
    double de00 = 0;    ///< CIEDE2000 to the reference under this light, ≥ 0
    std::string words;  ///< the difference in words: "darker, redder"; may be empty
};

struct ComparedFinish {
    std::string name;
    std::string summary;  ///< its schedule in a line; may be empty
    std::vector<ComparedField> by_light;
};

struct Comparison {
    std::string scene, wood, geometry, observer;  ///< UTF-8, printed as given; empty ones are left out
    std::vector<std::string> lights;              ///< 1–8 names
    std::vector<Field> bare;                      ///< the control: one a light, or empty for none
    std::vector<Field> target;                    ///< one a light, or empty: then the first finish is the reference
    std::string target_name;                      ///< heading of the target; empty: "Target"
    std::vector<ComparedFinish> finishes;         ///< 1–64
    std::string rests_on;                         ///< the weakest provenance mark, with what it is about; may be empty
    std::vector<std::string> notes;               ///< printed at the foot
};

/// Lays the comparison out for 150 dpi. Finishes touch edge to edge after the control and the reference; when they need
/// several rows, control and reference open each row. Every field is captioned with L* a* b*, its sRGB code, its
/// spread, ΔE00 to the reference and the words. Names too long for their room are wrapped, and shortened with "…"
/// beyond that. Throws std::invalid_argument as lay_out(StepBoard) does, and for a negative or not finite ΔE00.
Sheet lay_out(const Comparison& comparison);

}  // namespace foretone::layout
