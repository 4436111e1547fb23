// The course of a fit: unknowns that no reading depends on are left out; all others are fitted; groups that the
// readings do not narrow are put back to the library and the rest fitted again; what is left unexplained is held
// against the noise. A fit that leaves too much is refused.

#include "foretone/learn/fit.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "foretone/base/number.hpp"

#include "fitted_materials.hpp"
#include "fit_work.hpp"
#include "headlines.hpp"
#include "least_squares.hpp"

namespace foretone::learn {
namespace {
using color::Lab;

constexpr double effective_de =
    0.1;  // a figure that moves no reading by this much, per standard deviation, is left out
constexpr double resolved_share = 0.95;  // a figure is told if its error falls below this share of the library's
constexpr double most_times_noise = 4;   // one reading
constexpr double most_rms_noise = 2.5;   // all of them
constexpr double most_far = 4.5;         // standard deviations from the library,
constexpr double most_far_noise = 6;     // or of noise

void check(const FitQuestion& q) {
    const auto refuse = [](const std::string& what) { throw std::invalid_argument("fit: " + what); };
    for (const auto& board : q.boards)
        if (!q.materials.count(board.wood) || !std::holds_alternative<material::Wood>(q.materials.at(board.wood).data))
            refuse("'" + board.wood + "' is no wood among the materials");
    for (const auto& r : q.readings) {
        if (r.board >= q.boards.size()) refuse("reading " + r.name + " is of no board");
        if (r.reflectance.has_value() == r.lab.has_value())
            refuse("reading " + r.name + " needs either a reflectance or Lab");
        if (!(r.spread_de > 0) || !std::isfinite(r.spread_de))
            refuse("reading " + r.name + " has a spread that is not positive");
        const auto& steps = q.boards[r.board].finish.steps;
        const bool bare = r.step == 0 && r.coat == 0;
        if (!bare && (r.step < 1 || static_cast<std::size_t>(r.step) > steps.size() || r.coat < 1 ||
                      r.coat > steps[static_cast<std::size_t>(r.step) - 1].coats))
            refuse("reading " + r.name + " is of step " + std::to_string(r.step) + ", coat " + std::to_string(r.coat) +
                   ", which is not there");
    }
    for (const double v : {q.noise.board_de, q.noise.place_de, q.noise.hand})
        if (!(v >= 0) || !std::isfinite(v)) refuse("a noise is negative");
}

// An unknown of a material in words.
std::string label(const Unknown& u) {
    switch (u.kind) {
        case Unknown::Kind::wood:
            return u.material + " reflectance";
        case Unknown::Kind::film:
            return u.material + " absorption";
        case Unknown::Kind::dye:
        case Unknown::Kind::stock:
            return u.material + " strength";
        case Unknown::Kind::build:
            return u.material + " build";
        default:
            return u.material + " " + u.at.key;
    }
}

}  // namespace

void Fit::Work::choose_active() {
    std::vector<std::size_t> every(model.unknowns().all().size());
    std::iota(every.begin(), every.end(), std::size_t{0});
    const Eigen::MatrixXd moves = model.moves(Eigen::VectorXd::Zero(model.size()), every);
    for (std::size_t k = 0; k < model.unknowns().all().size(); ++k) {
        double most = 0;
        for (Eigen::Index r = 0; r < moves.rows(); r += 3)
            most = std::max(most, moves.block<3, 1>(r, static_cast<Eigen::Index>(k)).norm());
        const auto& u = model.unknowns().all()[k];
        if (u.kind == Unknown::Kind::law) {
            if (most >= 1e-3 || felt(k)) reckoned.push_back(k);
        } else if (most >= (u.kind == Unknown::Kind::figure ? effective_de : 1e-3)) {
            effective.push_back(k);
        }
    }
    active = effective;
}

// Two readings of one state of one board that their noise does not explain.
void Fit::Work::refuse_contradictions() const {
    const auto& q = model.question();
    for (std::size_t i = 0; i < q.readings.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
            const auto &a = q.readings[i], &b = q.readings[j];
            if (a.board != b.board || a.step != b.step || a.coat != b.coat) continue;
            const double d = color::delta_e_ab(model.read_lab(i), model.read_lab(j));
            const double noise = std::sqrt(a.spread_de * a.spread_de + b.spread_de * b.spread_de +
                                           2 * q.noise.place_de * q.noise.place_de);
            if (d > most_times_noise * noise)
                throw NoFit("fit-contradiction",
                            "readings \"" + b.name + "\" and \"" + a.name +
                                "\" are said to be of the same board in the same state, yet they are " +
                                base::fixed(d, 1) + " apart (dE*ab) where their noise allows " + base::fixed(noise, 1) +
                                ": check which reading is which, or state place_de");
        }
}

bool Fit::Work::fitted(const std::string& group) const {
    return std::any_of(active.begin(), active.end(),
                       [&](std::size_t k) { return model.unknowns().all()[k].group == group; });
}

void Fit::Work::state_figures() {
    std::vector<std::size_t> known = effective;
    known.insert(known.end(), reckoned.begin(), reckoned.end());
    jacobian_of = model.jacobian(p, known);
    for (std::size_t i = 0; i < reckoned.size(); ++i) {
        const Eigen::VectorXd slope = mean_slope(reckoned[i]);
        jacobian_of.col(static_cast<Eigen::Index>(effective.size() + i)).head(slope.size()) = slope;
    }
    covariance_of = covariance(jacobian_of.leftCols(static_cast<Eigen::Index>(effective.size())));
    result.figures.clear();
    resolved.clear();
    const Eigen::VectorXd library = Eigen::VectorXd::Zero(model.size());
    for (const auto& head : headlines(model)) {
        FittedFigure f{head.material, head.figure, head.unit, 0, 0, 0, 0, head.factor, false, true};
        model.set(library);
        f.library = head.value(model);
        f.library_error = gradient(model, head, library).norm();
        model.set(p);
        f.value = head.value(model);
        f.error = error_along(gradient(model, head, p));
        f.resolved = f.error < resolved_share * f.library_error && fitted(head.group);
        if (f.resolved) resolved.insert(head.group);
        result.figures.push_back(f);
    }
    for (const std::size_t k : effective) {
        const auto& u = model.unknowns().all()[k];
        if (u.kind != Unknown::Kind::figure) continue;
        Eigen::VectorXd g = Eigen::VectorXd::Zero(model.size());
        g(static_cast<Eigen::Index>(k)) = u.sd;
        FittedFigure f{u.material,     u.at.key, u.at.unit, u.at.figure ? u.value : 1, u.sd, 0,
                       error_along(g), u.scale,  false,     u.at.key == "surface_k2"};
        // A spectrum is moved as a whole, by a share that is never below nothing.
        f.lowest = u.at.figure ? u.at.low : 0;
        if (u.at.figure) f.highest = u.at.high;
        model.set(p);
        f.value = u.at.figure ? u.at.figure->value : 1 + u.sd * p(static_cast<Eigen::Index>(k));
        f.resolved = f.error < resolved_share * f.library_error && fitted(u.group);
        if (f.resolved) resolved.insert(u.group);
        result.figures.push_back(f);
    }
    std::stable_sort(result.figures.begin(), result.figures.end(),
                     [](const auto& a, const auto& b) { return a.headline > b.headline; });
}

void Fit::Work::put_back_unresolved() {
    std::vector<std::size_t> kept;
    bool dropped = false;
    for (const std::size_t k : active) {
        const auto& u = model.unknowns().all()[k];
        if (u.noise() || resolved.count(u.group))
            kept.push_back(k);
        else {
            p(static_cast<Eigen::Index>(k)) = 0;
            dropped = true;
        }
    }
    if (!dropped) return;
    active = kept;
    const auto resolved_before = resolved;
    p = best_fit(model, p, active);
    state_figures();
    // What was narrowed stays so: the second fit has fewer ways to go wrong, not more.
    resolved = resolved_before;
}

void Fit::Work::compare_readings() {
    const auto& q = model.question();
    model.set(p);
    std::vector<std::size_t> noisy;
    for (std::size_t k = 0; k < model.unknowns().all().size(); ++k)
        if (model.unknowns().all()[k].noise() && model.unknowns().all()[k].kind != Unknown::Kind::instrument)
            noisy.push_back(k);
    const Eigen::MatrixXd now = model.moves(p, noisy);
    double sum = 0;
    result.readings.clear();
    for (std::size_t r = 0; r < q.readings.size(); ++r) {
        ReadAgain again{q.readings[r].name, model.read_lab(r), model.predicted_lab(r, false), 0, 0, {}};
        again.de00 = color::delta_e_00(again.read, again.predicted);
        std::vector<Eigen::Vector3d> noise;
        for (Eigen::Index k = 0; k < now.cols(); ++k)
            noise.emplace_back(now.block<3, 1>(static_cast<Eigen::Index>(3 * r), k));
        const double sd = q.readings[r].spread_de / std::sqrt(3.0);
        for (int axis = 0; axis < 3; ++axis) noise.emplace_back(sd * Eigen::Vector3d::Unit(axis));
        again.expected_de00 = de00_of(again.predicted, noise);
        sum += again.de00 * again.de00;
        result.readings.push_back(again);
    }
    result.rms_de00 = std::sqrt(sum / static_cast<double>(q.readings.size()));
}

void Fit::Work::refuse_bad() const {
    double sum = 0;
    const ReadAgain* worst = nullptr;
    for (const auto& r : result.readings) {
        const double times = r.de00 / r.expected_de00;
        sum += times * times;
        if (!worst || times > worst->de00 / worst->expected_de00) worst = &r;
    }
    const double rms = std::sqrt(sum / static_cast<double>(result.readings.size()));
    if (worst->de00 > most_times_noise * worst->expected_de00 || rms > most_rms_noise)
        throw NoFit("fit-residual", "no set of materials explains these readings: the best one leaves dE00 " +
                                        base::fixed(worst->de00, 1) + " on \"" + worst->name +
                                        "\" where its noise allows " + base::fixed(worst->expected_de00, 1) +
                                        "; is it the right reading, the right state, the right geometry?");
    for (const auto& u : model.unknowns().all()) {
        const auto k = static_cast<Eigen::Index>(&u - model.unknowns().all().data());
        if (std::abs(p(k)) <= (u.noise() ? most_far_noise : most_far)) continue;
        const std::string where =
            u.noise() ? "the noise of " + (u.kind == Unknown::Kind::board || u.kind == Unknown::Kind::coat
                                               ? "board \"" + model.question().boards[u.where].name + "\""
                                               : "reading \"" + model.question().readings[u.where].name + "\"")
                      : label(u);
        throw NoFit("fit-far", "to explain these readings " + where + " would have to lie " +
                                   base::fixed(std::abs(p(k)), 1) +
                                   " standard deviations from what is usual; check what was put on, or give the "
                                   "material its own figures first");
    }
    if (!model.question().keep_unresolved) return;
    const bool any = std::any_of(result.figures.begin(), result.figures.end(),
                                 [](const auto& f) { return f.headline && f.resolved; });
    if (!any)
        throw NoFit("fit-tells-nothing",
                    "these readings narrow no figure of any material: read the bare board, the board after the dye and "
                    "after each coat");
}

void Fit::Work::leave_one_out() {
    const auto& q = model.question();
    double sum = 0;
    for (std::size_t r = 0; r < q.readings.size(); ++r) {
        model.leave_out(r);
        best_fit(model, p, active);
        result.readings[r].left_out_de00 = color::delta_e_00(result.readings[r].read, model.predicted_lab(r, false));
        sum += *result.readings[r].left_out_de00 * *result.readings[r].left_out_de00;
    }
    model.leave_out(none);
    model.set(p);
    result.left_out_rms_de00 = std::sqrt(sum / static_cast<double>(q.readings.size()));
}

void Fit::Work::run() {
    const auto& q = model.question();
    refuse_contradictions();
    choose_active();
    p = best_fit(model, Eigen::VectorXd::Zero(model.size()), active);
    state_figures();
    if (q.keep_unresolved) put_back_unresolved();
    compare_readings();
    refuse_bad();
    if (q.leave_one_out && q.readings.size() > 1) leave_one_out();
    model.set(p);
    fill_materials(model, resolved, result);
    fill_joint();
}

namespace {

// An end of the interval before it is cut.
double interval_end(const FittedFigure& f, double errors) {
    return f.factor ? f.value * std::exp(errors * f.error) : f.value + errors * f.error;
}

}  // namespace

double FittedFigure::low() const { return std::max(lowest, interval_end(*this, -1.96)); }
double FittedFigure::high() const { return std::min(highest, interval_end(*this, 1.96)); }
bool FittedFigure::cut() const { return low() > interval_end(*this, -1.96) || high() < interval_end(*this, 1.96); }

Fit::Fit(const FitQuestion& question) {
    check(question);
    if (question.readings.size() < std::max<std::size_t>(1, question.fewest))
        throw NoFit("fit-too-few",
                    "there " +
                        std::string(question.readings.size() == 1
                                        ? "is one reading"
                                        : "are " + std::to_string(question.readings.size()) + " readings") +
                        "; a fit takes at least " + std::to_string(question.fewest) +
                        ": the bare board and one coated state tell the least, each further state tells more");
    work_ = std::make_unique<Work>(question);
    work_->run();
}
Fit::~Fit() = default;
Fit::Fit(Fit&&) noexcept = default;
Fit& Fit::operator=(Fit&&) noexcept = default;

const FitResult& Fit::result() const { return work_->result; }

}  // namespace foretone::learn
