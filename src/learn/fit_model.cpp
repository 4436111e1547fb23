// Symbols: p unknowns · R(λ; p) what a reading shows · y what was read · σ its noise.
//
// Rows of a spectrum are (ln R − ln y)/σ every 10 nm, σ = 0.6 % for what is not common to the whole spectrum (that is
// an unknown); rows of a Lab reading are its three differences over σ_ΔE/√3. Each wavelength is solved by itself, so
// one solve with all of a curve moved at once gives its derivative at every wavelength: all amplitudes of a wood, or of
// a film, cost one solve a reading.

#include "fit_model.hpp"

#include <algorithm>
#include <cmath>

#include "fields.hpp"

namespace foretone::learn {
namespace {
using color::Lab;
using spectral::Spectrum;

constexpr double tiny = 1e-4;  // step of a derivative, in standard deviations or in a logarithm

Spectrum difference(const Spectrum& a, const Spectrum& b, double over) {
    Spectrum out;
    for (std::size_t i = 0; i < out.size(); ++i) out[i] = (a[i] - b[i]) / over;
    return out;
}

Lab lab_of(const Spectrum& r, const color::Weights& w) { return color::to_lab(color::xyz(r, w), w.white); }

Eigen::Vector3d lab_slope(const Spectrum& at, const Spectrum& slope, const color::Weights& w) {
    Spectrum moved;
    for (std::size_t i = 0; i < moved.size(); ++i) moved[i] = at[i] + tiny * slope[i];
    const Lab p = lab_of(at, w), q = lab_of(moved, w);
    return Eigen::Vector3d(q.l - p.l, q.a - p.a, q.b - p.b) / tiny;
}

}  // namespace

FitModel::FitModel(const FitQuestion& question)
    : question_(question),
      unknowns_(question),
      p_(Eigen::VectorXd::Zero(size())),
      solver_(appearance::two_flux_solver()) {
    for (const auto& r : question_.readings) {
        samples_.emplace_back();
        for (std::size_t i = 0; r.reflectance && i < spectral::grid_size; i += 2)
            if (spectral::grid_nm(i) >= r.first_nm - 1e-9 && spectral::grid_nm(i) <= r.last_nm + 1e-9)
                samples_.back().push_back(i);
        const auto& coats = unknowns_.coats()[r.board];
        std::size_t on = 0;
        while (on < coats.size() &&
               (coats[on].number < r.step || (coats[on].number == r.step && coats[on].coat <= r.coat)))
            ++on;
        coats_on_.push_back(on);
        uses_.emplace_back(std::set<std::string>{question_.boards[r.board].wood});
        for (std::size_t c = 0; c < on; ++c) uses_.back().insert(coats[c].uses.begin(), coats[c].uses.end());
    }
    set(p_);
}

void FitModel::set(const Eigen::VectorXd& p) {
    p_ = p;
    unknowns_.apply(p_);
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

// What the reading shows; `shift` is added to ln(K/S) of its wood.
Spectrum FitModel::seen(std::size_t reading, bool noise, double shift) const {
    const auto& r = question_.readings[reading];
    material::Wood wood = std::get<material::Wood>(unknowns_.materials().at(question_.boards[r.board].wood).data);
    Spectrum by = Spectrum::constant(shift), instrument;
    for (std::size_t k = 0; noise && k < unknowns_.all().size(); ++k) {
        const auto& u = unknowns_.all()[k];
        if (!u.noise() || u.kind == Unknown::Kind::coat ||
            u.where != (u.kind == Unknown::Kind::board ? r.board : reading))
            continue;
        Spectrum& sum = u.kind == Unknown::Kind::instrument ? instrument : by;
        for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += p_(static_cast<Eigen::Index>(k)) * u.curve[i];
    }
    for (std::size_t i = 0; i < by.size(); ++i)
        if (by[i] != 0) wood.reflectance.values[i] = shifted(wood.reflectance.values[i], by[i]);
    appearance::Board board;
    board.law = unknowns_.law();
    const auto& coats = unknowns_.coats()[r.board];
    for (std::size_t c = 0; c < coats_on_[reading]; ++c) {
        schedule::Step step = coats[c].step;
        step.wet_um = wet_um(coats[c], noise);
        board = appearance::after_drying(board, schedule::deposit(step, unknowns_.materials()), wood);
    }
    Spectrum out = appearance::render(board, wood, question_.geometry, solver_).total();
    for (std::size_t i = 0; i < out.size(); ++i) out[i] *= std::exp(instrument[i]);
    return out;
}

Spectrum FitModel::predicted(std::size_t reading, bool noise) const { return seen(reading, noise, 0); }

Lab FitModel::predicted_lab(std::size_t reading, bool noise) const {
    return lab_of(predicted(reading, noise), question_.readings[reading].weights);
}

Lab FitModel::read_lab(std::size_t reading) const {
    const auto& r = question_.readings[reading];
    return r.lab ? *r.lab : lab_of(*r.reflectance, r.weights);
}

Spectrum FitModel::wood_slope(std::size_t reading, const Spectrum& base) const {
    return difference(seen(reading, true, tiny), base, tiny);
}

Spectrum FitModel::film_slope(std::size_t reading, const std::string& film, const Spectrum& base) {
    if (!unknowns_.tint_film(film, std::exp(tiny))) return {};
    const Spectrum out = difference(seen(reading, true, 0), base, tiny);
    unknowns_.apply(p_);
    return out;
}

Spectrum FitModel::lone_slope(std::size_t reading, std::size_t unknown, const Spectrum& base) {
    const auto k = static_cast<Eigen::Index>(unknown);
    const double value = p_(k);
    const bool coat = unknowns_.all()[unknown].kind == Unknown::Kind::coat;
    const double step = value > 0 ? -tiny : tiny;  // inwards: a figure at the end of its range moves that way alone
    p_(k) = value + step;
    if (!coat) unknowns_.apply(p_);
    const Spectrum out = difference(seen(reading, true, 0), base, step);
    p_(k) = value;
    if (!coat) unknowns_.apply(p_);
    return out;
}

bool FitModel::acts_on(const Unknown& u, std::size_t index, std::size_t reading) const {
    const auto& r = question_.readings[reading];
    switch (u.kind) {
        case Unknown::Kind::board:
            return u.where == r.board;
        case Unknown::Kind::place:
        case Unknown::Kind::instrument:
            return u.where == reading;
        case Unknown::Kind::law:
            return coats_on_[reading] > 0;
        case Unknown::Kind::coat:
        case Unknown::Kind::build: {
            const auto& coats = unknowns_.coats()[r.board];
            for (std::size_t c = 0; c < coats_on_[reading]; ++c)
                if (coats[c].own == index || coats[c].hand == index || coats[c].build == index) return true;
            return false;
        }
        default:
            return uses_[reading].count(u.material) > 0;
    }
}

std::vector<Spectrum> FitModel::slopes(std::size_t reading, const std::vector<std::size_t>& active) {
    const Spectrum base = seen(reading, true, 0);
    const Spectrum wood = wood_slope(reading, base);
    std::map<std::string, Spectrum> films;
    std::vector<Spectrum> out;
    for (const std::size_t k : active) {
        const auto& u = unknowns_.all()[k];
        out.emplace_back();
        if (!acts_on(u, k, reading)) continue;
        const Spectrum* whole = nullptr;
        if (u.kind == Unknown::Kind::wood || u.kind == Unknown::Kind::board || u.kind == Unknown::Kind::place)
            whole = &wood;
        else if (u.kind == Unknown::Kind::instrument)
            whole = &base;
        else if (u.kind == Unknown::Kind::film) {
            if (!films.count(u.material)) films[u.material] = film_slope(reading, u.material, base);
            whole = &films[u.material];
        }
        if (!whole)
            out.back() = lone_slope(reading, k, base);
        else
            for (std::size_t i = 0; i < base.size(); ++i) out.back()[i] = (*whole)[i] * u.curve[i];
    }
    return out;
}

Eigen::VectorXd FitModel::residuals(const Eigen::VectorXd& p) {
    set(p);
    std::vector<double> rows;
    for (std::size_t r = 0; r < question_.readings.size(); ++r) {
        if (r == left_out_) continue;
        const auto& reading = question_.readings[r];
        const Spectrum now = seen(r, true, 0);
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
    std::size_t rows = 0;
    for (std::size_t r = 0; r < question_.readings.size(); ++r) rows += r == left_out_ ? 0 : rows_of(r);
    Eigen::MatrixXd out =
        Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(rows) + size(), static_cast<Eigen::Index>(active.size()));
    Eigen::Index row = 0;
    for (std::size_t r = 0; r < question_.readings.size(); ++r) {
        if (r == left_out_) continue;
        const auto& reading = question_.readings[r];
        const Spectrum now = seen(r, true, 0);
        const auto by = slopes(r, active);
        for (std::size_t a = 0; a < active.size(); ++a) {
            const auto column = static_cast<Eigen::Index>(a);
            if (reading.reflectance)
                for (std::size_t i = 0; i < samples_[r].size(); ++i)
                    out(row + static_cast<Eigen::Index>(i), column) =
                        by[a][samples_[r][i]] / now[samples_[r][i]] / sample_noise;
            else
                out.block<3, 1>(row, column) =
                    lab_slope(now, by[a], reading.weights) / (reading.spread_de / std::sqrt(3.0));
        }
        row += static_cast<Eigen::Index>(rows_of(r));
    }
    for (std::size_t a = 0; a < active.size(); ++a)
        out(row + static_cast<Eigen::Index>(active[a]), static_cast<Eigen::Index>(a)) = 1;
    return out;
}

Eigen::MatrixXd FitModel::moves(const Eigen::VectorXd& p, const std::vector<std::size_t>& which) {
    set(p);
    Eigen::MatrixXd out(static_cast<Eigen::Index>(3 * question_.readings.size()),
                        static_cast<Eigen::Index>(which.size()));
    for (std::size_t r = 0; r < question_.readings.size(); ++r) {
        const Spectrum now = seen(r, true, 0);
        const auto by = slopes(r, which);
        for (std::size_t k = 0; k < which.size(); ++k)
            out.block<3, 1>(static_cast<Eigen::Index>(3 * r), static_cast<Eigen::Index>(k)) =
                lab_slope(now, by[k], question_.readings[r].weights);
    }
    return out;
}

}  // namespace foretone::learn
