#include "foretone/job/match.hpp"

#include "foretone/appearance/ageing.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <mutex>
#include <numeric>
#include <set>
#include <tuple>

#include "target_chances.hpp"
#include "target_times.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/parallel.hpp"
#include "foretone/appearance/uneven.hpp"
#include "foretone/color/words.hpp"
#include "foretone/search/edge.hpp"
#include "foretone/search/words.hpp"

namespace foretone::job {
namespace {

// Every option by itself, so that one which cannot be mixed is told at its table.
void check_options(const scene::Scene& scene, const search::Space& space) {
    const auto& table = *scene.search;
    const auto attempt = [&](const schedule::Step& step, const scene::Place& place) {
        try {
            schedule::deposit(step, scene.materials);
        } catch (const schedule::Fault& fault) {
            throw scene::InputError(fault.id, place, search::mixing_line({"", {step}}) + ": " + fault.what());
        }
    };
    for (const search::Room r : search::put_on)
        for (const auto& option : space.options[r]) attempt(option.step, table.rooms[r]);
    for (const auto& mix : space.mixes)
        if (mix) attempt(search::dye_step(space, *mix), table.dye);
}

// Ways that the order rules say cannot hold together are not searched: the reason of the first is told.
std::string leave_out_failing(search::Space& space, const scene::Scene& scene) {
    const auto findings_of = [&](std::size_t way) {
        return schedule::check_order(search::recipe(space, way * space.mixes.size()), scene.materials,
                                     &scene.wood_data());
    };
    std::vector<search::Way> holding;
    std::string first;
    for (std::size_t w = 0; w < space.ways.size(); ++w) {
        const auto findings = findings_of(w);
        if (!schedule::fails(findings)) {
            holding.push_back(space.ways[w]);
            continue;
        }
        if (!first.empty()) continue;
        const auto failure = std::find_if(findings.begin(), findings.end(),
                                          [](const auto& f) { return f.severity == schedule::Severity::failure; });
        first = search::mixing_line(search::recipe(space, w * space.mixes.size())) + " (" + failure->what + ")";
    }
    const std::size_t failing = space.ways.size() - holding.size();
    if (failing == 0) return "";
    if (holding.empty())
        throw scene::InputError("search-all-fail", scene.search->place,
                                "no order of these materials holds together: " + first);
    space.ways = std::move(holding);
    return std::to_string(failing) + " of " + std::to_string(failing + space.ways.size()) +
           " ways of coating were left out because they would fail, such as " + first;
}

search::Space space_of(const scene::Scene& scene, std::string& left_out) {
    if (!scene.search)
        throw scene::InputError("search-missing", {scene.file, 1, 1},
                                "there is no [search]: say what may be used, such as [search.dye], [search.sealer] and "
                                "[search.topcoat]; which of "
                                "the scene's own finishes is nearest to the target, 'foretone preview' says");
    try {
        auto space = search::make_space(scene.search->choices, scene.materials);
        check_options(scene, space);
        left_out = leave_out_failing(space, scene);
        return space;
    } catch (const std::invalid_argument& e) {
        throw scene::InputError("search-space", scene.search->place, e.what());
    }
}

double largest(const std::vector<double>& v) { return *std::max_element(v.begin(), v.end()); }

// Places 1, 2, … by closeness.
std::vector<std::size_t> places_by(const std::vector<double>& de00) {
    std::vector<std::size_t> order(de00.size()), place(de00.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return de00[a] < de00[b]; });
    for (std::size_t i = 0; i < order.size(); ++i) place[order[i]] = i + 1;
    return place;
}

std::set<std::string> ids_in(const schedule::Finish& finish) {
    std::set<std::string> out;
    for (const auto& step : finish.steps)
        for (const auto& part : step.mix) out.insert(part.use);
    return out;
}

std::string not_examined(const search::Space& space, std::size_t from) {
    if (from >= space.ways.size()) return "";
    const auto left = space.recipes(from, space.ways.size());
    const auto percent = 100.0 * static_cast<double>(left) / static_cast<double>(space.size());
    const auto& way = space.ways[from];
    return std::to_string(left) + " recipes (" + base::shortest(std::round(percent * 10) / 10) +
           " %) were not examined: those with " + std::to_string(way.steps) + (way.steps == 1 ? " step" : " steps") +
           " after the dye and " + std::to_string(way.coats) + " coats or more, from \"" +
           search::mixing_line(search::recipe(space, from * space.mixes.size())) + "\" on";
}

}  // namespace

Search::Search(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver)
    : scene_(scene),
      library_(library),
      solver_(solver),
      target_(view_target(scene, library, solver)),
      space_(space_of(scene, left_out_)) {
    const auto times = recipe_times(scene_);
    if (!times.empty())
        aged_ = appearance::aged_alike(scene_.materials, scene_.wood, search::recipe(space_, space_.size() - 1), times);
    engine_ = std::make_unique<search::Engine>(
        space_, search::Setting{times.empty() ? scene_.materials : aged_, scene_.wood, scene_.look.geometry, solver_},
        target_.aim, search::EngineOptions{16, scene_.search->most_uneven});
}

