#pragma once
/// What step boards taught of several figures at once: how far each may still be off, and how they hang together.
///
/// A fit leaves combinations of figures well known whose figures alone are not: a stronger dye under a thinner film
/// looks alike. So it hands on a covariance, as the lower-triangular factor F of it, one row a figure: with z
/// independent standard normal, figure i lies Σ_k F_ik z_k from its value.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "foretone/material/material.hpp"

namespace foretone::appearance {

/// `JointFigure::material` of the figures of how coats go into wood (schedule::uptake_figures), which belong to none. A
/// table has them first; they are as unsure as ever, but what boards taught of other figures hangs on them.
inline constexpr std::string_view uptake_rows = "(uptake)";

/// One row of the table.
struct JointFigure {
    enum class Acts {
        value,      ///< what is drawn is added to the figure,
        logarithm,  ///< to its natural logarithm; of a spectrum: times `shape`, if there is one,
        body        ///< or, times `shape`, to ln(K/S) of a wood's reflectance
    };
    std::string material, figure;  ///< as among the materials: "plank-maple", "surface_k2"
    int shape_number = 0;          ///< of a spectrum: which of its shapes, from 1; 0: the figure as a whole
    Acts acts = Acts::value;
    spectral::Spectrum shape{};  ///< of the move, where `shape_number` > 0
    double value = 0;            ///< `reading_of` the figure when it was fitted: an edited figure reads otherwise

    std::string name() const;  ///< "plank-maple/reflectance/2"
};

/// "value", "logarithm", "body".
std::string_view word(JointFigure::Acts acts);

/// What one fit found.
struct JointTable {
    std::string title;  ///< of the boards it was fitted to
    std::vector<JointFigure> figures;
    std::vector<std::vector<double>> factor;  ///< [figure][0 … figure]
    /// Woods of the table: one standard deviation, ΔE*ab, of another board of the wood about what was read.
    std::vector<std::pair<std::string, double>> another_board_de;

    double sd(std::size_t figure) const;  ///< of one figure, whatever the others are
};

/// The lower-triangular factor of a covariance, positive or only semi-definite: a figure that those before it tell has
/// a 0 on the diagonal and nothing below it.
std::vector<std::vector<double>> factor_of(const std::vector<std::vector<double>>& covariance);

/// One number that stands for a figure: its value; of a spectrum the mean weighted by position, so that any value
/// that is edited moves it.
double reading_of(const material::Figure& figure);
double reading_of(const material::SpectrumFigure& figure);

/// The same of a figure by its name, what a ready dye holds of a powder ("mix.2") among them; nothing if the material
/// has none of that name.
std::optional<double> reading_of(material::Material material, std::string_view figure);

/// The figures `rows` of a table, with the covariance of these alone.
JointTable rows_of_table(const JointTable& table, const std::vector<std::size_t>& rows);

/// Takes out the figures that the materials no longer hold as they were fitted (`value` off by more than 1e-5 of it),
/// or not at all; what is left is the covariance of the others. Returns the names of those that were edited, not of
/// those whose material is not there.
std::vector<std::string> drop_edited(JointTable& table, const material::Materials& materials);

/// A number that changes if any number or name of the table does (64-bit FNV-1a over its text at six significant
/// digits), in hexadecimal.
std::string checksum(const JointTable& table);

}  // namespace foretone::appearance
