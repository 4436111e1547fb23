// Worlds drawn. Symbols: u turned coordinates, standard normal · z = V u coordinates of a world.
//
// Each world sets all coordinates at once, so products of effects (a stronger dye under a thinner coat) and bent
// responses are in the result, which moving one figure at a time leaves out. What moves colors most gets the lattice's
// first dimensions, where it is most even: a few hundred worlds do what thousands would.

#include "worlds.hpp"

#include <algorithm>

namespace foretone::appearance {

Plan::Plan(const UncertainFigures& figures, const Eigen::MatrixXd& slopes)
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

World Plan::world(const ShiftedLattice& lattice, std::size_t point, std::size_t board, unsigned again) const {
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

std::uint64_t seed_of(const UncertainFigures& figures) {
    std::uint64_t seed = 0;
    for (const auto& c : figures.coordinates())
        for (const char ch : c.name) seed = mixed(seed, static_cast<unsigned char>(ch));
    return seed;
}

Set draw_set(const SpreadQuestion& q, const Plan& plan, std::uint64_t seed) {
    constexpr unsigned most_shifts = 64;
    UncertainFigures figures(q.materials, q.wood, q.finishes, q.lights.front(), q.knowledge);
    Eye eye(q, figures);
    const ShiftedLattice lattice(plan.dimensions(), seed);
    Set out;
    for (std::size_t point = 0; point < lattice_points; ++point)
        for (unsigned again = 0; again < most_shifts; ++again) {
            try {
                Seen one;
                for (std::size_t b = 0; b < boards_of_a_world; ++b) one.world[b] = plan.world(lattice, point, b, again);
                figures.set(one.world[0]);
                one.first = eye.look(q.stages);
                figures.set(one.world[1]);
                for (auto& finish : eye.look(StagesAsked::last)) one.on_another.push_back(std::move(finish.back()));
                out.seen.push_back(std::move(one));
                break;
            } catch (const schedule::Fault&) {
                ++out.redrawn;
            }
        }
    return out;
}

}  // namespace foretone::appearance