// What a recipe is worked out in, as old as it is judged at.
search::Setting Search::setting(const appearance::Solver& solver) const {
    return {scene_.materials, scene_.wood, scene_.look.geometry, solver, recipe_times(scene_)};
}

Candidate Search::candidate(const search::Found& found) const {
    Candidate out;
    out.number = found.number;
    out.finish = search::recipe(space_, found.number);
    out.line = search::mixing_line(out.finish);
    out.effort = search::effort(space_, found.number);
    out.findings = schedule::check_order(out.finish, scene_.materials, &scene_.wood_data());
    const auto reflectance = search::finished(setting(solver_), out.finish);
    std::vector<schedule::Finish> pair = {out.finish};
    const auto* target = target_finish(scene_);
    auto knowledge = scene_.knowledge();
    knowledge.past = {recipe_times(scene_)};
    if (target) {
        pair.push_back(*target);
        knowledge.past.push_back(target_times(scene_));
    }
    auto spreads = appearance::spreads({scene_.materials,
                                        scene_.wood,
                                        pair,
                                        scene_.look.geometry,
                                        solver_,
                                        target_.weights,
                                        appearance::StagesAsked::last,
                                        knowledge,
                                        {},
                                        {},
                                        false});
    const auto aimed = aimed_at(target_, target ? &spreads.back() : nullptr, spreads.front().finished.front().size());
    out.rests_on = std::move(spreads.front());
    const auto chances = target_chances(aimed, out.rests_on, *scene_.target);
    out.chance = chances.seen;
    out.chance_other_board = chances.seen_other_board;
    out.chance_within = chances.within;
    for (std::size_t l = 0; l < target_.lights.size(); ++l) {
        out.colors.push_back(see(reflectance, target_.lights[l], target_.weights[l]));
        auto& c = out.colors.back();
        c.spread_de00 = out.rests_on.de00(0, l);
        c.region = out.rests_on.regions.back()[l];
        const auto& aim = target_.aim.lights[l].lab;
        out.de00.push_back(color::delta_e_00(aim, c.lab));
        out.words.push_back(color::describe(aim, c.lab));
        out.spread = std::max(out.spread, c.spread_de00);
        if (target_.reflectance)
            out.special_index.push_back(l == 0
                                            ? 0
                                            : color::special_metamerism_index(*target_.reflectance, reflectance,
                                                                              target_.weights[0], target_.weights[l]));
    }
    const auto& wood = std::get<material::Wood>(scene_.materials.at(scene_.wood).data);
    out.uneven_de00 = appearance::uneven_de00(
        appearance::tenths(
            search::finished_board({scene_.materials, scene_.wood, scene_.look.geometry, solver_}, out.finish), wood,
            scene_.look.geometry, solver_),
        target_.weights.front());
    out.worst = largest(out.de00);
    return out;
}

void Search::solve_again(std::vector<search::Found>& found, std::vector<double>& solved_again,
                         const ForEach& for_each) const {
    const auto solver = appearance::angular_solver(streams);
    const search::Aim aim = scene_.target->finish.empty() ? target_.aim : view_target(scene_, library_, solver).aim;
    const auto set = setting(solver);
    solved_again.assign(found.size(), 0);
    for_each(found.size(), [&](std::size_t i) {
        solved_again[i] = search::worst_difference(aim, search::finished(set, search::recipe(space_, found[i].number)));
    });
}

Search::Examined Search::examine(unsigned threads, const std::function<bool()>& go_on,
                                 const std::function<void(double)>& progress, std::size_t first,
                                 std::size_t stride) const {
    const std::size_t ways = space_.ways.size(), count = first < ways ? (ways - first - 1) / stride + 1 : 0,
                      often = std::max<std::size_t>(1, count / 200);
    std::atomic<std::size_t> next{0}, done{0};
    std::mutex one_at_a_time;
    Examined out;
    base::parallel_for(threads, threads, [&](std::size_t) {
        search::Best own(keep);
        while (go_on()) {
            const std::size_t n_th = next++;
            if (n_th >= count) break;
            engine_->examine(first + n_th * stride, own);
            const std::size_t n = ++done;
            if (n % often != 0) continue;
            const std::lock_guard lock(one_at_a_time);
            progress(static_cast<double>(n) / static_cast<double>(count));
        }
        const std::lock_guard lock(one_at_a_time);
        out.best.merge(own);
    });
    out.ways = done;
    return out;
}

