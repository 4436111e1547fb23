#pragma once
/// What a column holds, from its name.

#include <optional>
#include <string>
#include <string_view>

#include "foretone/optics/stack.hpp"

namespace foretone::measure {

struct Column {
    enum class Kind {
        tag,         ///< anything else: kept as written
        name,        ///< the sample's name
        id,          ///< its number, a name if there is no other
        nothing,     ///< no heading
        wavelength,  ///< a reflectance at `nm`
        pair_nm,     ///< a wavelength whose reflectance is in the next column
        pair_value,  ///< that reflectance
        lab_l,
        lab_a,
        lab_b,
        xyz_x,
        xyz_y,
        xyz_z,
        delta_l,  ///< a difference to a standard, ΔL*
        delta_a,
        delta_b,
        light,
        observer,
        geometry,
        spread  ///< one standard deviation, ΔE
    };
    Kind kind = Kind::tag;
    double nm = 0;
    std::optional<bool> percent{};  ///< if the name says it, as what follows
    std::string light{}, observer{};
    std::optional<optics::Geometry> geometry{};

    /// "D65 10deg 1": under what its color is, and how read, as far as the name says.
    std::string under() const {
        return light + " " + observer + (geometry ? " " + std::to_string(static_cast<int>(*geometry)) : "");
    }
};

/// What a heading says, conditions and all ("L*(D65)", "R400nm [%]"). `plain_numbers`: a bare 400 or 400.0 is a
/// wavelength too (in CSV), and so are plain L, a, b and X, Y, Z.
Column column_of(std::string_view heading, bool plain_numbers);

/// The wavelength in a heading such as SPECTRAL_NM_400, SPECTRAL_NM400, NM_400, nm400, R_400, SPEC_400, SPECTRAL_400,
/// 400_NM, "400 nm".
std::optional<Column> wavelength_column(std::string_view heading, bool plain_numbers);

/// The wavelength that a heading nearly is: letters for digits ("55O", "4l0"), or a wavelength's word with a number
/// that is none ("SPECTRAL_NM7300"); its text as it should be, empty for the latter. Nothing for any other heading.
std::optional<std::string> nearly_wavelength(std::string_view heading);

/// True for the words that head a column of wavelengths: wavelength, wavelength_nm, nm, lambda, λ ...
bool heads_wavelengths(std::string_view heading);

/// What a heading says of percent or fractions: "%", "percent", "pct", "(0-100)"; "fraction", "decimal", "(0-1)"; not
/// where a number stands before it, as in "5% dye".
std::optional<bool> percent_said(std::string_view heading);

}  // namespace foretone::measure
