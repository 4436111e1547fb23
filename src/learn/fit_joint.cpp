// What a fit hands on: the covariance of the figures it writes. Symbols: a unknowns that were fitted · b those that
// some reading feels and that were held at the library's: how coats go in, figures that the readings do not tell · A, B
// their columns of the weighted Jacobian · C covariance of all · G slopes of the written figures (of their logarithms,
// of the amplitudes of their shapes) by all unknowns.
//   a is off by S b beside its own error,   S = −(AᵀA)⁻¹AᵀB,   C_aa = (AᵀA)⁻¹ + S Sᵀ,  C_ab = S,  C_bb = 1
// B is no slope where b is as usual but the mean one over all that b may be, Σ w m Δr/Σ w m²: m as far as b is made up
// for (appearance::made_up_for), w its density, Δr what it does to the rows. What a dye leaves in wood is the least of
// what is laid on, drawn in and has room, and suction that binds in one world of ten has no slope at all as usual.
// (Gelb 1974: statistical linearization.)
//   covariance of the figures = G_f C G_fᵀ + G_r G_rᵀ,   f those of C, r the rest, which keep their prior
//
// Why b is in it: what a board shows is the product of what went in and how strong it is. A fit that takes the one as
// said finds the other off by as much, and both errors cancel in the next board; drawn apart they would count twice.
// (Schmidt 1966: parameters that are considered, not estimated.)
//
// A figure whose spread another row holds already (the volume solids that are part of a build, the purity that is part
// of a strength) is written as a row of zeros: known no further.

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "fit_work.hpp"
#include "foretone/appearance/uncertain.hpp"
#include "foretone/appearance/wood_shapes.hpp"
#include "foretone/schedule/suction.hpp"
#include "headlines.hpp"
#include "least_squares.hpp"

namespace foretone::learn {
namespace {
using appearance::JointFigure;
using Acts = JointFigure::Acts;
using Kind = Unknown::Kind;

class Rows {
public:
    Rows(FitModel& model, const Eigen::VectorXd& p, const std::set<std::string>& resolved, const FitResult& result)
        : model_(model), p_(p), resolved_(resolved), materials_(result.materials) {
        changed_.insert(result.changed.begin(), result.changed.end());
    }

    void gather() {
        law();
        curves();
        strengths();
        builds();
        figures();
    }

    std::vector<JointFigure> rows;
    std::vector<Eigen::VectorXd> slopes;

private:
    Eigen::VectorXd along(std::size_t unknown, double size) const {
        Eigen::VectorXd g = Eigen::VectorXd::Zero(p_.size());
        g(static_cast<Eigen::Index>(unknown)) = size;
        return g;
    }

    // First, and each by itself: the factor of the table then has their own spreads in its first columns.
    void law() {
        const auto& all = model_.unknowns().all();
        for (std::size_t k = 0; k < all.size(); ++k) {
            if (all[k].kind != Kind::law) continue;
            const auto& f = schedule::uptake_figures()[all[k].where];
            rows.push_back(
                {std::string(appearance::uptake_rows), f.name, 0, Acts::value, {}, schedule::UptakeLaw{}.*f.at});
            slopes.push_back(along(k, f.sd));
        }
    }

    // What the materials hold of a figure; NaN if there is none.
    double reads(const std::string& id, const std::string& key) const {
        return appearance::reading_of(materials_.at(id), key).value_or(std::nan(""));
    }

    void add(JointFigure row, Eigen::VectorXd slope) {
        row.value = reads(row.material, row.figure);
        if (std::isnan(row.value)) return;
        rows.push_back(std::move(row));
        slopes.push_back(std::move(slope));
    }

    void known_no_further(const std::string& id, const std::vector<std::string>& keys) {
        for (const auto& key : keys) add({id, key, 0, Acts::value, {}, 0}, Eigen::VectorXd::Zero(p_.size()));
    }

    void curves() {
        std::map<std::string, int> number;
        const auto& all = model_.unknowns().all();
        for (std::size_t k = 0; k < all.size(); ++k) {
            const auto& u = all[k];
            if ((u.kind != Kind::wood && u.kind != Kind::film) || !changed_.count(u.material) ||
                !resolved_.count(u.group))
                continue;
            const bool wood = u.kind == Kind::wood;
            add({u.material, wood ? "reflectance" : "absorption_per_mm", ++number[u.material],
                 wood ? Acts::body : Acts::logarithm, u.curve, 0},
                along(k, 1));
        }
    }

    void strengths() {
        for (const auto& head : headlines(model_)) {
            if (head.figure != "strength" || !changed_.count(head.material)) continue;
            if (std::holds_alternative<material::Stock>(materials_.at(head.material).data)) {
                add_stock(head.material, gradient(model_, head, p_));
                continue;
            }
            add({head.material, "molar_absorptivity", 0, Acts::logarithm, {}, 0}, gradient(model_, head, p_));
            known_no_further(head.material, {"purity", "molar_mass_g_per_mol"});
        }
    }

