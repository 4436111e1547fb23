#include "foretone/job/coats.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/color/words.hpp"
#include "foretone/search/chance.hpp"
#include "foretone/search/words.hpp"
#include "asked.hpp"

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

class Ladder {
public:
    Ladder(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver, Coats& out,
           std::size_t finish, std::size_t step)
        : scene_(scene), solver_(solver), out_(out), finish_(finish), step_(step) {
        out_.lights = out_.target ? out_.target->lights : scene.look.lights;
        const auto observer = library.observer(out_.target ? out_.target->observer : scene.look.observer);
        for (const auto& id : out_.lights) weights_.push_back(color::make_weights(library.illuminant(id), observer));
    }

    void add(int coats) {
        const auto finish = with_coats(scene_.finishes[finish_], step_, coats);
        Rung rung;
        rung.coats = coats;
        spectral::Spectrum reflectance{};
        int failed = 0;
        try {
            const auto worked =
                appearance::stages(scene_.shelf, scene_.wood, finish, scene_.look.geometry, solver_, &failed);
            reflectance = worked.stages.back().reading.total();
            rung.film_um = worked.stages.back().film_um;
            rung.rests_on =
                appearance::spread(scene_.shelf, scene_.wood, finish, scene_.look.geometry, solver_, weights_);
        } catch (const schedule::Fault& fault) {
            const auto at = static_cast<std::size_t>(std::max(failed, 0));
            throw scene_.at(fault, finish_, coats == 0 && at >= step_ ? at + 1 : at);
        }
        for (std::size_t l = 0; l < weights_.size(); ++l) color(rung, l, reflectance);
        out_.rungs.push_back(std::move(rung));
    }

private:
    void color(Rung& rung, std::size_t l, const spectral::Spectrum& reflectance) {
        rung.colors.push_back(see(reflectance, out_.lights[l], weights_[l]));
        auto& c = rung.colors.back();
        c.spread_de00 = rung.rests_on.de00(rung.rests_on.regions.size() - 1, l);
        rung.spread = std::max(rung.spread, c.spread_de00);
        if (!out_.rungs.empty()) rung.added.push_back(color::delta_e_00(out_.rungs.back().colors[l].lab, c.lab));
        if (!out_.target) return;
        const auto& aim = out_.target->aim.lights[l].lab;
        rung.to_target.push_back(color::delta_e_00(aim, c.lab));
        rung.words.push_back(color::describe(aim, c.lab));
        rung.chance =
            std::max(rung.chance, search::chance_beyond(search::client_sees_de00, aim, rung.rests_on.finished[l]));
        if (out_.target->reflectance)
            rung.special_index.push_back(l == 0
                                             ? 0
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
    Ladder ladder(scene, library, solver, out, finish, step);
    for (int n = 0; n <= question.upto; ++n) ladder.add(n);
    std::vector<search::CoatsStep> steps;
    for (const auto& r : out.rungs)
        steps.push_back(
            {worst(r.added), out.target ? std::optional<double>(worst(r.to_target)) : std::nullopt, r.spread});
    out.verdict = search::coats_verdict(steps);
    return out;
}

}  // namespace foretone::job
