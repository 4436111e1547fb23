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
// Control variate: of the colors' linear part c₀ + J z the quantile q* is known, for it is normal; the worlds drawn
// give it as q₀. What they give of the colors themselves, q, is off much alike: q q*/q₀ is told. Without J's help three
// times the worlds would be needed.
//
// Materials' and boards' parts: with c and c′ two boards of one world, ½ E|c − c′|² is the variance that is left when
// the materials are known, averaged over what they may be; the rest of the whole is the materials'.

#include "foretone/appearance/spread.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
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
        for (std::size_t f = 0; f < q_.finishes.size(); ++f)
            out.push_back(look_at(f, only_finished || !q_.every_stage));
        return out;
    }
    /// All; nothing if a schedule is impossible.
    std::optional<std::vector<Colors>> try_all() {
        try {
            return look(false);
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

// Moves of all colors by each coordinate alone: +1 sd, or −1 (turned round).
struct Slopes {
    std::vector<std::vector<std::vector<Eigen::MatrixXd>>> lab;  // [finish][stage][light], 3 × coordinates
    std::vector<std::vector<double>> de00;                       // [finish][coordinate], finished, first light

    /// Three rows a finish: the finished colors under the first light.
    Eigen::MatrixXd finished() const {
        const auto& any = lab.front().back().front();
        Eigen::MatrixXd out(static_cast<Eigen::Index>(3 * lab.size()), any.cols());
        for (std::size_t f = 0; f < lab.size(); ++f)
            out.middleRows(static_cast<Eigen::Index>(3 * f), 3) = lab[f].back().front();
        return out;
    }
};

Slopes one_at_a_time(UncertainFigures& figures, Eye& eye) {
    const std::size_t count = figures.coordinates().size();
    World world(count, 0.0);
    figures.set(world);
    const auto base = eye.look(false);
    Slopes out;
    for (const auto& finish : base) {
        out.lab.emplace_back();
        out.de00.emplace_back(count, 0.0);
        for (const auto& stage : finish)
            out.lab.back().emplace_back(stage.size(), Eigen::MatrixXd::Zero(3, static_cast<Eigen::Index>(count)));
    }
    for (std::size_t c = 0; c < count; ++c) {
        for (const double sigmas : {1.0, -1.0}) {
            world[c] = sigmas;
            figures.set(world);
            const auto moved = eye.try_all();
            if (!moved) continue;
            for (std::size_t f = 0; f < base.size(); ++f) {
                for (std::size_t s = 0; s < base[f].size(); ++s)
                    for (std::size_t l = 0; l < base[f][s].size(); ++l) {
                        const Lab &p = base[f][s][l], &q = (*moved)[f][s][l];
                        out.lab[f][s][l].col(static_cast<Eigen::Index>(c)) =
                            sigmas * Eigen::Vector3d(q.l - p.l, q.a - p.a, q.b - p.b);
                    }
                out.de00[f][c] = color::delta_e_00(base[f].back().front(), (*moved)[f].back().front());
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

constexpr double least_effect = 1e-5;  // of the largest: below it a direction is one of rounding

// Orthonormal columns and, behind them, a basis of what they leave, taken from the axes in their order: unlike singular
// vectors of no effect, which are what rounding makes of them, it is the same on every machine.
Eigen::MatrixXd completed(const Eigen::MatrixXd& columns) {
    const auto n = columns.rows();
    Eigen::MatrixXd out = Eigen::MatrixXd::Zero(n, n);
    out.leftCols(columns.cols()) = columns;
    auto filled = columns.cols();
    for (double least = 0.1; filled < n; least /= 10)
        for (Eigen::Index axis = 0; axis < n && filled < n; ++axis) {
            Eigen::VectorXd rest = Eigen::VectorXd::Unit(n, axis);
            for (int twice = 0; twice < 2; ++twice)
                rest -= out.leftCols(filled) * (out.leftCols(filled).transpose() * rest);
            if (rest.norm() < least) continue;
            out.col(filled++) = rest.normalized();
        }
    return out;
}

Turned turned(const UncertainFigures& figures, const Eigen::MatrixXd& slopes, Origin origin) {
    Turned out;
    for (std::size_t c = 0; c < figures.coordinates().size(); ++c)
        if (figures.coordinates()[c].origin == origin) out.which.push_back(c);
    const auto n = static_cast<Eigen::Index>(out.which.size());
    Eigen::MatrixXd part(slopes.rows(), n);
    for (Eigen::Index i = 0; i < n; ++i)
        part.col(i) = slopes.col(static_cast<Eigen::Index>(out.which[static_cast<std::size_t>(i)]));
    if (n == 0) return out;
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(part, Eigen::ComputeThinV);
    out.size.assign(out.which.size(), 0.0);
    Eigen::Index rank = 0;
    while (rank < svd.singularValues().size() && svd.singularValues()(rank) > least_effect * svd.singularValues()(0)) {
        out.size[static_cast<std::size_t>(rank)] = svd.singularValues()(rank);
        ++rank;
    }
    out.turn = completed(svd.matrixV().leftCols(rank));
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
    Plan(const UncertainFigures& figures, const Eigen::MatrixXd& slopes)
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

// A world as it was drawn, and what was seen of it.
struct Seen {
    std::array<World, boards_of_a_world> world;
    std::vector<Colors> first;                 // [finish][stage][light], of the first board
    std::vector<std::vector<Lab>> on_another;  // [finish][light], finished, of the other one
};

// One set of worlds. An impossible schedule is drawn again from the same point of other shifts; a point that fails
// every time is left out.
struct Set {
    std::vector<Seen> seen;
    std::size_t redrawn = 0;
};

Set draw_set(const SpreadQuestion& q, const Plan& plan, std::uint64_t seed) {
    constexpr unsigned most_shifts = 64;
    UncertainFigures figures(q.shelf, q.wood, q.finishes, q.lights.front(), q.knowledge);
    Eye eye(q, figures);
    const ShiftedLattice lattice(plan.dimensions(), seed);
    Set out;
    for (std::size_t point = 0; point < lattice_points; ++point)
        for (unsigned again = 0; again < most_shifts; ++again) {
            try {
                Seen one;
                for (std::size_t b = 0; b < boards_of_a_world; ++b) one.world[b] = plan.world(lattice, point, b, again);
                figures.set(one.world[0]);
                one.first = eye.look(false);
                figures.set(one.world[1]);
                for (auto& finish : eye.look(true)) one.on_another.push_back(std::move(finish.back()));
                out.seen.push_back(std::move(one));
                break;
            } catch (const schedule::Fault&) {
                ++out.redrawn;
            }
        }
    return out;
}

// ΔE00 near a color as a quadratic form: its values along the axes and the diagonals between them.
Eigen::Matrix3d metric(const Lab& at) {
    const auto square = [&](const Eigen::Vector3d& v) {
        const double de = color::delta_e_00(at, {at.l + v(0), at.a + v(1), at.b + v(2)});
        return de * de;
    };
    Eigen::Matrix3d g;
    for (int i = 0; i < 3; ++i) g(i, i) = square(Eigen::Vector3d::Unit(i));
    for (int i = 0; i < 3; ++i)
        for (int j = 0; j < i; ++j) {
            const Eigen::Vector3d p = Eigen::Vector3d::Unit(i), q = Eigen::Vector3d::Unit(j);
            g(i, j) = g(j, i) = (square(p + q) - square(p - q)) / 4;
        }
    return g;
}

// The quantile of √(Σ λ_k n_k²), n normal: of 4,096 evenly spread points (the additive recurrence of the plastic
// number's kin for three dimensions).
double normal_radius(const Eigen::Vector3d& lambda) {
    static const auto squares = [] {
        std::vector<Eigen::Vector3d> out;
        constexpr double g = 1.2207440846057596;  // g⁴ = g + 1
        for (int i = 1; i <= 4096; ++i) {
            Eigen::Vector3d n;
            for (int k = 0; k < 3; ++k) {
                double u = 0.5 + i * std::pow(g, -1 - k);
                u = std::clamp(u - std::floor(u), 1e-6, 1 - 1e-6);
                const double z = normal_quantile(u);
                n(k) = z * z;
            }
            out.push_back(n);
        }
        return out;
    }();
    std::vector<double> sums;
    for (const auto& n : squares) sums.push_back(n.dot(lambda));
    return std::sqrt(quantile(std::move(sums), region_share));
}

// The colors of one stage under one light with what is needed to judge them.
struct Sample {
    std::vector<Draws> sets;
    std::vector<std::vector<const World*>> worlds;  // of the same

    Draws all() const {
        Draws out;
        for (const auto& set : sets) out.insert(out.end(), set.begin(), set.end());
        return out;
    }
};

// Of the first boards, or of both boards of each world in turn.
Sample sampled(const std::vector<Set>& sets, std::size_t finish, std::size_t stage, std::size_t light, bool both) {
    Sample out;
    for (const auto& set : sets) {
        out.sets.emplace_back();
        out.worlds.emplace_back();
        for (const auto& one : set.seen) {
            out.sets.back().push_back(one.first[finish][stage][light]);
            out.worlds.back().push_back(&one.world[0]);
            if (!both) continue;
            out.sets.back().push_back(one.on_another[finish][light]);
            out.worlds.back().push_back(&one.world[1]);
        }
    }
    return out;
}

// Quantiles of what was seen, each over the same of the linear part: the mean of those around the 90 % one, so that one
// draw more or less on one side does not decide.
double quantile_ratio(std::vector<double> seen, std::vector<double> linear) {
    constexpr std::array<double, 5> shares = {region_share - 0.05, region_share - 0.025, region_share,
                                              region_share + 0.025, region_share + 0.05};
    double sum = 0;
    for (const double share : shares) {
        const double q0 = quantile(linear, share);
        if (!(q0 > 0)) return 0;
        sum += quantile(seen, share) / q0;
    }
    return sum / static_cast<double>(shares.size());
}

// Quantile and standard error by the control variate; boards' share of the variance, to first order.
void judge(Region& region, const Sample& sample, const Eigen::MatrixXd& slopes,
           const std::vector<Coordinate>& coordinates) {
    if (!(region.de00_90 > 0)) return;
    const Eigen::Matrix3d g = metric(region.mean);
    const Eigen::LLT<Eigen::Matrix3d> llt(g + 1e-9 * g.trace() * Eigen::Matrix3d::Identity());
    const Eigen::MatrixXd j = llt.matrixU() * slopes;  // |j z| is ΔE00 of the linear part
    double boards = 0;
    for (std::size_t c = 0; c < coordinates.size(); ++c)
        if (coordinates[c].origin == Origin::boards) boards += j.col(static_cast<Eigen::Index>(c)).squaredNorm();
    const double whole = j.squaredNorm();
    region.boards_de00 = whole > 0 ? region.rms_de00 * std::sqrt(boards / whole) : 0;
    const Eigen::Matrix3d spread = j * j.transpose();
    const double known = normal_radius(
        Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(spread, Eigen::EigenvaluesOnly).eigenvalues().cwiseMax(0.0));
    std::vector<double> ratio, of, linear, all, all_linear;
    for (std::size_t set = 0; set < sample.sets.size(); ++set) {
        of.clear(), linear.clear();
        for (std::size_t i = 0; i < sample.sets[set].size(); ++i) {
            of.push_back(color::delta_e_00(sample.sets[set][i], region.mean));
            const auto& world = *sample.worlds[set][i];
            linear.push_back(
                (j * Eigen::Map<const Eigen::VectorXd>(world.data(), static_cast<Eigen::Index>(world.size()))).norm());
        }
        all.insert(all.end(), of.begin(), of.end());
        all_linear.insert(all_linear.end(), linear.begin(), linear.end());
        if (of.empty()) continue;
        ratio.push_back(quantile_ratio(of, linear));
    }
    const double q = quantile_ratio(std::move(all), std::move(all_linear));
    if (!(q > 0) || !(known > 0)) return;
    region.de00_90 = q * known;
    double squares = 0;
    for (const double r : ratio) squares += (r / q - 1) * (r / q - 1);
    const auto n = static_cast<double>(ratio.size());
    region.de00_90_error = n > 1 ? std::sqrt(squares / (n - 1) / n) : 0;
}

Region region_of(const Sample& sample, const Eigen::MatrixXd& slopes, const std::vector<Coordinate>& coordinates) {
    Region out = region(sample.all());
    judge(out, sample, slopes, coordinates);
    out.materials_de00 = std::sqrt(std::max(0.0, out.rms_de00 * out.rms_de00 - out.boards_de00 * out.boards_de00));
    return out;
}

// What boards do, from pairs of boards of one world.
void part(Region& region, const Draws& draws) {
    double squares = 0;
    for (std::size_t i = 0; i + 1 < draws.size(); i += 2) {
        const double de = color::delta_e_00(draws[i], draws[i + 1]);
        squares += de * de;
    }
    region.boards_de00 = std::min(region.rms_de00, std::sqrt(squares / static_cast<double>(draws.size())));
    region.materials_de00 = std::sqrt(region.rms_de00 * region.rms_de00 - region.boards_de00 * region.boards_de00);
}

// If the materials were known: the mean and, about it, what two boards of a world differ by, over √2, to both sides.
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
    if (q.finishes.empty()) return {};
    UncertainFigures figures(q.shelf, q.wood, q.finishes, q.lights.front(), q.knowledge);
    Eye eye(q, figures);
    const auto slopes = one_at_a_time(figures, eye);
    const Plan plan(figures, slopes.finished());
    const std::uint64_t seed = seed_of(figures);
    std::vector<Set> sets(draw_sets);
    const auto draw = [&](std::size_t set) { sets[set] = draw_set(q, plan, mixed(seed, set)); };
    if (q.for_each)
        q.for_each(draw_sets, draw);
    else
        for (std::size_t set = 0; set < draw_sets; ++set) draw(set);

    std::vector<Spread> out(q.finishes.size());
    for (std::size_t f = 0; f < out.size(); ++f) {
        for (const auto& set : sets) out[f].redrawn += set.redrawn;
        out[f].contributions = contributions(figures, slopes.de00[f], f);
        weakest_marks(figures.shelf(), figures.used(f), out[f]);
        const std::size_t stages = slopes.lab[f].size();
        for (std::size_t s = 0; s < stages; ++s) {
            out[f].regions.emplace_back();
            for (std::size_t l = 0; l < q.lights.size(); ++l) {
                const Sample sample = sampled(sets, f, s, l, s + 1 == stages);
                out[f].regions.back().push_back(region_of(sample, slopes.lab[f][s][l], figures.coordinates()));
                if (s + 1 == stages) {
                    out[f].finished.push_back(sample.all());
                    part(out[f].regions.back().back(), out[f].finished.back());
                }
                if (l == 0)
                    out[f].stages.push_back(s + 1 == stages ? sampled(sets, f, s, l, false).all() : sample.all());
            }
        }
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
