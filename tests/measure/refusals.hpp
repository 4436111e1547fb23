#pragma once
/// What a reader refuses, as one line that a test can compare: place, id, value.

#include <string>

#include "foretone/measure/reading.hpp"

namespace foretone::test {

/// "3:7 number-bad '0.3x'" of what `call` refuses; "read" if it does not.
template <class Call>
std::string refused_as(Call&& call) {
    try {
        call();
    } catch (const measure::Refused& e) {
        return std::to_string(e.line) + ":" + std::to_string(e.column) + " " + e.id + " '" + e.value + "'";
    }
    return "read";
}

/// The message itself; empty if nothing is refused.
template <class Call>
std::string refusal_text(Call&& call) {
    try {
        call();
    } catch (const measure::Refused& e) {
        return e.what();
    }
    return "";
}

/// "3:7 decimal-comma" of every note, one a line.
inline std::string note_lines(const std::vector<measure::Note>& notes) {
    std::string out;
    for (const auto& n : notes)
        out += (out.empty() ? "" : "\n") + std::to_string(n.line) + ":" + std::to_string(n.column) + " " + n.id;
    return out;
}

}  // namespace foretone::test
