// Colors of many worlds. Symbols: z coordinates of a world, standard normal · J slopes of the finished colors by them ·
// V right singular vectors of J · u quasi-random normal deviates.
//
// Each world sets all coordinates at once, so products of effects (a stronger dye under a thinner coat) and bent
// responses are in the result, which moving one figure at a time leaves out. The one-at-a-time moves are made all the
// same: they say which figures matter, and they are the slopes J.
//
// Why turned: z = V u has the same distribution as u, but the finished colors then depend, to first order, on as few
// of the u as there are colors: three a finish, whatever the number of figures. Those get the lattice's first
// dimensions, where it is most even (Imai & Tan 2006), and a few hundred worlds do what thousands would. Materials and
// boards are turned apart, as each world has two boards for its materials.
//
// Materials' and boards' parts: with c and c′ two boards of one world, ½ E|c − c′|² is the variance that is left when
// the materials are known, averaged over what they may be; the rest of the whole is the materials'.

#include "foretone/appearance/spread.hpp"

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>
#include <stdexcept>

#include "every_fourth.hpp"
#include "foretone/appearance/lattice.hpp"
#include "walk.hpp"

namespace foretone::appearance {
namespace {
using color::Lab;
using Colors = std::vector<std::vector<Lab>>;  // [stage][light]
using World = std::vector<double>;

// What the finishes look like in the world that is set.
class Eye {
public:
    Eye(const SpreadQuestion& question, const UncertainFigures& figures)
        : q_(question), figures_(figures), solver_(every_fourth(question.solver)) {}

    /// All stages of all finishes, or the finished ones; throws schedule::Fault.
    std::vector<Colors> look(bool only_finished) {
        std::vector<Colors> out;
        bare_.clear();
        for (std::size_t f = 0; f < q_.finishes.size(); ++f) out.push_back(look_at(f, only_finished));
        return out;
    }
    /// The finished ones; nothing if a schedule is impossible.
    std::optional<std::vector<Colors>> finished() {
        try {
            return look(true);
        } catch (const schedule::Fault&) {
            return std::nullopt;
        }
    }

private:
    Colors look_at(std::size_t f, bool only_finished) {
        const auto& finish = q_.finishes[f];
        const bool bare =
            std::all_of(finish.steps.begin(), finish.steps.end(), [](const auto& s) { return s.coats <= 0; });
        Colors out;
        walk(figures_.shelf(), figures_.wood(), finish, figures_.departure(f), nullptr, [&](const Moment& m) {
            if (only_finished && m.kind != StageKind::finished && !bare) return;
            if (m.step >= 0) return out.push_back(colors_of(m.board()));
            if (bare_.empty()) bare_ = colors_of(m.board());  // of all finishes
            out.push_back(bare_);
        });
        return out;
    }

    std::vector<Lab> colors_of(const Board& board) const {
        const auto total = render(board, figures_.wood(), q_.geometry, solver_).total();
        std::vector<Lab> out;
        for (const auto& w : q_.lights) out.push_back(color::to_lab(color::xyz(total, w), w.white));
        return out;
    }

    const SpreadQuestion& q_;
    const UncertainFigures& figures_;
    Solver solver_;
    std::vector<Lab> bare_;
};

// Moves of the finished colors by each coordinate alone, [coordinate][finish][light]: +1 sd, or −1 (turned round).
struct Slopes {
    Eigen::MatrixXd lab;                    // three rows a finish, under the first light
    std::vector<std::vector<double>> de00;  // [finish][coordinate]
};

Slopes one_at_a_time(UncertainFigures& figures, Eye& eye, std::size_t finishes) {
    const std::size_t count = figures.coordinates().size();
    Slopes out{Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(3 * finishes), static_cast<Eigen::Index>(count)),
               std::vector<std::vector<double>>(finishes, std::vector<double>(count, 0.0))};
    World world(count, 0.0);
    figures.set(world);
    const auto base = eye.look(true);
    for (std::size_t c = 0; c < count; ++c) {
        for (const double sigmas : {1.0, -1.0}) {
            world[c] = sigmas;
            figures.set(world);
            const auto moved = eye.finished();
            if (!moved) continue;
            for (std::size_t f = 0; f < finishes; ++f) {
                const Lab &p = base[f].back().front(), &q = (*moved)[f].back().front();
                out.de00[f][c] = color::delta_e_00(p, q);
                out.lab.block<3, 1>(static_cast<Eigen::Index>(3 * f), static_cast<Eigen::Index>(c)) =
                    sigmas * Eigen::Vector3d(q.l - p.l, q.a - p.a, q.b - p.b);
            }
            break;
        }
        world[c] = 0;
    }
    figures.set(world);
    return out;
}

std::vector<Contribution> contributions(const UncertainFigures& figures, const std::vector<double>& alone,
                                        std::size_t finish) {
    std::vector<Contribution> out;
    for (std::size_t c = 0; c < alone.size(); ++c) {
        if (alone[c] <= 0) continue;
        const Contribution one{figures.what(c, finish), alone[c], figures.coordinates()[c].origin};
        const auto same = std::find_if(out.begin(), out.end(), [&](const auto& o) { return o.what == one.what; });
        if (same == out.end())
            out.push_back(one);
        else
            same->de00 = std::hypot(same->de00, one.de00);
    }
    std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.de00 > b.de00; });
    return out;
}