    // A ready dye is written as a strength s, of what it absorbs from 400 to 700 nm, and what it holds of each powder:
    // with g the written load, f how strong the powder was found, w its share of what is absorbed,
    //   d ln g_i = d ln f_i − Σ w_j d ln f_j.
    // Lab readings know the color of the mixture and not s: what a stronger orange adds to s the others take away, and
    // s alone, without its loads, would be a change of color that the readings exclude. A powder that a step uses as
    // such stays as it is in the loads.
    void add_stock(const std::string& id, Eigen::VectorXd strength) {
        const auto& library = model_.unknowns().library();
        const auto& mix = std::get<material::Stock>(library.at(id).data).mix;
        std::vector<Eigen::VectorXd> found;
        std::vector<double> held;
        double sum = 0, all = 0;
        for (const auto& load : mix) {
            const bool own = !used_as_such(load.use);
            const auto& from = own ? model_.unknowns().materials() : library;
            held.push_back(load.g_per_l * whole_absorbance(from, load.use));
            found.push_back(own ? strength_of(load.use) : Eigen::VectorXd::Zero(p_.size()));
            sum += held.back();
            all += load.g_per_l * whole_absorbance(model_.unknowns().materials(), load.use);
        }
        for (const auto& load : mix)
            if (used_as_such(load.use) && all > 0)
                strength -= load.g_per_l * whole_absorbance(model_.unknowns().materials(), load.use) / all *
                            strength_of(load.use);
        add({id, "strength", 0, Acts::logarithm, {}, 0}, strength);
        Eigen::VectorXd mean = Eigen::VectorXd::Zero(p_.size());
        for (std::size_t i = 0; i < mix.size() && sum > 0; ++i) mean += held[i] / sum * found[i];
        for (std::size_t i = 0; i < mix.size(); ++i)
            if (const Eigen::VectorXd slope = found[i] - mean; slope.norm() > 1e-9)
                add({id, material::load_key(i), 0, Acts::logarithm, {}, 0}, slope);
    }

    // Slope of a powder's logarithm.
    Eigen::VectorXd strength_of(const std::string& powder) const {
        const auto& all = model_.unknowns().all();
        for (std::size_t k = 0; k < all.size(); ++k)
            if (all[k].kind == Kind::dye && all[k].material == powder) return along(k, all[k].sd);
        return Eigen::VectorXd::Zero(p_.size());
    }

    bool used_as_such(const std::string& powder) const {
        for (const auto& coats : model_.unknowns().coats())
            for (const auto& laid : coats)
                for (const auto& part : laid.step.mix)
                    if (part.use == powder) return true;
        return false;
    }

    void builds() {
        const auto& all = model_.unknowns().all();
        for (std::size_t m = 0; m < material::method_words.size(); ++m)
            for (const auto& id : changed_) {
                const auto k = model_.unknowns().build_of(id, static_cast<material::Method>(m));
                if (k == none || !resolved_.count(all[k].group)) continue;
                add({id, "wet_um." + std::string(material::method_words[m]), 0, Acts::logarithm, {}, 0},
                    along(k, all[k].sd));
                const bool again = std::any_of(rows.begin(), rows.end(), [&](const auto& r) {
                    return r.material == id && r.figure == "solids_volume_percent";
                });
                if (!again) known_no_further(id, {"solids_volume_percent"});
            }
    }

    void figures() {
        const auto& all = model_.unknowns().all();
        for (std::size_t k = 0; k < all.size(); ++k)
            if (all[k].kind == Kind::figure)
                add({all[k].material, all[k].at.key, 0, all[k].scale ? Acts::logarithm : Acts::value, {}, 0},
                    along(k, all[k].sd));
    }