// What goes on to the angular solver. A dye can still be what a coat above does not hold on: such a recipe is never
// shown.
Search::Picked Search::pick(const search::Best& best) const {
    if (best.closest(1).empty() && scene_.search->most_uneven)
        throw scene::InputError("search-too-uneven", scene_.search->place,
                                "no recipe is as even as most_uneven = " + base::shortest(*scene_.search->most_uneven) +
                                    " asks: allow a weaker dye, none at all, or more unevenness");
    const auto holding = [&](std::vector<search::Found> list) {
        std::erase_if(list, [&](const auto& f) {
            return schedule::fails(
                schedule::check_order(search::recipe(space_, f.number), scene_.materials, &scene_.wood_data()));
        });
        return list;
    };
    Picked out{holding(best.closest(keep)), 0, holding(best.front())};
    out.ranked = out.found.size();
    for (const auto& f : out.front)
        if (std::find(out.found.begin(), out.found.end(), f) == out.found.end()) out.found.push_back(f);
    return out;
}

// Shown: the front, the angular solver's first, and then the closest of other materials until there are enough.
std::vector<std::size_t> Search::shown_of(const Picked& picked, const std::vector<std::size_t>& angular_places) const {
    std::vector<std::size_t> out;
    const auto show = [&](std::size_t i) {
        if (std::find(out.begin(), out.end(), i) == out.end()) out.push_back(i);
    };
    for (const auto& f : picked.front)
        show(static_cast<std::size_t>(std::find(picked.found.begin(), picked.found.end(), f) - picked.found.begin()));
    show(
        static_cast<std::size_t>(std::find(angular_places.begin(), angular_places.end(), 1U) - angular_places.begin()));
    // Two recipes of the same materials are one idea: the closer one stands for it.
    std::set<std::set<std::string>> ideas;
    const auto idea = [&](std::size_t i) { return ids_in(search::recipe(space_, picked.found[i].number)); };
    for (const std::size_t i : out) ideas.insert(idea(i));
    for (std::size_t i = 0; i < picked.ranked && out.size() < shown; ++i)
        if (ideas.insert(idea(i)).second) show(i);
    return out;
}

// Why even the closest is far off, in words; empty if it is not.
std::string Search::unreachable(const std::vector<Candidate>& candidates) const {
    const auto nearest = std::min_element(candidates.begin(), candidates.end(),
                                          [](const auto& a, const auto& b) { return a.worst < b.worst; });
    if (!(nearest->worst > unreachable_de00)) return "";
    const auto worst =
        static_cast<std::size_t>(std::max_element(nearest->de00.begin(), nearest->de00.end()) - nearest->de00.begin());
    const auto bare = see(search::finished(setting(solver_), {}), target_.lights[worst], target_.weights[worst]);
    return search::out_of_reach(target_.aim.lights[worst].lab, nearest->colors[worst].lab, bare.lab) + " (" +
           target_.lights[worst] + ", dE00 " + base::shortest(std::round(nearest->worst * 10) / 10) + ")";
}

Match Search::conclude(const search::Best& best, std::size_t examined_ways, const ForEach& for_each) const {
    Match out;
    out.target = target_;
    out.recipes = space_.size();
    out.examined = space_.recipes(0, examined_ways);
    out.not_examined = not_examined(space_, examined_ways);
    out.streams = streams;
    out.left_out = left_out_;
    out.warnings = scene_.warnings;
    for (auto& w : target_warnings(scene_)) out.warnings.push_back(std::move(w));

    auto picked = pick(best);
    auto& found = picked.found;
    if (found.empty()) return out;
    std::vector<double> solved_again;
    solve_again(found, solved_again, for_each);
    out.solved_again = found.size();
    const auto angular_places = places_by(solved_again);
    const auto shown_index = shown_of(picked, angular_places);
    out.candidates.resize(shown_index.size());
    for_each(shown_index.size(), [&](std::size_t k) {
        const std::size_t i = shown_index[k];
        Candidate c = candidate(found[i]);
        c.place = i < picked.ranked ? i + 1 : 0;
        c.angular_worst = solved_again[i];
        c.angular_place = angular_places[i];
        c.best_of_kind = std::find(picked.front.begin(), picked.front.end(), found[i]) != picked.front.end();
        out.candidates[k] = std::move(c);
    });
    // By risk where the target says what will do, else by closeness.
    const auto rank = [](const Candidate& c) {
        const double risk = c.chance_within ? std::floor((1 - *c.chance_within) / same_risk) : 0;
        return std::tuple(risk, std::floor(c.worst / as_good), c.spread, c.effort.steps, c.effort.colorants, c.number);
    };
    std::sort(out.candidates.begin(), out.candidates.end(),
              [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
    if (out.candidates.front().worst > as_good)
        out.edges = search::on_the_edge(scene_.search->choices, space_, out.candidates.front().number);
    out.unreachable = unreachable(out.candidates);
    return out;
}

}  // namespace foretone::job
