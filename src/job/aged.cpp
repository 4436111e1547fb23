#include "foretone/job/aged.hpp"

#include <algorithm>

#include "foretone/base/parallel.hpp"
#include "foretone/color/words.hpp"
#include "foretone/search/finished.hpp"
#include "asked.hpp"

namespace foretone::job {
namespace {
using appearance::Ages;

constexpr std::size_t plausible_ages = 24;

std::vector<material::AgeSpan> spans(const scene::Scene& scene, double days) { return {{scene.look.exposure, days}}; }

bool has(const scene::Scene& scene, const schedule::Finish& finish, Ages part) {
    for (const auto& step : finish.steps)
        for (const auto& p : step.mix) {
            const auto& m = scene.materials.at(p.use);
            if (part == Ages::film
                    ? is_binder(m)
                    : std::holds_alternative<material::Dye>(m.data) || std::holds_alternative<material::Stock>(m.data))
                return true;
        }
    return false;
}

class AgedLooker {
public:
    AgedLooker(const scene::Scene& scene, const std::vector<color::Weights>& lights, const appearance::Solver& solver)
        : scene_(scene), lights_(lights), solver_(solver) {}

    SeenAge look(const schedule::Finish& finish, const scene::Duration& after, const spectral::Spectrum& fresh) const {
        SeenAge out;
        out.after = after;
        out.exposure = scene_.look.exposure;
        out.dose = material::dose(material::exposure(out.exposure), after.days);
        out.reflectance = read(finish, after, Ages::all);
        for (std::size_t l = 0; l < lights_.size(); ++l) {
            out.colors.push_back(see(out.reflectance, scene_.look.lights[l], lights_[l]));
            const auto before = lab(fresh, l);
            out.from_new_de00.push_back(color::delta_e_00(before, out.colors.back().lab));
            out.words.push_back(color::describe(before, out.colors.back().lab));
        }
        const auto alone = [&](Ages part) {
            return color::delta_e_00(lab(fresh, 0), lab(read(finish, after, part), 0));
        };
        out.parts.wood = alone(Ages::wood);
        if (has(scene_, finish, Ages::film)) out.parts.film = alone(Ages::film);
        if (has(scene_, finish, Ages::dye)) out.parts.dye = alone(Ages::dye);
        return out;
    }

    spectral::Spectrum fresh(const schedule::Finish& finish) const {
        return search::finished({scene_.materials, scene_.wood, scene_.look.geometry, solver_}, finish);
    }

    // Regions of one time, of all finishes.
    void add_spreads(std::vector<std::vector<SeenAge>>& all, std::size_t time) const {
        auto knowledge = scene_.knowledge();
        knowledge.after = spans(scene_, scene_.look.after[time].days);
        const auto spreads = appearance::spreads({scene_.materials,
                                                  scene_.wood,
                                                  scene_.finishes,
                                                  scene_.look.geometry,
                                                  solver_,
                                                  lights_,
                                                  appearance::StagesAsked::last,
                                                  knowledge,
                                                  base::parallel_for_all,
                                                  {},
                                                  false});
        for (std::size_t f = 0; f < all.size(); ++f) {
            SeenAge& seen = all[f][time];
            seen.rests_on = spreads[f].rests_on;
            for (std::size_t l = 0; l < lights_.size(); ++l) {
                seen.colors[l].spread_de00 = spreads[f].de00(0, l);
                seen.colors[l].region = spreads[f].regions.back()[l];
                seen.plausible.emplace_back();
                for (const auto& one :
                     appearance::plausible(spreads[f].finished[l], seen.colors[l].region, plausible_ages))
                    seen.plausible.back().push_back(
                        color::to_display(color::from_lab(one, lights_[l].white), lights_[l].white));
            }
        }
    }

private:
    color::Lab lab(const spectral::Spectrum& reflectance, std::size_t light) const {
        return color::to_lab(color::xyz(reflectance, lights_[light]), lights_[light].white);
    }

    spectral::Spectrum read(const schedule::Finish& finish, const scene::Duration& after, Ages what) const {
        const auto old = appearance::aged(scene_.materials, scene_.wood, finish, spans(scene_, after.days), what);
        return search::finished({old.materials, old.wood, scene_.look.geometry, solver_}, old.finish);
    }

    const scene::Scene& scene_;
    const std::vector<color::Weights>& lights_;
    const appearance::Solver& solver_;
};

}  // namespace

AgeClass age_class(const scene::Scene& scene) {
    const auto& law = material::ageing_of(std::get<material::Wood>(scene.materials.at(scene.wood).data));
    return {std::string(law.word), std::string(law.meaning), law.published};
}

std::vector<std::vector<SeenAge>> see_aged(const scene::Scene& scene, const std::vector<color::Weights>& lights,
                                           const appearance::Solver& solver) {
    std::vector<std::vector<SeenAge>> out(scene.finishes.size());
    if (scene.look.after.empty()) return out;
    const AgedLooker looker(scene, lights, solver);
    for (std::size_t f = 0; f < out.size(); ++f) {
        const auto fresh = looker.fresh(scene.finishes[f]);
        for (const auto& time : scene.look.after) out[f].push_back(looker.look(scene.finishes[f], time, fresh));
    }
    for (std::size_t t = 0; t < scene.look.after.size(); ++t) looker.add_spreads(out, t);
    return out;
}

appearance::AgedFinish aged_finish(const scene::Scene& scene, std::size_t finish, const scene::Duration& after) {
    return appearance::aged(scene.materials, scene.wood, scene.finishes.at(finish), spans(scene, after.days));
}

scene::Scene aged_scene(const scene::Scene& scene, const std::vector<std::string>& finishes,
                        const scene::Duration& after) {
    std::vector<std::string> names;
    for (const auto& f : scene.finishes) names.push_back(f.name);
    if (finishes.size() != 1 && !(finishes.empty() && names.size() == 1))
        throw scene::InputError(
            "after-one", {scene.file},
            "--after shows one finish at a time: name it with --finish, one of " + scene::either(names));
    const std::size_t at = asked_finish(scene, finishes.empty() ? names.front() : finishes.front(), "show");
    scene::Scene out = scene;
    auto old = aged_finish(scene, at, after);
    out.materials = std::move(old.materials);
    out.finishes = {std::move(old.finish)};
    out.finishes.front().name += ", " + after_text(after, scene.look.exposure);
    out.places = {scene.places.at(at)};
    out.look.after.clear();
    out.target.reset();
    out.search.reset();
    out.warnings.push_back({"after-spread",
                            {scene.file},
                            "the spread that is told is that of the board when new; preview tells it with what is not "
                            "known of its age"});
    return out;
}

std::string place_text(material::Stands exposure) {
    constexpr std::array<const char*, 5> where = {"in the dark", "in the shade", "in a room", "by a window",
                                                  "in the sun behind glass"};
    return where[static_cast<std::size_t>(exposure)];
}

std::string after_text(const scene::Duration& after, material::Stands exposure) {
    return "after " + after.text + " " + place_text(exposure);
}

}  // namespace foretone::job
