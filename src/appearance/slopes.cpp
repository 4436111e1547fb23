// Moves of colors by one coordinate at a time. Symbols: z coordinates of a world, standard normal · c(z) a color as
// Lab · e_k the unit vector of coordinate k.
//   J_k = c(e_k) − c(0), or c(0) − c(−e_k) where +1 sd cannot be laid
//
// A whole standard deviation, not a small step: a move says what a figure matters as far as it may really be off, and
// as a slope it is the secant over the range that counts.

#include "slopes.hpp"

#include <algorithm>

#include "foretone/appearance/ageing.hpp"
#include "moments.hpp"

namespace foretone::appearance {
using color::Lab;

Eye::Eye(const SpreadQuestion& question, const UncertainFigures& figures)
    : q_(question), figures_(figures), solver_(every_fourth(question.solver)), trail_(question.finishes, figures) {
    for (const auto& light : q_.lights) lights_.emplace_back(light, solver_.every);
}

// Another world was set.
void Eye::start() {
    trail_.start(figures_.departure(0).law);
    dry_ = dry_wood(figures_.wood(), solver_.every);
}

std::vector<Colors> Eye::look(StagesAsked stages) {
    std::vector<Colors> out;
    start();
    for (std::size_t f = 0; f < q_.finishes.size(); ++f) out.push_back(look_at(f, stages));
    return out;
}

std::optional<std::vector<Colors>> Eye::try_moved(std::size_t coordinate) {
    std::vector<Colors> out(q_.finishes.size());
    start();
    try {
        for (std::size_t f = 0; f < out.size(); ++f)
            if (figures_.moves(coordinate, f)) out[f] = look_at(f, q_.stages);
    } catch (const schedule::Fault&) {
        return std::nullopt;
    }
    return out;
}

Colors Eye::look_at(std::size_t f, StagesAsked stages) {
    if (q_.knowledge.ages()) return look_aged(f);
    const auto& departure = figures_.departure(f);
    const auto once = [&](std::vector<Lab>& known, const auto& board) {
        if (known.empty()) known = colors_of(board(), figures_.wood(), dry_);
        return known;
    };
    const auto dry = [&](std::size_t at) {
        return once(trail_.colors(at), [&]() -> const Board& { return trail_.board(at); });
    };
    const bool all = stages == StagesAsked::all;
    Colors out;
    std::size_t at = Trail::bare;
    if (stages != StagesAsked::last) out.push_back(dry(at));
    for (std::size_t s = 0; s < departure.wet.size(); ++s)
        for (std::size_t c = 0; c < departure.wet[s].size(); ++c) {
            const std::size_t next = trail_.after(at, f, s, c > 0, departure.wet[s][c]);
            if (all && departure.soaks[s])
                out.push_back(once(trail_.damp_colors(next), [&]() -> const Board& { return trail_.damp(at, next); }));
            if (all) out.push_back(dry(next));
            at = next;
        }
    if (!all) out.push_back(dry(at));
    return out;
}

// After some time only the finished board is seen.
Colors Eye::look_aged(std::size_t f) {
    const auto& departure = figures_.departure(f);
    const AgedFinish old =
        aged(figures_.materials(), q_.wood, q_.finishes[f], departure, figures_.ageing(), q_.knowledge.times(f));
    Board board;
    visit_moments(old.materials, old.wood_data(), old.finish, departure, nullptr, [&](const Moment& m) {
        if (m.kind != StageKind::damp) board = m.board();
    });
    return {colors_of(board, old.wood_data(), dry_wood(old.wood_data(), solver_.every))};
}

std::vector<Lab> Eye::colors_of(const Board& board, const material::Wood& wood, const optics::Layer& dry) const {
    const auto total = total_at_nodes(dry, board, wood, q_.geometry, solver_);
    std::vector<Lab> out;
    for (std::size_t l = 0; l < lights_.size(); ++l)
        out.push_back(color::to_lab(lights_[l].xyz(total), q_.lights[l].white));
    return out;
}

Eigen::MatrixXd Slopes::finished() const {
    const auto& any = lab.front().back().front();
    Eigen::MatrixXd out(static_cast<Eigen::Index>(3 * lab.size()), any.cols());
    for (std::size_t f = 0; f < lab.size(); ++f)
        out.middleRows(static_cast<Eigen::Index>(3 * f), 3) = lab[f].back().front();
    return out;
}

namespace {

// What the colors of one coordinate's world are, each as `base` has it, moved by `sigmas`; nothing if that world's
// schedules cannot be laid.
bool move_one(UncertainFigures& figures, Eye& eye, const std::vector<Colors>& base, std::size_t c, double sigmas,
              Slopes& out) {
    World world(figures.coordinates().size(), 0.0);
    world[c] = sigmas;
    figures.set(world);
    const auto moved = eye.try_moved(c);
    if (!moved) return false;
    for (std::size_t f = 0; f < base.size(); ++f) {
        if ((*moved)[f].empty()) continue;  // it cannot change that finish
        for (std::size_t s = 0; s < base[f].size(); ++s)
            for (std::size_t l = 0; l < base[f][s].size(); ++l) {
                const Lab &p = base[f][s][l], &q = (*moved)[f][s][l];
                out.lab[f][s][l].col(static_cast<Eigen::Index>(c)) =
                    sigmas * Eigen::Vector3d(q.l - p.l, q.a - p.a, q.b - p.b);
            }
        out.de00[f][c] = color::delta_e_00(base[f].back().front(), (*moved)[f].back().front());
    }
    return true;
}

}  // namespace

void for_each(const SpreadQuestion& q, std::size_t count, const std::function<void(std::size_t)>& job) {
    if (q.for_each) return q.for_each(count, job);
    for (std::size_t i = 0; i < count; ++i) job(i);
}

Slopes one_at_a_time(const SpreadQuestion& q, std::size_t count) {
    struct Own {
        explicit Own(const SpreadQuestion& question)
            : figures(question.materials, question.wood, question.finishes, question.lights.front(),
                      question.knowledge),
              eye(question, figures) {}
        UncertainFigures figures;
        Eye eye;
    };
    const auto base = Own(q).eye.look(q.stages);
    Slopes out;
    for (const auto& finish : base) {
        out.lab.emplace_back();
        out.de00.emplace_back(count, 0.0);
        for (const auto& stage : finish)
            out.lab.back().emplace_back(stage.size(), Eigen::MatrixXd::Zero(3, static_cast<Eigen::Index>(count)));
    }
    constexpr std::size_t most_shares = 8;
    const std::size_t shares = q.for_each ? std::min(count, most_shares) : 1;
    for_each(q, shares, [&](std::size_t share) {
        Own own(q);
        for (std::size_t c = share; c < count; c += shares)
            if (!move_one(own.figures, own.eye, base, c, 1, out)) move_one(own.figures, own.eye, base, c, -1, out);
    });
    return out;
}

}  // namespace foretone::appearance
