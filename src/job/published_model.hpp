#pragma once
/// A published board as the model has it, for any value of what is not known.

#include <string>
#include <vector>

#include "foretone/color/xyz.hpp"
#include "foretone/job/published.hpp"
#include "foretone/scene/library.hpp"

namespace foretone::job {

/// One unknown of the calibration, normal on its own scale.
struct Unknown {
    enum class What {
        solid,       ///< ln of the share of cell wall in the outermost plane over 1 − porosity: all woods
        wood_solid,  ///< the same, of one wood against all
        level,       ///< ln of `level_um` against the file's
        contact,     ///< logit of a kind's contact
        stay,        ///< logit of a kind's share of binder that stays up
        gardner,     ///< of a kind
        film,        ///< ln of a kind's wet film against the file's
        paper_film,  ///< ln of one paper's wet film, and of the coats it does not state, against the kind's
        instrument,  ///< logit of how far a laboratory's instrument leaves the specular out, d/8
        geometry,    ///< the same, of one paper against its laboratory
        change,      ///< ln of one paper's differences as a whole: instrument, direction of the grain, moisture
        bare_l,
        bare_a,
        bare_b  ///< one wood's color before coating against what is taken
    };
    What what;
    std::string of;  ///< a kind of finish, a laboratory, a paper or a wood; empty: all
    double mean = 0, sd = 1;
};

/// All unknowns that `boards` have between them, priors as calibration.cpp states them.
std::vector<Unknown> unknowns_of(const std::vector<PublishedBoard>& boards);

/// What a board's coating changes.
struct Change {
    color::Lab lab;  ///< ΔL*, Δa*, Δb*, D65, 10°, between d/8 with and without the specular
    double de_ab = 0;
};

class PublishedModel {
public:
    PublishedModel(const scene::Library& library, std::vector<Unknown> unknowns);

    const std::vector<Unknown>& unknowns() const { return unknowns_; }
    /// True if the unknown has a say in the board.
    bool touches(const Unknown& unknown, const PublishedBoard& board) const;
    /// The change with the unknowns at `x`, on their own scales.
    Change change(const PublishedBoard& board, const std::vector<double>& x) const;

private:
    double value(Unknown::What what, const std::string& of, const std::vector<double>& x, double otherwise) const;
    material::Wood wood(const PublishedBoard& board, const std::vector<double>& x) const;
    material::Materials materials(const PublishedBoard& board, const std::vector<double>& x) const;

    material::Materials library_;
    color::Weights weights_;
    std::vector<Unknown> unknowns_;
};

}  // namespace foretone::job
