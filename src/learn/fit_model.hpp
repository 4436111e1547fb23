#pragma once
// What a fit predicts for each reading, how far that is from what was read, and how it moves with each unknown.

#include <functional>

#include "foretone/appearance/render.hpp"
#include "unknowns.hpp"

namespace foretone::learn {

class FitModel {
public:
    explicit FitModel(const FitQuestion& question);

    const Unknowns& unknowns() const { return unknowns_; }
    const FitQuestion& question() const { return question_; }
    Eigen::Index size() const { return static_cast<Eigen::Index>(unknowns_.all().size()); }

    /// Takes a reading out of the data (it is predicted all the same); `none` for all in.
    void leave_out(std::size_t reading) { left_out_ = reading; }

    /// Sets all unknowns.
    void set(const Eigen::VectorXd& p);

    /// The reading's reflectance with the unknowns as set; without `noise`: as a scene would show it.
    spectral::Spectrum predicted(std::size_t reading, bool noise) const;
    color::Lab predicted_lab(std::size_t reading, bool noise) const;
    color::Lab read_lab(std::size_t reading) const;

    /// Weighted differences, prediction minus reading, of all data; then the unknowns themselves (their prior). Sets
    /// the unknowns.
    Eigen::VectorXd residuals(const Eigen::VectorXd& p);

    /// Derivatives of the above by the unknowns in `active`, one column each. Sets the unknowns.
    Eigen::MatrixXd jacobian(const Eigen::VectorXd& p, const std::vector<std::size_t>& active);

    /// Change of each reading's Lab (three rows a reading) by the unknowns `which` (columns), per standard deviation.
    /// Sets the unknowns.
    Eigen::MatrixXd moves(const Eigen::VectorXd& p, const std::vector<std::size_t>& which);

    /// The wet film of a coat on a board as set.
    double wet_um(const LaidCoat& laid, bool noise) const;

private:
    /// A board's coats as laid, and the board bare and after each of them.
    struct Course {
        std::vector<schedule::Deposit> coats;
        std::vector<appearance::Board> after;
    };
    /// Where a reading is taken: the wood there; ln of what the instrument makes of it.
    struct Place {
        material::Wood wood;
        spectral::Spectrum shift{}, instrument{};
    };
    /// ∂ reflectance / ∂ unknown, [reading][active], smooth between the wavelengths that are solved.
    using Slopes = std::vector<std::vector<spectral::Spectrum>>;
    using See = std::function<void(std::size_t reading, const appearance::Board& board)>;

    const material::Wood& wood_of(std::size_t reading) const;
    schedule::Deposit laid(const LaidCoat& coat, bool noise) const;
    Course course(std::size_t board, bool noise) const;
    Place place(std::size_t reading, bool noise) const;
    /// Lays all boards and finds all places, unless that is done.
    void work_out();
    spectral::Spectrum seen(const appearance::Board& board, const Place& at, std::size_t every) const;
    spectral::Spectrum seen(std::size_t reading, std::size_t every) const;

    bool acts_on(std::size_t unknown, std::size_t reading) const;
    bool acts_on(std::size_t unknown, const LaidCoat& coat) const;
    /// Lays again what an unknown acts on, and shows each reading whose board may be another for it.
    void lay_again(std::size_t unknown, const See& see) const;
    void add_wood_slopes(const std::vector<std::size_t>& active, const std::vector<std::size_t>& every,
                         const std::vector<spectral::Spectrum>& base, Slopes& out) const;
    void add_film_slopes(const std::string& film, const std::vector<std::size_t>& active,
                         const std::vector<std::size_t>& every, const std::vector<spectral::Spectrum>& base,
                         Slopes& out);
    void add_lone_slope(std::size_t column, const std::vector<std::size_t>& active,
                        const std::vector<std::size_t>& every, const std::vector<spectral::Spectrum>& base,
                        Slopes& out);
    /// Each reading solved at every so-many-th wavelength of the grid.
    Slopes slopes(const std::vector<std::size_t>& active, const std::vector<std::size_t>& every);

    std::size_t rows_of(std::size_t reading) const {
        return question_.readings[reading].reflectance ? samples_[reading].size() : 3;
    }

    FitQuestion question_;
    Unknowns unknowns_;
    Eigen::VectorXd p_;
    std::size_t left_out_ = none;
    std::map<std::size_t, appearance::Solver> solvers_;  // by how many-th wavelengths they are asked at
    std::vector<std::vector<std::size_t>> samples_;      // grid points of each reading's data; empty for Lab
    std::vector<std::size_t> coats_on_;                  // of each reading: coats of its board that are on
    std::vector<std::size_t> most_on_;                   // of each board: coats that some reading shows
    std::vector<std::set<std::string>> uses_;            // materials that each reading shows
    bool worked_out_ = false;                            // the rest goes with the unknowns as set, noise included
    std::vector<Course> courses_;                        // by board
    std::vector<Place> places_;                          // by reading
};

}  // namespace foretone::learn
