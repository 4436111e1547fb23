#pragma once
/// Readings of boards as an instrument, a spreadsheet or a photograph gives them, and everything said about them.

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "foretone/color/lab.hpp"
#include "foretone/optics/stack.hpp"
#include "foretone/spectral/sampled.hpp"

namespace foretone::measure {

/// One reading of one patch. It holds a reflectance, a Lab value, tristimulus values, or several of these.
struct Reading {
    std::string name;  ///< of the sample, as written; its number in the file if it has none
    std::map<std::string, std::string>
        tags;  ///< the other columns as written (wood, finish, step, coats ...); lower-case keys
    std::optional<spectral::Sampled>
        reflectance;  ///< fractions 0–1 at its own wavelengths, nm; covers 400–700 nm at 20 nm or finer
    std::optional<color::Lab> lab;             ///< under `light` for `observer`
    std::optional<color::Xyz> xyz;             ///< Y = 100 scale, under `light` for `observer`
    std::optional<color::Lab> delta;           ///< difference to a standard, under `light` for `observer`
    std::string light;                         ///< of `lab` and `xyz`: "D65", "A", ...; empty if there is neither
    std::string observer;                      ///< of `lab` and `xyz`: "2deg" or "10deg"; empty if there is neither
    std::optional<optics::Geometry> geometry;  ///< if stated
    std::optional<double> spread_de;  ///< one standard deviation of repeats, ΔE, if stated or computed from repeats
    int repeats = 1;                  ///< readings that were averaged into this one
    bool relative = false;            ///< from a photograph: good for differences within it, not for a color by itself
    std::size_t line = 0;             ///< where it stands in the file, from 1
};

/// Something that was adapted or assumed in reading: nothing is adapted in silence. Line and column count from 1, 0 if
/// there is none.
struct Note {
    std::string id;
    std::size_t line = 0, column = 0;
    std::string text;
};

/// What a file held.
struct Readings {
    std::string format;  ///< "CGATS", "CSV", "Lab list", "CxF3", "Argyll text" or "photograph"
    std::map<std::string, std::string>
        keywords;                   ///< what the file says of itself, lower-case keys: instrumentation, originator ...
    std::vector<Reading> readings;  ///< at least one, in the file's order
    std::vector<Note> notes;
};

/// What the user states about a file. It fills in what the file leaves open; what contradicts the file is refused,
/// except `percent`, which decides against the file and is noted.
struct Options {
    std::optional<bool> percent;  ///< reflectances are percent (true) or fractions (false)
    std::string light;            ///< of Lab and XYZ columns: an id such as "D65"
    std::string observer;         ///< of Lab and XYZ columns: "2deg" or "10deg"
    std::optional<optics::Geometry> geometry;
    /// White (Y = 100) of a light for an observer, nothing if the light is unknown: needed to bring XYZ to Lab.
    std::function<std::optional<color::Xyz>(const std::string& light, const std::string& observer)> white;
    std::size_t most_bytes = 64u << 20;   ///< of text
    std::size_t most_fields = 1'000'000;  ///< values, and lines, of one file
};

/// The text cannot be read, or is ambiguous. `what()` says what was read and what would be right; line and column count
/// from 1, 0 if none.
struct Refused : std::runtime_error {
    Refused(std::string fault, std::size_t at_line, std::size_t at_column, std::string read, const std::string& text)
        : std::runtime_error(text), id(std::move(fault)), line(at_line), column(at_column), value(std::move(read)) {}
    std::string id;  ///< never changes its meaning
    std::size_t line, column;
    std::string value;  ///< what was read there, shortened
};

}  // namespace foretone::measure