std::uint64_t seed_of(const UncertainFigures& figures) {
    std::uint64_t seed = 0;
    for (const auto& c : figures.coordinates())
        for (const char ch : c.name) seed = mixed(seed, static_cast<unsigned char>(ch));
    return seed;
}

// The coordinates of one origin, turned: coordinate `which[i]` is Σ_k turn(i, k) u_k.
struct Turned {
    std::vector<std::size_t> which;
    Eigen::MatrixXd turn;
    std::vector<double> size;  // of each u: what it does to the finished colors, largest first
};

Turned turned(const UncertainFigures& figures, const Slopes& slopes, Origin origin) {
    Turned out;
    for (std::size_t c = 0; c < figures.coordinates().size(); ++c)
        if (figures.coordinates()[c].origin == origin) out.which.push_back(c);
    const auto n = static_cast<Eigen::Index>(out.which.size());
    Eigen::MatrixXd part(slopes.lab.rows(), n);
    for (Eigen::Index i = 0; i < n; ++i)
        part.col(i) = slopes.lab.col(static_cast<Eigen::Index>(out.which[static_cast<std::size_t>(i)]));
    if (n == 0) return out;
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(part, Eigen::ComputeFullV);
    out.turn = svd.matrixV();
    out.size.assign(out.which.size(), 0.0);
    for (Eigen::Index k = 0; k < svd.singularValues().size(); ++k)
        out.size[static_cast<std::size_t>(k)] = svd.singularValues()(k);
    for (Eigen::Index k = 0; k < n; ++k) {  // a singular vector's sign is free
        Eigen::Index most = 0;
        out.turn.col(k).cwiseAbs().maxCoeff(&most);
        if (out.turn(most, k) < 0) out.turn.col(k) *= -1;
    }
    return out;
}

// Which dimension of the lattice each u takes: the larger its effect, the earlier. Materials first, then the boards.
class Plan {
public:
    Plan(const UncertainFigures& figures, const Slopes& slopes)
        : count_(figures.coordinates().size()),
          parts_{turned(figures, slopes, Origin::materials), turned(figures, slopes, Origin::boards)} {
        struct Wanted {
            double size;
            std::size_t set, index;
        };
        std::vector<Wanted> wanted;
        for (std::size_t set = 0; set < 1 + boards_of_a_world; ++set) {
            const auto& sizes = parts_[set == 0 ? 0 : 1].size;
            dimensions_.emplace_back(sizes.size());
            for (std::size_t i = 0; i < sizes.size(); ++i) wanted.push_back({sizes[i], set, i});
        }
        std::stable_sort(wanted.begin(), wanted.end(), [](const auto& a, const auto& b) { return a.size > b.size; });
        for (std::size_t d = 0; d < wanted.size(); ++d) dimensions_[wanted[d].set][wanted[d].index] = d;
        all_ = wanted.size();
    }

    std::size_t dimensions() const { return all_; }

