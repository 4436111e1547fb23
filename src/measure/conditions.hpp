#pragma once
/// Under what a file's values were read: light, observer, geometry, scale. Every spelling of the trade is brought to
/// the project's ids.

#include <optional>
#include <string>
#include <string_view>

#include "cells.hpp"

namespace foretone::measure {

/// "D65" from "CIE D65", "Illuminant D65", "d65"; other names as written, blanks around left out.
std::string light_from(std::string_view text);

/// "2deg" or "10deg" from 2, "2 degree", "10°", "CIE 1931", "1964" ...; nothing if it is neither.
std::optional<std::string> observer_from(std::string_view text);

/// What was made of a geometry's name.
struct GeometryWord {
    std::optional<optics::Geometry> geometry;
    bool sphere_open = false;  ///< d/8 without saying whether the specular is included
};

/// 45/0 from "45/0", "0:45", "45°c:0°", "45a:0" ...; d/8 from "d/8-included", "di:8°", "d/8 SCI", "de:8", "specular
/// excluded" ...
GeometryWord geometry_from(std::string_view text);

/// What a file (or a row of it) says of its readings.
struct Conditions {
    std::string light, observer;
    std::optional<optics::Geometry> geometry;
    std::optional<bool> percent;   ///< of reflectances
    std::size_t percent_line = 0;  ///< where it is said

    /// Takes a key (any case, '_' or blank between words) and its value; true if the key is one of a condition. Throws
    /// Refused observer-unknown, scale-unknown; notes geometry-unknown, geometry-open.
    bool take(std::string_view key, const Cell& value, Notes& notes);

    /// Fills in what the user states. Throws Refused light-contradicts, observer-contradicts, geometry-contradicts.
    /// `percent` is left to `Scale`.
    void state(const Options& options);
};

/// The key as conditions and tags have it: lower-case, single '_' for blanks, dashes and points between words.
std::string key_of(std::string_view text);

/// The name of a geometry in messages and files: "45/0", "d/8-included", "d/8-excluded".
std::string_view geometry_word(optics::Geometry geometry);

}  // namespace foretone::measure
