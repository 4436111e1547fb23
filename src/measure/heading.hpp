#pragma once
/// A heading that says more than its column's name: "L*(D65)", "a* (A/10°)", "R400nm [%]", "L* SCI D65 10deg".

#include <optional>
#include <string>
#include <string_view>

#include "foretone/optics/stack.hpp"

namespace foretone::measure {

struct Heading {
    std::string base;             ///< what is left: "L*", "R400nm"
    std::optional<bool> percent;  ///< "%", "0-100"; "fraction", "0-1"
    std::string light, observer;  ///< "D65", "10deg"; empty if not said
    std::optional<optics::Geometry> geometry;
};

/// Takes conditions out of brackets (all that one holds must be understood) and off the end; nothing if there are none.
std::optional<Heading> undress(std::string_view heading);

}  // namespace foretone::measure