    /// A world's board.
    World world(const ShiftedLattice& lattice, std::size_t point, std::size_t board, unsigned again) const {
        World out(count_, 0.0);
        for (std::size_t p = 0; p < 2; ++p) {
            const auto& part = parts_[p];
            const auto& dimension = dimensions_[p == 0 ? 0 : 1 + board];
            Eigen::VectorXd u(static_cast<Eigen::Index>(dimension.size()));
            for (std::size_t k = 0; k < dimension.size(); ++k)
                u(static_cast<Eigen::Index>(k)) = normal_quantile(lattice.at(point, dimension[k], again));
            if (u.size() == 0) continue;
            const Eigen::VectorXd z = part.turn * u;
            for (std::size_t i = 0; i < part.which.size(); ++i) out[part.which[i]] = z(static_cast<Eigen::Index>(i));
        }
        return out;
    }

private:
    std::size_t count_, all_ = 0;
    std::array<Turned, 2> parts_;
    std::vector<std::vector<std::size_t>> dimensions_;  // [materials, board 1, board 2][u]
};

// All draws of all finishes.
class Drawing {
public:
    Drawing(const SpreadQuestion& q, UncertainFigures& figures, Eye& eye, const Plan& plan)
        : q_(q), figures_(figures), eye_(eye), plan_(plan) {}

    /// [finish][stage][light][draw].
    std::vector<std::vector<std::vector<Draws>>> all(std::size_t& redrawn) {
        const std::uint64_t seed = seed_of(figures_);
        for (std::size_t set = 0; set < draw_sets; ++set) {
            const ShiftedLattice lattice(plan_.dimensions(), mixed(seed, set));
            for (std::size_t point = 0; point < lattice_points; ++point) draw(lattice, point, redrawn);
        }
        return std::move(seen_);
    }

private:
    // Both boards of a world. An impossible schedule is drawn again from the same point of other shifts; a point that
    // fails every time is left out.
    void draw(const ShiftedLattice& lattice, std::size_t point, std::size_t& redrawn) {
        constexpr unsigned most_shifts = 64;
        for (unsigned again = 0; again < most_shifts; ++again) {
            try {
                std::array<std::vector<Colors>, boards_of_a_world> boards;
                for (std::size_t b = 0; b < boards_of_a_world; ++b) {
                    figures_.set(plan_.world(lattice, point, b, again));
                    boards[b] = eye_.look(!q_.every_stage);
                }
                for (const auto& board : boards) keep(board);
                return;
            } catch (const schedule::Fault&) {
                ++redrawn;
            }
        }
    }

    void keep(const std::vector<Colors>& colors) {
        seen_.resize(colors.size());
        for (std::size_t f = 0; f < colors.size(); ++f) {
            seen_[f].resize(colors[f].size());
            for (std::size_t s = 0; s < colors[f].size(); ++s) {
                seen_[f][s].resize(colors[f][s].size());
                for (std::size_t l = 0; l < colors[f][s].size(); ++l) seen_[f][s][l].push_back(colors[f][s][l]);
            }
        }
    }

    const SpreadQuestion& q_;
    UncertainFigures& figures_;
    Eye& eye_;
    const Plan& plan_;
    std::vector<std::vector<std::vector<Draws>>> seen_;
};

// How far the sets' own quantiles lie apart is how sure the quantile of all is: sd/√sets.
double quantile_error(const Draws& draws, const Region& of) {
    if (!(of.de00_90 > 0)) return 0;
    const std::size_t each = draws.size() / draw_sets;
    double sum = 0, squares = 0;
    for (std::size_t set = 0; set < draw_sets; ++set) {
        std::vector<double> de;
        for (std::size_t i = 0; i < each; ++i) de.push_back(color::delta_e_00(draws[set * each + i], of.mean));
        const double q = quantile(std::move(de), region_share) / of.de00_90;
        sum += q;
        squares += q * q;
    }
    constexpr auto n = static_cast<double>(draw_sets);
    return std::sqrt(std::max(0.0, squares - sum * sum / n) / (n - 1) / n);
}

Region region_of(const Draws& draws) {
    Region out = region(draws);
    out.de00_90_error = quantile_error(draws, out);
    double squares = 0;
    for (std::size_t i = 0; i + 1 < draws.size(); i += 2) {
        const double de = color::delta_e_00(draws[i], draws[i + 1]);
        squares += de * de;
    }
    out.boards_de00 = std::min(out.rms_de00, std::sqrt(squares / static_cast<double>(draws.size())));
    out.materials_de00 = std::sqrt(out.rms_de00 * out.rms_de00 - out.boards_de00 * out.boards_de00);
    return out;
}

