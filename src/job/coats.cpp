#include "foretone/job/coats.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/color/words.hpp"
#include "foretone/search/finished.hpp"
#include "foretone/search/words.hpp"
#include "target_chances.hpp"
#include "target_times.hpp"
#include "asked.hpp"
#include "foretone/base/parallel.hpp"

namespace foretone::job {
namespace {

std::size_t asked_step(const scene::Scene& scene, std::size_t finish, int step) {
    const auto& steps = scene.finishes[finish].steps;
    if (step == 0) {
        std::size_t most = 0;
        for (std::size_t s = 1; s < steps.size(); ++s)
            if (steps[s].coats >= steps[most].coats) most = s;
        return most;
    }
    if (step < 1 || static_cast<std::size_t>(step) > steps.size())
        throw scene::InputError("step-unknown", {scene.file},
                                "finish \"" + scene.finishes[finish].name + "\" has steps 1 to " +
                                    std::to_string(steps.size()) + ", no step " + std::to_string(step));
    return static_cast<std::size_t>(step) - 1;
}

// The schedule with so many coats of a step; none: without the step.
schedule::Finish with_coats(schedule::Finish finish, std::size_t step, int coats) {
    if (coats == 0)
        finish.steps.erase(finish.steps.begin() + static_cast<std::ptrdiff_t>(step));
    else
        finish.steps[step].coats = coats;
    return finish;
}

class CoatCounts {
public:
    CoatCounts(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver, Coats& out,
               std::size_t finish, std::size_t step)
        : scene_(scene), solver_(solver), out_(out), finish_(finish), step_(step) {
        out_.lights = out_.target ? out_.target->lights : scene.look.lights;
        const auto observer = library.observer(out_.target ? out_.target->observer : scene.look.observer);
        for (const auto& id : out_.lights) weights_.push_back(color::make_weights(library.illuminant(id), observer));
    }

    /// All of them, and how sure each is and what lies between it and the target: one account for all.
    void add_up_to(int most) {
        for (int n = 0; n <= most; ++n) add(n);
        std::vector<schedule::Finish> finishes;
        for (const auto& row : out_.counts) finishes.push_back(with_coats(scene_.finishes[finish_], step_, row.coats));
        auto knowledge = scene_.knowledge();
        knowledge.past.assign(finishes.size(), recipe_times(scene_));
        if (const auto* target = target_finish(scene_)) {
            finishes.push_back(*target);
            knowledge.past.push_back(target_times(scene_));
        }
        auto spreads = appearance::spreads({scene_.materials,
                                            scene_.wood,
                                            finishes,
                                            scene_.look.geometry,
                                            solver_,
                                            weights_,
                                            appearance::StagesAsked::last,
                                            knowledge,
                                            base::parallel_for_all,
                                            {},
                                            false});
        const auto aim = out_.target
                             ? std::optional(aimed_at(*out_.target, target_finish(scene_) ? &spreads.back() : nullptr,
                                                      spreads.front().finished.front().size()))
                             : std::nullopt;
        for (std::size_t r = 0; r < out_.counts.size(); ++r) {
            CoatCount& row = out_.counts[r];
            row.rests_on = std::move(spreads[r]);
            for (std::size_t l = 0; l < weights_.size(); ++l) {
                row.colors[l].spread_de00 = row.rests_on.de00(0, l);
                row.colors[l].region = row.rests_on.regions.back()[l];
                row.spread = std::max(row.spread, row.colors[l].spread_de00);
            }
            if (!aim) continue;
            const auto chances = target_chances(*aim, row.rests_on, *scene_.target);
            row.chance = chances.seen;
            row.chance_other_board = chances.seen_other_board;
            row.chance_within = chances.within;
            row.off_target = chances.off_target_de00;
        }
    }

private:
    void add(int coats) {
        const auto finish = with_coats(scene_.finishes[finish_], step_, coats);
        CoatCount row;
        row.coats = coats;
        spectral::Spectrum reflectance{};
        int failed = 0;
        try {
            const auto worked =
                appearance::stages(scene_.materials, scene_.wood, finish, scene_.look.geometry, solver_, &failed);
            reflectance = worked.stages.back().reading.total();
            row.film_um = worked.stages.back().film_um;
            if (const auto times = recipe_times(scene_); !times.empty())
                reflectance =
                    search::finished({scene_.materials, scene_.wood, scene_.look.geometry, solver_, times}, finish);
        } catch (const schedule::Fault& fault) {
            const auto at = static_cast<std::size_t>(std::max(failed, 0));
            throw scene_.at(fault, finish_, coats == 0 && at >= step_ ? at + 1 : at);
        }
        for (std::size_t l = 0; l < weights_.size(); ++l) color(row, l, reflectance);
        out_.counts.push_back(std::move(row));
    }

    void color(CoatCount& row, std::size_t l, const spectral::Spectrum& reflectance) {
        row.colors.push_back(see(reflectance, out_.lights[l], weights_[l]));
        const auto& c = row.colors.back();
        if (!out_.counts.empty()) row.added.push_back(color::delta_e_00(out_.counts.back().colors[l].lab, c.lab));
        if (!out_.target) return;
        const auto& aim = out_.target->aim.lights[l].lab;
        row.to_target.push_back(color::delta_e_00(aim, c.lab));
        row.words.push_back(color::describe(aim, c.lab));
        if (out_.target->reflectance)
            row.special_index.push_back(l == 0 ? 0
                                               : color::special_metamerism_index(*out_.target->reflectance, reflectance,
                                                                                 weights_[0], weights_[l]));
    }

    const scene::Scene& scene_;
    const appearance::Solver& solver_;
    Coats& out_;
    std::size_t finish_, step_;
    std::vector<color::Weights> weights_;
};

double worst(const std::vector<double>& v) { return v.empty() ? 0 : *std::max_element(v.begin(), v.end()); }

double worst_apart(const std::vector<SeenColor>& a, const std::vector<SeenColor>& b) {
    double most = 0;
    for (std::size_t l = 0; l < a.size(); ++l) most = std::max(most, color::delta_e_00(a[l].lab, b[l].lab));
    return most;
}

}  // namespace

Coats coats(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver,
            const CoatsQuestion& question) {
    const std::size_t finish = asked_finish(scene, question.finish, "lay coats of"),
                      step = asked_step(scene, finish, question.step);
    Coats out;
    out.finish = scene.finishes[finish].name;
    out.step = static_cast<int>(step) + 1;
    schedule::Step one = scene.finishes[finish].steps[step];
    one.coats = 1;
    out.what = search::mixing_line({"", {one}});
    out.warnings = scene.warnings;
    if (scene.target) {
        out.target = view_target(scene, library, solver);
        for (auto& w : target_warnings(scene)) out.warnings.push_back(std::move(w));
    }
    CoatCounts worked(scene, library, solver, out, finish, step);
    worked.add_up_to(question.upto);
    std::vector<search::CoatsStep> steps;
    for (const auto& r : out.counts) {
        std::vector<double> apart;
        for (const auto& fewer : out.counts)
            if (fewer.coats < r.coats) apart.push_back(worst_apart(fewer.colors, r.colors));
        steps.push_back({std::move(apart), out.target ? std::optional<double>(worst(r.to_target)) : std::nullopt,
                         out.target ? r.off_target : r.spread});
    }
    out.verdict = search::coats_verdict(steps);
    return out;
}

}  // namespace foretone::job
