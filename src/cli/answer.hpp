#pragma once
/// One answer of `mix`: named values, the formulas they come from, what to mind.

#include <string>
#include <vector>

#include "common.hpp"

namespace foretone::cli {

struct Answer {
    struct Value {
        std::string key;    ///< in JSON
        std::string label;  ///< on the terminal
        double value = 0;
        std::string unit;
        int digits = 2;
        std::string text{};  ///< number and unit on the terminal; empty: worked out from the above
    };
    std::string title;
    std::vector<Value> values;
    std::vector<std::string> formulas;
    std::vector<std::string> notes;
    std::optional<schedule::UnitSystem> units;  ///< to print in; unsaid: --units, else metric
    std::vector<std::string> cautions;          ///< words of material::caution_words, beside the standing ones
};

/// Prints the answer, or writes it as JSON, or both, as the options say. Cautions are always among it. Returns 0.
int give(const Answer& answer, const Common& common);

}  // namespace foretone::cli
