// Symbols: p unknowns · R(λ; p) what a reading shows · y what was read · σ its noise.
//
// Rows of a spectrum are (ln R − ln y)/σ every 10 nm, σ = 0.6 % for what is not common to the whole spectrum (that is
// an unknown); rows of a Lab reading are its three differences over σ_ΔE/√3. A spectrum is solved at the wavelengths
// of its rows alone; Lab at all of the grid, its slopes at every fourth (fit_slopes.cpp). All readings of a board are
// of one course of coats, which is laid once.

#include "fit_model.hpp"

#include <algorithm>
#include <cmath>

#include "fields.hpp"

namespace foretone::learn {
namespace {
using color::Lab;
using spectral::Spectrum;

constexpr std::size_t at_all = 1, at_rows = 2, at_few = 4;  // so many-th wavelengths of the grid

Lab lab_of(const Spectrum& r, const color::Weights& w) { return color::to_lab(color::xyz(r, w), w.white); }

Eigen::Vector3d lab_slope(const Spectrum& at, const Spectrum& slope, const color::Weights& w) {
    constexpr double tiny = 1e-4;
    Spectrum moved;
    for (std::size_t i = 0; i < moved.size(); ++i) moved[i] = at[i] + tiny * slope[i];
    const Lab p = lab_of(at, w), q = lab_of(moved, w);
    return Eigen::Vector3d(q.l - p.l, q.a - p.a, q.b - p.b) / tiny;
}

}  // namespace

FitModel::FitModel(const FitQuestion& question)
    : question_(question), unknowns_(question), p_(Eigen::VectorXd::Zero(size())), most_on_(question.boards.size(), 0) {
    const auto solver = appearance::two_flux_solver();
    for (const std::size_t every : {at_all, at_rows, at_few})
        solvers_.emplace(every, solver).first->second.every = every;
    for (const auto& r : question_.readings) {
        samples_.emplace_back();
        for (std::size_t i = 0; r.reflectance && i < spectral::grid_size; i += at_rows)
            if (spectral::grid_nm(i) >= r.first_nm - 1e-9 && spectral::grid_nm(i) <= r.last_nm + 1e-9)
                samples_.back().push_back(i);
        const auto& coats = unknowns_.coats()[r.board];
        std::size_t on = 0;
        while (on < coats.size() &&
               (coats[on].number < r.step || (coats[on].number == r.step && coats[on].coat <= r.coat)))
            ++on;
        coats_on_.push_back(on);
        most_on_[r.board] = std::max(most_on_[r.board], on);
        uses_.emplace_back(std::set<std::string>{question_.boards[r.board].wood});
        for (std::size_t c = 0; c < on; ++c) uses_.back().insert(coats[c].uses.begin(), coats[c].uses.end());
    }
    set(p_);
}

void FitModel::set(const Eigen::VectorXd& p) {
    if (worked_out_ && p == p_) return;
    p_ = p;
    unknowns_.apply(p_);
    worked_out_ = false;
}

double FitModel::wet_um(const LaidCoat& laid, bool noise) const {
    double log = 0;
    const auto add = [&](std::size_t k) {
        if (k != none) log += unknowns_.all()[k].sd * p_(static_cast<Eigen::Index>(k));
    };
    add(laid.build);
    if (noise) add(laid.hand);
    if (noise) add(laid.own);
    return std::clamp(laid.wet_um * std::exp(log), 1.0, 500.0);
}

const material::Wood& FitModel::wood_of(std::size_t reading) const {
    const auto& id = question_.boards[question_.readings[reading].board].wood;
    return std::get<material::Wood>(unknowns_.materials().at(id).data);
}

schedule::Deposit FitModel::laid(const LaidCoat& coat, bool noise) const {
    schedule::Step step = coat.step;
    step.wet_um = wet_um(coat, noise);
    return schedule::deposit(step, unknowns_.materials());
}

FitModel::Course FitModel::course(std::size_t board, bool noise) const {
    const auto& wood = std::get<material::Wood>(unknowns_.materials().at(question_.boards[board].wood).data);
    Course out;
    out.after.emplace_back().law = unknowns_.law();
    for (std::size_t c = 0; c < most_on_[board]; ++c) {
        out.coats.push_back(laid(unknowns_.coats()[board][c], noise));
        out.after.push_back(appearance::after_drying(out.after.back(), out.coats.back(), wood));
    }
    return out;
}

FitModel::Place FitModel::place(std::size_t reading, bool noise) const {
    Place out{wood_of(reading)};
    for (std::size_t k = 0; noise && k < unknowns_.all().size(); ++k) {
        const auto& u = unknowns_.all()[k];
        if (!u.noise() || u.kind == Unknown::Kind::coat ||
            u.where != (u.kind == Unknown::Kind::board ? question_.readings[reading].board : reading))
            continue;
        Spectrum& sum = u.kind == Unknown::Kind::instrument ? out.instrument : out.shift;
        for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += p_(static_cast<Eigen::Index>(k)) * u.curve[i];
    }
    for (std::size_t i = 0; i < out.shift.size(); ++i)
        if (out.shift[i] != 0) out.wood.reflectance.values[i] = shifted(out.wood.reflectance.values[i], out.shift[i]);
    return out;
}

void FitModel::work_out() {
    if (worked_out_) return;
    courses_.clear(), places_.clear();
    for (std::size_t b = 0; b < question_.boards.size(); ++b) courses_.push_back(course(b, true));
    for (std::size_t r = 0; r < question_.readings.size(); ++r) places_.push_back(place(r, true));
    worked_out_ = true;
}

Spectrum FitModel::seen(const appearance::Board& board, const Place& at, std::size_t every) const {
    Spectrum out = appearance::render(board, at.wood, question_.geometry, solvers_.at(every)).total();
    for (std::size_t i = 0; i < out.size(); ++i) out[i] *= std::exp(at.instrument[i]);
    return out;
}

Spectrum FitModel::seen(std::size_t reading, std::size_t every) const {
    return seen(courses_[question_.readings[reading].board].after[coats_on_[reading]], places_[reading], every);
}

Spectrum FitModel::predicted(std::size_t reading, bool noise) const {
    const Course laid = course(question_.readings[reading].board, noise);
    return seen(laid.after[coats_on_[reading]], place(reading, noise), at_all);
}

Lab FitModel::predicted_lab(std::size_t reading, bool noise) const {
    return lab_of(predicted(reading, noise), question_.readings[reading].weights);
}

Lab FitModel::read_lab(std::size_t reading) const {
    const auto& r = question_.readings[reading];
    return r.lab ? *r.lab : lab_of(*r.reflectance, r.weights);
}

Eigen::VectorXd FitModel::residuals(const Eigen::VectorXd& p) {
    set(p);
    work_out();
    std::vector<double> rows;
    for (std::size_t r = 0; r < question_.readings.size(); ++r) {
        if (r == left_out_) continue;
        const auto& reading = question_.readings[r];
        const Spectrum now = seen(r, reading.reflectance ? at_rows : at_all);
        for (const std::size_t i : samples_[r])
            rows.push_back(std::log(now[i] / std::max(1e-4, (*reading.reflectance)[i])) / sample_noise);
        if (reading.reflectance) continue;
        const Lab q = lab_of(now, reading.weights);
        const double sd = reading.spread_de / std::sqrt(3.0);
        for (const double d : {q.l - reading.lab->l, q.a - reading.lab->a, q.b - reading.lab->b})
            rows.push_back(d / sd);
    }
    Eigen::VectorXd out(static_cast<Eigen::Index>(rows.size()) + size());
    std::copy(rows.begin(), rows.end(), out.data());
    out.tail(size()) = p;
    return out;
}

Eigen::MatrixXd FitModel::jacobian(const Eigen::VectorXd& p, const std::vector<std::size_t>& active) {
    set(p);
    work_out();
    std::size_t rows = 0;
    std::vector<std::size_t> every;
    for (std::size_t r = 0; r < question_.readings.size(); ++r) {
        rows += r == left_out_ ? 0 : rows_of(r);
        every.push_back(question_.readings[r].reflectance ? at_rows : at_few);
    }
    const Slopes by = slopes(active, every);
    Eigen::MatrixXd out =
        Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(rows) + size(), static_cast<Eigen::Index>(active.size()));
    Eigen::Index row = 0;
    for (std::size_t r = 0; r < question_.readings.size(); ++r) {
        if (r == left_out_) continue;
        const auto& reading = question_.readings[r];
        const Spectrum now = seen(r, reading.reflectance ? at_rows : at_all);
        for (std::size_t a = 0; a < active.size(); ++a) {
            const auto column = static_cast<Eigen::Index>(a);
            if (!acts_on(active[a], r)) continue;
            if (reading.reflectance)
                for (std::size_t i = 0; i < samples_[r].size(); ++i)
                    out(row + static_cast<Eigen::Index>(i), column) =
                        by[r][a][samples_[r][i]] / now[samples_[r][i]] / sample_noise;
            else
                out.block<3, 1>(row, column) =
                    lab_slope(now, by[r][a], reading.weights) / (reading.spread_de / std::sqrt(3.0));
        }
        row += static_cast<Eigen::Index>(rows_of(r));
    }
    for (std::size_t a = 0; a < active.size(); ++a)
        out(row + static_cast<Eigen::Index>(active[a]), static_cast<Eigen::Index>(a)) = 1;
    return out;
}

Eigen::MatrixXd FitModel::moves(const Eigen::VectorXd& p, const std::vector<std::size_t>& which) {
    set(p);
    work_out();
    const Slopes by = slopes(which, std::vector<std::size_t>(question_.readings.size(), at_few));
    Eigen::MatrixXd out = Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(3 * question_.readings.size()),
                                                static_cast<Eigen::Index>(which.size()));
    for (std::size_t r = 0; r < question_.readings.size(); ++r) {
        const Spectrum now = seen(r, at_all);
        for (std::size_t k = 0; k < which.size(); ++k)
            if (acts_on(which[k], r))
                out.block<3, 1>(static_cast<Eigen::Index>(3 * r), static_cast<Eigen::Index>(k)) =
                    lab_slope(now, by[r][k], question_.readings[r].weights);
    }
    return out;
}

}  // namespace foretone::learn