    FitModel& model_;
    const Eigen::VectorXd& p_;
    const std::set<std::string>& resolved_;
    const material::Materials& materials_;
    std::set<std::string> changed_;
};

// One board alone of its wood is what the wood is taken to be. Another board of the shop's stock then lies off it by
// its own difference from the stock, b, and by that of the board that was read as far as it is not known: read of stock
// with a spread s of its own, the stock is known to sb/√(s² + b²).
double another_board(const FitModel& model, const std::string& wood) {
    const auto& q = model.question();
    const double b = model.unknowns().board_de(wood);
    const auto boards = std::count_if(q.boards.begin(), q.boards.end(), [&](const auto& x) { return x.wood == wood; });
    if (boards > 1 || b <= 0) return b;
    const auto& library = std::get<material::Wood>(model.unknowns().library().at(wood).data);
    const double whole = appearance::whole_de(library, q.readings.front().weights);
    const double s = std::sqrt(std::max(whole * whole / 2, whole * whole - b * b));
    return std::hypot(b, s * b / std::hypot(s, b));
}

}  // namespace

// Does any reading change where that figure of how coats go in is far from usual?
bool Fit::Work::felt(std::size_t law) {
    Eigen::VectorXd at = Eigen::VectorXd::Zero(model.size());
    const Eigen::VectorXd usual = model.residuals(at);
    const auto readings = usual.size() - model.size();
    bool any = false;
    for (const double far : {-2.0, 2.0}) {
        at(static_cast<Eigen::Index>(law)) = far;
        any = any || (model.residuals(at) - usual).head(readings).lpNorm<Eigen::Infinity>() > 1e-3;
    }
    return any;
}

// Of the rows of the readings.
Eigen::VectorXd Fit::Work::mean_slope(std::size_t law) {
    constexpr double step = 0.5, last = 2.5;  // standard deviations
    const auto& f = schedule::uptake_figures()[model.unknowns().all()[law].where];
    const double usual = schedule::UptakeLaw{}.*f.at;
    const Eigen::VectorXd here = model.residuals(p);
    const auto readings = here.size() - model.size();
    Eigen::VectorXd sum = Eigen::VectorXd::Zero(readings), moved = p;
    double squares = 0;
    for (double z = -last; z <= last; z += step) {
        moved(static_cast<Eigen::Index>(law)) = z;
        const double m = appearance::made_up_for(usual, f.sd, std::clamp(usual + z * f.sd, f.low, f.high)),
                     w = std::exp(-z * z / 2);
        sum += w * m * (model.residuals(moved) - here).head(readings);
        squares += w * m * m;
    }
    model.set(p);
    return squares > 0 ? Eigen::VectorXd(sum / squares) : Eigen::VectorXd::Zero(readings);
}

Eigen::MatrixXd Fit::Work::covariance_with(const std::vector<std::size_t>& beside) const {
    const auto n = static_cast<Eigen::Index>(active.size()), m = static_cast<Eigen::Index>(beside.size());
    Eigen::MatrixXd j(jacobian_of.rows(), n + m);
    const auto column = [&](std::size_t k) {
        for (const auto* list : {&effective, &reckoned})
            if (const auto it = std::find(list->begin(), list->end(), k); it != list->end())
                return (it - list->begin()) + (list == &reckoned ? static_cast<Eigen::Index>(effective.size()) : 0);
        throw std::logic_error("covariance_with: an unknown that no reading feels");
    };
    for (Eigen::Index i = 0; i < n; ++i) j.col(i) = jacobian_of.col(column(active[static_cast<std::size_t>(i)]));
    for (Eigen::Index i = 0; i < m; ++i) j.col(n + i) = jacobian_of.col(column(beside[static_cast<std::size_t>(i)]));
    const Eigen::MatrixXd all = squared(j);
    const Eigen::LLT<Eigen::MatrixXd> normal(all.topLeftCorner(n, n));
    const Eigen::MatrixXd s = -normal.solve(all.topRightCorner(n, m));
    Eigen::MatrixXd out = Eigen::MatrixXd::Identity(n + m, n + m);
    out.topLeftCorner(n, n) = normal.solve(Eigen::MatrixXd::Identity(n, n)) + s * s.transpose();
    out.topRightCorner(n, m) = s;
    out.bottomLeftCorner(m, n) = s.transpose();
    return out;
}

void Fit::Work::fill_joint() {
    Rows rows(model, p, resolved, result);
    rows.gather();
    result.joint = {};
    std::vector<std::size_t> known = active, beside = reckoned;
    for (const std::size_t k : effective)
        if (std::find(active.begin(), active.end(), k) == active.end()) beside.push_back(k);
    known.insert(known.end(), beside.begin(), beside.end());
    const auto count = static_cast<Eigen::Index>(rows.rows.size());
    Eigen::MatrixXd of_known(count, static_cast<Eigen::Index>(known.size())), rest(count, p.size());
    for (Eigen::Index i = 0; i < count; ++i) {
        rest.row(i) = rows.slopes[static_cast<std::size_t>(i)];
        for (std::size_t a = 0; a < known.size(); ++a) {
            const auto k = static_cast<Eigen::Index>(known[a]);
            of_known(i, static_cast<Eigen::Index>(a)) = rest(i, k);
            rest(i, k) = 0;
        }
    }
    const Eigen::MatrixXd c = of_known * covariance_with(beside) * of_known.transpose() + rest * rest.transpose();
    std::vector<std::vector<double>> covariance(rows.rows.size());
    for (std::size_t i = 0; i < covariance.size(); ++i)
        for (std::size_t j = 0; j < covariance.size(); ++j)
            covariance[i].push_back(c(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)));
    result.joint.figures = std::move(rows.rows);
    result.joint.factor = appearance::factor_of(covariance);
    for (const auto& id : result.changed)
        if (std::holds_alternative<material::Wood>(result.materials.at(id).data))
            result.joint.another_board_de.emplace_back(id, another_board(model, id));
}

}  // namespace foretone::learn
