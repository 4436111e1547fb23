// The two solvers over all woods and a fixed set of finishes.

#include <algorithm>
#include <mutex>
#include <set>

#include "foretone/appearance/stages.hpp"
#include "foretone/base/parallel.hpp"
#include "required.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/job/verdict.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::job {
namespace {
using schedule::Amount;
using schedule::Finish;
using schedule::Step;

Step plain(const std::string& id, int coats) {
    Step s;
    s.mix = {{id, Amount::parts, 1}};
    s.coats = coats;
    return s;
}

Step dye(const std::string& id, double parts_of_water) {
    Step s;
    s.mix = {{id, Amount::parts, 1}, {"water", Amount::parts, parts_of_water}};
    s.wet_g_per_m2 = 70;
    return s;
}

struct Choice {
    std::string name;
    std::vector<Step> steps;
};

// A board ready to be read: what the last coat left.
appearance::Board finished(const material::Materials& materials, const material::Wood& wood, const Finish& finish) {
    appearance::Board board;
    for (const auto& step : finish.steps) {
        const auto deposit = schedule::deposit(step, materials);
        for (int coat = 0; coat < step.coats; ++coat) board = appearance::after_drying(board, deposit, wood);
    }
    return board;
}

// A library of one's own need not hold what is judged: all that it lacks is told at once.
std::set<std::string> named_by(const std::vector<Finish>& finishes) {
    std::set<std::string> named;
    for (const auto& finish : finishes)
        for (const auto& step : finish.steps)
            for (const auto& part : step.mix) named.insert(part.use);
    return named;
}

class SolverPair {
public:
    SolverPair(const scene::Library& library, int streams)
        : weights_(color::make_weights(library.illuminant("D65"), library.observer("2deg"))),
          fast_(appearance::two_flux_solver()),
          exact_(appearance::angular_solver(streams)) {}

    double difference(const appearance::Board& board, const material::Wood& wood) const {
        return color::delta_e_00(lab(board, wood, fast_), lab(board, wood, exact_));
    }

private:
    color::Lab lab(const appearance::Board& board, const material::Wood& wood, const appearance::Solver& solver) const {
        const auto total = appearance::render(board, wood, optics::Geometry::g45_0, solver).total();
        return color::to_lab(color::xyz(total, weights_), weights_.white);
    }
    color::Weights weights_;
    appearance::Solver fast_, exact_;
};

}  // namespace

std::vector<Finish> compared_finishes() {
    const Choice colors[] = {{"no color", {}},
                             {"honey 1:19", {dye("honey-dye", 19)}},
                             {"honey 1:4", {dye("honey-dye", 4)}},
                             {"russet 1:9", {dye("russet-dye", 9)}},
                             {"umber 1:19", {dye("umber-dye", 19)}},
                             {"umber 1:4", {dye("umber-dye", 4)}},
                             {"raven 1:39", {dye("raven-dye", 39)}},
                             {"raven 1:4", {dye("raven-dye", 4)}}};
    const Choice seals[] = {{"unsealed", {}},
                            {"super-blonde x1", {plain("super-blonde-shellac", 1)}},
                            {"orange x2", {plain("orange-shellac", 2)}},
                            {"garnet x3", {plain("garnet-shellac", 3)}},
                            {"linseed x1", {plain("boiled-linseed", 1)}}};
    const Choice tops[] = {{"waterborne acrylic x2", {plain("waterborne-acrylic", 2)}},
                           {"waterborne polyurethane x3", {plain("waterborne-polyurethane", 3)}},
                           {"oil varnish x3", {plain("oil-varnish", 3)}},
                           {"lacquer x3", {plain("nitrocellulose-lacquer", 3)}},
                           {"wax x1", {plain("paste-wax", 1)}}};
    std::vector<Finish> out;
    for (const auto& color : colors)
        for (const auto& seal : seals)
            for (const auto& top : tops) {
                Finish f{color.name + ", " + seal.name + ", " + top.name, {}};
                for (const auto* c : {&color, &seal, &top})
                    f.steps.insert(f.steps.end(), c->steps.begin(), c->steps.end());
                out.push_back(std::move(f));
            }
    return out;
}

void require_compared(const scene::Library& library) {
    require_materials(library, named_by(compared_finishes()), "the verdict");
}

Agreement compare_solvers(const scene::Library& library, int streams, std::size_t stride, unsigned threads,
                          const std::function<void(double)>& progress) {
    const auto woods = library.ids(material::Kind::wood);
    const auto finishes = compared_finishes();
    require_compared(library);
    if (woods.empty())
        throw scene::InputError("material-unknown", {"library"}, "there is no wood, which the verdict is about");
    const material::Materials materials = library.materials();
    const SolverPair solvers(library, streams);

    std::vector<std::size_t> boards;
    for (std::size_t i = 0; i < woods.size() * finishes.size(); i += stride) boards.push_back(i);
    const auto wood_of = [&](std::size_t board) -> const material::Wood& {
        return std::get<material::Wood>(materials.at(woods[board / finishes.size()]).data);
    };
    const auto finish_of = [&](std::size_t board) -> const Finish& { return finishes[board % finishes.size()]; };

    std::mutex telling;
    std::size_t done = 0;
    auto found = base::parallel_map(boards.size(), threads, [&](std::size_t i) {
        const auto& wood = wood_of(boards[i]);
        const double off = solvers.difference(finished(materials, wood, finish_of(boards[i])), wood);
        if (progress) {
            const std::lock_guard one_at_a_time(telling);
            progress(static_cast<double>(++done) / static_cast<double>(boards.size()));
        }
        return off;
    });

    Agreement out{woods.size(), finishes.size(), 0, 0, 0, "", 0, 0};
    const auto worst = static_cast<std::size_t>(std::max_element(found.begin(), found.end()) - found.begin());
    out.worst = found[worst];
    const auto& wood = wood_of(boards[worst]);
    const auto& finish = finish_of(boards[worst]);
    out.worst_board = woods[boards[worst] / finishes.size()] + ", " + finish.name;
    auto clear = finished(materials, wood, finish);
    for (auto& coat : clear.coats) coat.haze_per_mm = {};
    out.worst_without_haze = solvers.difference(clear, wood);
    Finish undyed = finish;
    if (undyed.steps.front().mix.size() > 1) undyed.steps.erase(undyed.steps.begin());
    out.worst_without_dye = solvers.difference(finished(materials, wood, undyed), wood);
    std::sort(found.begin(), found.end());
    out.median = found[found.size() / 2];
    out.p95 = found[found.size() * 95 / 100];
    return out;
}

}  // namespace foretone::job
