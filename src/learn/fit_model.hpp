#pragma once
// What a fit predicts for each reading, how far that is from what was read, and how it moves with each unknown.

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
    bool acts_on(const Unknown& u, std::size_t index, std::size_t reading) const;
    /// ∂ reflectance / ∂ unknown at one reading, for each of `active`.
    std::vector<spectral::Spectrum> slopes(std::size_t reading, const std::vector<std::size_t>& active);
    spectral::Spectrum wood_slope(std::size_t reading, const spectral::Spectrum& base) const;
    spectral::Spectrum film_slope(std::size_t reading, const std::string& film, const spectral::Spectrum& base);
    spectral::Spectrum lone_slope(std::size_t reading, std::size_t unknown, const spectral::Spectrum& base);
    spectral::Spectrum seen(std::size_t reading, bool noise, double shift) const;
    std::size_t rows_of(std::size_t reading) const {
        return question_.readings[reading].reflectance ? samples_[reading].size() : 3;
    }

    FitQuestion question_;
    Unknowns unknowns_;
    Eigen::VectorXd p_;
    std::size_t left_out_ = none;
    appearance::Solver solver_;
    std::vector<std::vector<std::size_t>> samples_;  // grid points of each reading's data; empty for Lab
    std::vector<std::size_t> coats_on_;              // of each reading: coats of its board that are on
    std::vector<std::set<std::string>> uses_;        // materials that each reading shows
};

}  // namespace foretone::learn
