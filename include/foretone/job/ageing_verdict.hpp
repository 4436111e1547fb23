#pragma once
/// How woods age, fitted to what is published, and how well papers that were left out are met.

#include <optional>
#include <string>
#include <vector>

#include "foretone/color/lab.hpp"
#include "foretone/scene/library.hpp"

namespace foretone::job {

/// One row of tests/data/ageing.csv: bare wood before and after light.
struct PublishedAge {
    std::string paper, species, like, source;
    bool window = false;               ///< by a window indoors; else under a lamp
    double months = 0;                 ///< by a window
    double wh = 0, wh_ln_sd = 0;       ///< under a lamp: actinic dose and what it is sure to, W·h/m²
    std::optional<color::Lab> before;  ///< none: the library's wood
    std::optional<double> l, a, b;     ///< after; what is printed of them
    std::optional<double> de_ab;
    std::string colored_by;  ///< what made most of its color: empty, the pale wood's own; "steamed"; "walnut"
    bool paler = false;      ///< said in words: it turns paler
};

std::vector<PublishedAge> published_ages();

/// A row, predicted from all other papers.
struct PredictedAge {
    PublishedAge row;
    color::Lab change;  ///< ΔL*, Δa*, Δb*, predicted
    double de_ab = 0, sd = 0, low = 0, high = 0;
    double due_de_ab = 0;  ///< published: as printed, or of the printed coordinates alone
    bool inside = false, signs_met = false;
};

/// A figure of the common law, before (where the fit starts from and how sure that is) and after.
struct AgeFigure {
    std::string what;
    double before = 0, before_sd = 0, after = 0, after_sd = 0;
};

struct AgeingVerdict {
    std::vector<PredictedAge> rows;  ///< each paper left out in its turn
    std::vector<AgeFigure> figures;  ///< fitted to all
    int inside = 0;
    double bias = 0, rms = 0;  ///< of predicted less published
};

/// Least squares over the common law's figures and a dose for each paper, all with priors. Well under a second.
AgeingVerdict check_ageing(const scene::Library& library);

}  // namespace foretone::job
