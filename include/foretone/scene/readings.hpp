#pragma once
/// Files of measured boards: CGATS, CSV or a list of Lab values, read whole, every fault told as `file:line:column`.

#include <filesystem>
#include <string>
#include <vector>

#include "foretone/measure/reading.hpp"
#include "foretone/scene/library.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::scene {

/// Readings of the file at `path`; XYZ becomes Lab by the library's lights. Throws InputError: as `read_text` for files
/// that cannot be read, with the id, place and text of measure::Refused, light-unknown for a light that the library
/// does not have.
measure::Readings read_readings(const std::filesystem::path& path, const Library& library,
                                measure::Options stated = {});

/// The notes of `readings`, as warnings about `file`.
std::vector<Problem> notes_of(const measure::Readings& readings, const std::string& file);

/// The one reflectance of a file: a spectrum `wavelength_nm,reflectance` (read as `read_reflectance` does), or any file
/// of readings that holds exactly one, or one named `sample`.
struct OneReflectance {
    spectral::Sampled reflectance;
    std::string name;                          ///< of the reading; empty for a plain spectrum
    std::optional<optics::Geometry> geometry;  ///< if the file says it
    std::vector<Problem> notes;
};

/// One reading with all it holds: a reflectance, or a color under `light` for `observer`, or a difference to a
/// standard.
struct OneReading {
    std::optional<spectral::Sampled> reflectance;
    std::optional<color::Lab> lab, delta;
    std::string light, observer;               ///< of `lab` and `delta`
    std::string name;                          ///< of the reading; empty for a plain spectrum
    std::optional<optics::Geometry> geometry;  ///< if the file says it
    std::vector<Problem> notes;
    std::size_t line = 0;
};

/// Throws InputError as `read_reflectance` and `read_readings`, and: sample-unknown, readings-several.
OneReading read_one_reading(const std::filesystem::path& path, const Library& library, const std::string& sample = "");

/// Throws InputError as `read_one_reading`, and: sample-unknown, readings-several (both naming the
/// choices), reading-without-spectrum.
OneReflectance read_one_reflectance(const std::filesystem::path& path, const Library& library,
                                    const std::string& sample = "");

}  // namespace foretone::scene
