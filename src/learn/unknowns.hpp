#pragma once
// What a fit does not know, and how each unknown acts among the materials. All unknowns are in units of their own
// prior's standard deviation: at 0 all is as the library has it.

#include <Eigen/Core>
#include <map>
#include <set>

#include "foretone/material/figures.hpp"
#include "foretone/learn/fit.hpp"
#include "foretone/schedule/suction.hpp"

namespace foretone::learn {

inline constexpr std::size_t none = static_cast<std::size_t>(-1);

/// One unknown.
struct Unknown {
    enum class Kind {
        wood,       ///< amplitude of one curve of ln(K/S) of a wood's reading
        film,       ///< amplitude of one curve of ln α of a film
        dye,        ///< ln of a powder's strength
        stock,      ///< ln of a ready liquid's strength
        figure,     ///< any other figure; a length or a coefficient per length in its logarithm
        build,      ///< ln of the wet film of one material by one method
        law,        ///< a figure of how coats go in (schedule::uptake_figures): never fitted, only reckoned with
        coat,       ///< noise from here on: ln of the wet film of one coat, or of all coats of a step on one board,
        board,      ///< one board's wood,
        place,      ///< the wood where a reading was taken,
        instrument  ///< one spectrum as a whole
    };
    Kind kind = Kind::figure;
    std::string group;           ///< "hard-maple reflectance": unknowns of one group are told, or kept, together
    std::string material;        ///< id that it acts through; empty for noise
    double sd = 0;               ///< of a logarithm; of a figure or a law: of itself; 1 where a curve carries it
    spectral::Spectrum curve{};  ///< of wood, film, board, place, instrument
    material::FigureAt at;       ///< of figure; points into the working copy
    double value = 0;            ///< of figure, before any move
    spectral::Spectrum values{};
    std::size_t where = none;  ///< board, reading; of law: which figure
    bool scale = false;        ///< of figure: `sd` is of its logarithm

    bool noise() const { return kind >= Kind::coat; }

    /// Where a figure comes to the ends of what it can be; no ends for all else.
    double lowest() const;
    double highest() const;
};

/// A coat on a board, laid as a step of its own.
struct LaidCoat {
    schedule::Step step;       ///< one coat; its wet film is set when it is laid
    double wet_um = 0;         ///< as said, or usual
    bool said = false;         ///< the schedule states the wet film
    int number = 0, coat = 0;  ///< step and coat, from 1
    std::size_t build = none, hand = none,
                own = none;      ///< unknowns: of the material, of the step on this board, of this coat
    std::set<std::string> uses;  ///< materials
};

/// The unknowns of a question, on a working copy of the materials.
class Unknowns {
public:
    explicit Unknowns(const FitQuestion& question);
    Unknowns(const Unknowns&) = delete;  // figures point into the materials
    Unknowns& operator=(const Unknowns&) = delete;

    const std::vector<Unknown>& all() const { return all_; }
    const std::vector<std::vector<LaidCoat>>& coats() const { return coats_; }  ///< by board
    const material::Materials& materials() const { return materials_; }
    const material::Materials& library() const { return library_; }

    /// Sets the materials (materials alone; noise acts where a reading is predicted).
    void apply(const Eigen::VectorXd& p);

    /// Sets what one unknown that is no curve does to them, at `x` of its standard deviations; of curves and noise:
    /// nothing.
    void apply(std::size_t unknown, double x);

    /// How coats go in, as set.
    const schedule::UptakeLaw& law() const { return law_; }

    /// Multiplies a film's absorption among the materials, until the next `apply`. False if the film's color is not
    /// unknown.
    bool tint_film(const std::string& id, double factor);

    /// The build unknown of a material laid by a method, or `none`.
    std::size_t build_of(const std::string& material, material::Method method) const;

    /// ΔE*ab, one standard deviation, of one board of a wood from the next.
    double board_de(const std::string& wood) const { return board_de_.at(wood); }

private:
    void add_wood(const std::string& id, const FitQuestion& question, bool spectra);
    void add_material(const std::string& id, bool spectra);
    void add_figures(const std::string& id, const std::set<std::string>& but);
    void add_law();
    void add_boards(const FitQuestion& question);
    void add_noise(const FitQuestion& question, bool spectra);

    material::Materials library_, materials_;
    schedule::UptakeLaw law_;
    std::vector<Unknown> all_;
    std::vector<std::vector<LaidCoat>> coats_;
    std::map<std::string, double> board_de_;  // by wood
    std::map<std::string, spectral::Spectrum> film_alpha_, dye_values_, wood_values_;
    std::map<std::string, double> strength_;
    std::map<std::pair<std::string, material::Method>, std::size_t> builds_;
};

/// The binder whose build a step lays, "" if it has none (a dye's strength holds its hand).
std::string laid_material(const schedule::Step& step, const material::Materials& materials);

}  // namespace foretone::learn