// If the materials were known: the mean and, about it, half of what two boards of a world differ by, to both sides.
Region boards_alone(const Draws& draws, const Lab& mean) {
    Draws alone;
    for (std::size_t i = 0; i + 1 < draws.size(); i += 2) {
        const auto &p = draws[i], &q = draws[i + 1];
        const double s = std::sqrt(0.5);
        for (const double side : {s, -s})
            alone.push_back({mean.l + side * (p.l - q.l), mean.a + side * (p.a - q.a), mean.b + side * (p.b - q.b)});
    }
    Region out = region(alone);
    out.boards_de00 = out.rms_de00;
    out.de00_90_error = quantile_error(alone, out);
    return out;
}

void weakest_marks(const material::Shelf& used, const std::vector<std::string>& ids, Spread& out) {
    for (const auto& id : ids) {
        material::Material copy = used.at(id);
        for (const auto& f : material::figures(copy)) {
            if (!f.optical) continue;
            const auto mark = f.from().mark;
            if (mark > out.rests_on) out.weakest.clear();
            out.rests_on = material::weaker(out.rests_on, mark);
            if (mark == out.rests_on && (out.weakest.empty() || out.weakest.back() != id)) out.weakest.push_back(id);
        }
    }
}

void require_pairs(const Draws& from, const Draws& to) {
    if (from.empty() || from.size() != to.size())
        throw std::invalid_argument("draws: " + std::to_string(from.size()) + " and " + std::to_string(to.size()) +
                                    ", not the same number, one or more");
}

}  // namespace

std::vector<Spread> spreads(const SpreadQuestion& q) {
    if (q.lights.empty()) throw std::invalid_argument("spreads: no light");
    UncertainFigures figures(q.shelf, q.wood, q.finishes, q.lights.front(), q.knowledge);
    Eye eye(q, figures);
    const auto slopes = one_at_a_time(figures, eye, q.finishes.size());
    const Plan plan(figures, slopes);
    std::size_t redrawn = 0;
    auto seen = Drawing(q, figures, eye, plan).all(redrawn);
    std::vector<Spread> out(q.finishes.size());
    for (std::size_t f = 0; f < out.size(); ++f) {
        out[f].redrawn = redrawn;
        out[f].contributions = contributions(figures, slopes.de00[f], f);
        weakest_marks(figures.shelf(), figures.used(f), out[f]);
        for (const auto& stage : seen[f]) {
            out[f].regions.emplace_back();
            for (const auto& draws : stage) out[f].regions.back().push_back(region_of(draws));
        }
        out[f].finished = std::move(seen[f].back());
        for (std::size_t l = 0; l < q.lights.size(); ++l)
            out[f].boards.push_back(boards_alone(out[f].finished[l], out[f].regions.back()[l].mean));
    }
    return out;
}

Spread spread(const material::Shelf& shelf, const std::string& wood, const schedule::Finish& finish,
              optics::Geometry geometry, const Solver& solver, const std::vector<color::Weights>& lights,
              const Knowledge& knowledge) {
    return std::move(spreads({shelf, wood, {finish}, geometry, solver, lights, true, knowledge}).front());
}

DifferenceSpread difference_spread(const Draws& from, const Draws& to) {
    require_pairs(from, to);
    const auto n = static_cast<double>(from.size());
    Lab mean;
    for (std::size_t i = 0; i < from.size(); ++i) {
        mean.l += (to[i].l - from[i].l) / n;
        mean.a += (to[i].a - from[i].a) / n;
        mean.b += (to[i].b - from[i].b) / n;
    }
    std::vector<double> de;
    double squares = 0;
    for (std::size_t i = 0; i < from.size(); ++i) {
        de.push_back(color::delta_e_00(from[i], to[i]));
        const double off = color::delta_e_00({from[i].l + mean.l, from[i].a + mean.a, from[i].b + mean.b}, to[i]);
        squares += off * off;
    }
    constexpr double side = (1 - region_share) / 2;
    return {std::sqrt(squares / n), quantile(de, side), quantile(de, 1 - side)};
}

Draws on_the_other_board(Draws draws) {
    for (std::size_t i = 0; i + 1 < draws.size(); i += 2) std::swap(draws[i], draws[i + 1]);
    return draws;
}

double chance_beyond(double threshold, const Draws& from, const Draws& to) {
    require_pairs(from, to);
    std::size_t beyond = 0;
    for (std::size_t i = 0; i < from.size(); ++i) beyond += color::delta_e_00(from[i], to[i]) > threshold;
    return static_cast<double>(beyond) / static_cast<double>(from.size());
}

}  // namespace foretone::appearance
