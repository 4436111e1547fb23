// Adding up the stack from its base. Media are numbered 0 (air), 1 … layers, and below them the base, whose index is
// that of the last layer, or of air where it is open. A scattering layer is a two-port in its own modes; everything
// between two of them, interfaces and clear films, is one two-port in the streams.

#include "angular_solver.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <stdexcept>
#include <string>

namespace foretone::optics::angular_detail {
namespace {

constexpr double least_scattering = 1e-12;  // optical depth under which a layer is clear
constexpr double most_series = 1e12;        // stands for an infinite white layer

/// Indices of the layers; one within 2e-5 above a lower one, or above air, takes its value. Between them lies a sliver
/// of directions so grazing that solving for them costs more digits than they carry: the change is below 3e-6.
std::vector<double> drawn_together(const std::vector<Layer>& layers) {
    std::vector<double> distinct{1};
    for (const Layer& layer : layers) distinct.push_back(layer.n);
    std::sort(distinct.begin(), distinct.end());
    const auto same = [](double low, double high) { return high - low < 2e-5; };
    distinct.erase(std::unique(distinct.begin(), distinct.end(), same), distinct.end());
    std::vector<double> indices;
    for (const Layer& layer : layers) {
        indices.push_back(*std::prev(std::upper_bound(distinct.begin(), distinct.end(), layer.n)));
    }
    return indices;
}

/// Coefficient times thickness, 0 for a coefficient of 0 even in a half-space.
double depth(double per_mm, double thickness_mm) { return per_mm > 0 ? per_mm * thickness_mm : 0; }

}  // namespace

AngularSolver::AngularSolver(const Stack& stack, AngularOptions options, const std::vector<double>& air_cosines)
    : stack_(stack), averaged_(options.average_polarisation) {
    check(stack);
    if (options.streams < 4 || options.streams > 64) {
        throw std::invalid_argument("streams: " + std::to_string(options.streams) + " is not within 4-64");
    }
    indices_ = drawn_together(stack.layers);
    streams_ = make_streams(indices_, options.streams, air_cosines);
    root_flux_.resize(streams_.size());
    for (int i = 0; i < streams_.size(); ++i) root_flux_(i) = std::sqrt(streams_.all[static_cast<std::size_t>(i)].flux);
    for (std::size_t i = 0; i < stack.layers.size(); ++i) {
        if (stack.layers[i].scattering_per_mm.empty() || media_.contains(kind(i))) continue;
        media_.emplace(kind(i), make_scattering(streams_, indices_[i], stack.layers[i].anisotropy));
    }
}

double AngularSolver::scattering(std::size_t layer, std::size_t wavelength) const {
    const auto& s = stack_.layers[layer].scattering_per_mm;
    return s.empty() ? 0 : s[wavelength];
}

bool AngularSolver::scatters(std::size_t layer, std::size_t wavelength) const {
    return depth(scattering(layer, wavelength), stack_.layers[layer].thickness_mm) > least_scattering;
}

double AngularSolver::index(std::size_t medium) const {
    const std::size_t layers = stack_.layers.size();
    if (medium > layers && stack_.base.kind != Base::Kind::open) medium = layers;
    return medium == 0 || medium > layers ? 1 : indices_[medium - 1];
}

std::pair<double, double> AngularSolver::kind(std::size_t layer) const {
    return {indices_[layer], stack_.layers[layer].anisotropy};
}

Eigen::VectorXd AngularSolver::uniform(Top top) const {
    Eigen::VectorXd light = root_flux_;
    light.tail(light.size() - streams_.in_medium(top == Top::air ? 1 : index(1))).setZero();
    return light;
}

void AngularSolver::start(std::size_t wavelength) {
    const int size = streams_.size(), in = streams_.in_medium(index(stack_.layers.size() + 1));
    below_.admittance.setIdentity(size, size);
    below_.through.setZero(size);
    if (stack_.base.kind == Base::Kind::open) below_.through.head(in) = root_flux_.head(in);
    if (stack_.base.kind != Base::Kind::lambertian) return;
    const double rho = stack_.base.reflectance[wavelength];
    const Eigen::VectorXd even = root_flux_.head(in) / root_flux_.head(in).norm();
    below_.admittance.topLeftCorner(in, in) -= (2 * rho / (1 + rho)) * even * even.transpose();
}

void AngularSolver::add_loss(FilmRun& run, std::size_t layer, double loss_per_mm, int stream) const {
    const double mu = streams_.cosine(stream, indices_[layer]);
    if (loss_per_mm > 0 && mu > 0) run.add_absorption(std::exp(-loss_per_mm * stack_.layers[layer].thickness_mm / mu));
}

/// From medium `first` to medium `last`: the interfaces between them and the layers first + 1 … last − 1 as clear
/// films.
FilmRun AngularSolver::films(std::size_t first, std::size_t last, int stream, std::size_t wavelength) const {
    FilmRun run(averaged_);
    for (std::size_t medium = first + 1; medium <= last; ++medium) {
        const double upper = index(medium - 1), lower = index(medium);
        if (upper != lower) run.add_interface(streams_.beta_squared(stream), upper, lower);
        if (medium < last) add_loss(run, medium - 1, stack_.layers[medium - 1].absorption_per_mm[wavelength], stream);
    }
    return run;
}

void AngularSolver::add_films(std::size_t first, std::size_t last, std::size_t wavelength) {
    if (last == first + 1 && index(first) == index(last)) return;
    port_.resize(streams_.size());
    for (int i = 0; i < streams_.size(); ++i) films(first, last, i, wavelength).write(port_, i);
    adder_.add(port_, below_);
}

/// The films from the top medium down to medium `last`, without the interface on top.
void AngularSolver::add_films_inside(std::size_t last, std::size_t wavelength) {
    if (last == 1) return;
    add_films(1, last, wavelength);
    port_.resize(streams_.size());
    for (int i = 0; i < streams_.size(); ++i) {
        FilmRun run(averaged_);
        add_loss(run, 0, stack_.layers[0].absorption_per_mm[wavelength], i);
        run.write(port_, i);
    }
    adder_.add(port_, below_);
}

void AngularSolver::add_layer(std::size_t number, std::size_t wavelength) {
    const Layer& layer = stack_.layers[number];
    const double absorption = layer.absorption_per_mm[wavelength], scattered = scattering(number, wavelength);
    const double extinction = absorption + scattered, tau = extinction * layer.thickness_mm;
    const Scattering& medium = media_.at(kind(number));
    const Modes& modes = mode_solver_.solve(medium, scattered / extinction, absorption / extinction);
    const Eigen::Index size = modes.rate.size();
    if (std::isinf(tau) && modes.rate.minCoeff() > 0) {  // without end: nothing of what lies below is seen
        below_.admittance.setZero();
        below_.through.setZero();
        work_.noalias() = modes.to_d * modes.rate.asDiagonal();
        below_.admittance.topLeftCorner(size, size).noalias() = work_ * modes.to_d.transpose();
        return;
    }
    port_.resize(size);
    for (Eigen::Index k = 0; k < size; ++k) {
        const double rate = modes.rate(k), x = rate > 0 ? rate * tau : 0, e = std::exp(-x);
        port_.shunt(k) = rate * std::tanh(x);
        port_.transfer(k) = 2 * e / (1 + e * e);
        port_.series(k) = std::min(most_series, x < 1e-9 ? tau : std::tanh(x) / rate);
    }
    work_.noalias() = below_.admittance.topLeftCorner(size, size) * modes.to_s;
    inner_.admittance.noalias() = modes.to_s.transpose() * work_;
    inner_.through.noalias() = modes.to_s.transpose() * below_.through.head(size);
    adder_.add(port_, inner_);
    // Streams that do not exist in this medium are totally reflected at its faces: nothing passes them.
    below_.admittance.setZero();
    below_.through.setZero();
    work_.noalias() = modes.to_d * inner_.admittance;
    below_.admittance.topLeftCorner(size, size).noalias() = work_ * modes.to_d.transpose();
    below_.through.head(size).noalias() = modes.to_d * inner_.through;
}

void AngularSolver::solve(std::size_t wavelength, Top top) {
    start(wavelength);
    std::size_t below = stack_.layers.size() + 1;  // the medium the next run of films stands on
    while (true) {
        std::size_t above = below - 1;
        while (above > 0 && !scatters(above - 1, wavelength)) --above;
        if (above == 0 && top == Top::inside) return add_films_inside(below, wavelength);
        add_films(above, below, wavelength);
        if (above == 0) return;
        add_layer(above - 1, wavelength);
        below = above;
    }
}

Eigen::VectorXd AngularSolver::answer(const Eigen::VectorXd& incident) {
    work_ = below_.admittance;
    work_.diagonal().array() += 1;
    cholesky_.compute(work_);
    return cholesky_.solve(incident);
}

/// Runs of films, their polarisations averaged as in `solve`, with the scattering layers between them as absorbers of
/// all they scatter.
double AngularSolver::regular(int stream, std::size_t wavelength) const {
    const std::size_t base = stack_.layers.size() + 1;
    FilmRun total(averaged_);
    std::size_t above = 0;
    while (true) {
        std::size_t below = above + 1;
        while (below < base && !scatters(below - 1, wavelength)) ++below;
        total.add_unpolarised(films(above, below, stream, wavelength));
        if (below == base) return total.reflectance();
        const double extinction =
            stack_.layers[below - 1].absorption_per_mm[wavelength] + scattering(below - 1, wavelength);
        add_loss(total, below - 1, extinction, stream);
        above = below;
    }
}

}  // namespace foretone::optics::angular_detail
