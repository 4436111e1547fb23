// How each reading moves with each unknown. Symbols: R(λ) what a reading shows · x an unknown · h a small step.
//   ∂R/∂x ≈ (R(x + h) − R(x))/h
//
// Each wavelength is solved by itself, so one solve with all of a curve moved at once gives its derivative at every
// wavelength: all amplitudes of a wood, or of a film, cost one solve a reading. An unknown acts on some coats and
// leaves those below as they are: boards are laid again from the first of these coats on, and coats that it does not
// act on as they were. Both sides of a difference are solved at the same wavelengths: a few are enough for the slopes
// of a color.

#include <cmath>

#include "fields.hpp"
#include "fit_model.hpp"

namespace foretone::learn {
namespace {
using spectral::Spectrum;

constexpr double tiny = 1e-4;  // step of a derivative, in standard deviations or in a logarithm

Spectrum difference(const Spectrum& a, const Spectrum& b, double over) {
    Spectrum out;
    for (std::size_t i = 0; i < out.size(); ++i) out[i] = (a[i] - b[i]) / over;
    return out;
}

Spectrum product(const Spectrum& a, const Spectrum& b) {
    Spectrum out;
    for (std::size_t i = 0; i < out.size(); ++i) out[i] = a[i] * b[i];
    return out;
}

bool curve_of_wood(const Unknown& u) {
    return u.kind == Unknown::Kind::wood || u.kind == Unknown::Kind::board || u.kind == Unknown::Kind::place;
}

bool of_wood(const Unknown& u, const material::Materials& materials) {
    return u.kind == Unknown::Kind::figure && std::holds_alternative<material::Wood>(materials.at(u.material).data);
}

}  // namespace

bool FitModel::acts_on(std::size_t unknown, std::size_t reading) const {
    const auto& r = question_.readings[reading];
    const Unknown& u = unknowns_.all()[unknown];
    switch (u.kind) {
        case Unknown::Kind::board:
            return u.where == r.board;
        case Unknown::Kind::place:
        case Unknown::Kind::instrument:
            return u.where == reading;
        case Unknown::Kind::law:
            return coats_on_[reading] > 0;
        case Unknown::Kind::coat:
        case Unknown::Kind::build:
            for (std::size_t c = 0; c < coats_on_[reading]; ++c)
                if (acts_on(unknown, unknowns_.coats()[r.board][c])) return true;
            return false;
        default:
            return uses_[reading].count(u.material) > 0;
    }
}

bool FitModel::acts_on(std::size_t unknown, const LaidCoat& coat) const {
    const Unknown& u = unknowns_.all()[unknown];
    if (u.kind == Unknown::Kind::coat || u.kind == Unknown::Kind::build)
        return coat.own == unknown || coat.hand == unknown || coat.build == unknown;
    return coat.uses.count(u.material) > 0;
}

void FitModel::lay_again(std::size_t unknown, const See& see) const {
    const Unknown& u = unknowns_.all()[unknown];
    const bool from_bare = u.kind == Unknown::Kind::law || of_wood(u, unknowns_.library());
    for (std::size_t b = 0; b < question_.boards.size(); ++b) {
        const auto show = [&](std::size_t on, const appearance::Board& board) {
            for (std::size_t r = 0; r < question_.readings.size(); ++r)
                if (r != left_out_ && question_.readings[r].board == b && coats_on_[r] == on && acts_on(unknown, r))
                    see(r, board);
        };
        const auto& coats = unknowns_.coats()[b];
        const auto& wood = std::get<material::Wood>(unknowns_.materials().at(question_.boards[b].wood).data);
        std::size_t c = 0;
        while (!from_bare && c < most_on_[b] && !acts_on(unknown, coats[c])) ++c;
        appearance::Board board;
        board.law = unknowns_.law();
        if (!from_bare) board = courses_[b].after[c];
        if (from_bare) show(0, board);
        for (; c < most_on_[b]; ++c) {
            const bool again = acts_on(unknown, coats[c]);
            board = appearance::after_drying(board, again ? laid(coats[c], true) : courses_[b].coats[c], wood);
            show(c + 1, board);
        }
    }
}

void FitModel::add_wood_slopes(const std::vector<std::size_t>& active, const std::vector<std::size_t>& every,
                               const std::vector<Spectrum>& base, Slopes& out) const {
    for (std::size_t r = 0; r < question_.readings.size(); ++r) {
        if (r == left_out_) continue;
        Place moved = places_[r];
        const auto& values = wood_of(r).reflectance.values;
        for (std::size_t i = 0; i < values.size(); ++i)
            moved.wood.reflectance.values[i] = shifted(values[i], moved.shift[i] + tiny);
        const auto& board = courses_[question_.readings[r].board].after[coats_on_[r]];
        const Spectrum whole = difference(seen(board, moved, every[r]), base[r], tiny);
        for (std::size_t a = 0; a < active.size(); ++a) {
            const Unknown& u = unknowns_.all()[active[a]];
            if (curve_of_wood(u) && acts_on(active[a], r)) out[r][a] = product(whole, u.curve);
        }
    }
}

void FitModel::add_film_slopes(const std::string& film, const std::vector<std::size_t>& active,
                               const std::vector<std::size_t>& every, const std::vector<Spectrum>& base, Slopes& out) {
    const auto of_it = [&](std::size_t unknown) {
        const Unknown& u = unknowns_.all()[unknown];
        return u.kind == Unknown::Kind::film && u.material == film;
    };
    if (!unknowns_.tint_film(film, std::exp(tiny))) return;
    lay_again(*std::find_if(active.begin(), active.end(), of_it), [&](std::size_t r, const appearance::Board& board) {
        const Spectrum whole = difference(seen(board, places_[r], every[r]), base[r], tiny);
        for (std::size_t a = 0; a < active.size(); ++a)
            if (of_it(active[a])) out[r][a] = product(whole, unknowns_.all()[active[a]].curve);
    });
    unknowns_.apply(p_);
}

void FitModel::add_lone_slope(std::size_t column, const std::vector<std::size_t>& active,
                              const std::vector<std::size_t>& every, const std::vector<Spectrum>& base, Slopes& out) {
    const std::size_t unknown = active[column];
    const auto k = static_cast<Eigen::Index>(unknown);
    const double value = p_(k);
    const double step = value > 0 ? -tiny : tiny;  // inwards: a figure at the end of its range moves that way alone
    p_(k) = value + step;
    unknowns_.apply(unknown, p_(k));
    const bool wood = of_wood(unknowns_.all()[unknown], unknowns_.library());
    lay_again(unknown, [&](std::size_t r, const appearance::Board& board) {
        if (wood) {
            Place moved{wood_of(r), {}, places_[r].instrument};
            moved.wood.reflectance.values = places_[r].wood.reflectance.values;
            out[r][column] = difference(seen(board, moved, every[r]), base[r], step);
        } else {
            out[r][column] = difference(seen(board, places_[r], every[r]), base[r], step);
        }
    });
    p_(k) = value;
    unknowns_.apply(unknown, value);
}

FitModel::Slopes FitModel::slopes(const std::vector<std::size_t>& active, const std::vector<std::size_t>& every) {
    std::vector<Spectrum> base;
    for (std::size_t r = 0; r < question_.readings.size(); ++r)
        base.push_back(r == left_out_ ? Spectrum{} : seen(r, every[r]));
    Slopes out(base.size(), std::vector<Spectrum>(active.size()));
    add_wood_slopes(active, every, base, out);
    std::set<std::string> films;
    for (std::size_t a = 0; a < active.size(); ++a) {
        const Unknown& u = unknowns_.all()[active[a]];
        if (u.kind == Unknown::Kind::film) {
            if (films.insert(u.material).second) add_film_slopes(u.material, active, every, base, out);
        } else if (u.kind == Unknown::Kind::instrument) {
            if (u.where != left_out_) out[u.where][a] = product(base[u.where], u.curve);
        } else if (!curve_of_wood(u)) {
            add_lone_slope(a, active, every, base, out);
        }
    }
    return out;
}

}  // namespace foretone::learn
