#include "foretone/base/number.hpp"
#include "foretone/appearance/ageing.hpp"
#include "foretone/job/match.hpp"
#include "target_times.hpp"

#include <algorithm>

namespace foretone::job {
namespace {

void add_light(TargetView& view, const std::string& id, const scene::Library& library) {
    view.lights.push_back(id);
    view.weights.push_back(color::make_weights(library.illuminant(id), library.observer(view.observer)));
}

SeenColor seen_lab(const color::Lab& lab, const std::string& light, const color::Weights& w) {
    auto c = see(color::from_lab(lab, w.white), light, w.white);
    c.lab = lab;  // as it was given, to the last digit
    return c;
}

std::size_t index_of(const scene::Scene& scene, const std::string& finish) {
    std::size_t i = 0;
    while (scene.finishes.at(i).name != finish) ++i;
    return i;
}

// The finished reflectance of a finish of the scene; a fault is placed.
spectral::Spectrum finished(const scene::Scene& scene, const std::string& name, const appearance::Solver& solver) {
    const std::size_t index = index_of(scene, name);
    int step = 0;
    try {
        const auto old = appearance::aged(scene.materials, scene.wood, scene.finishes[index], target_times(scene));
        return appearance::stages(old.materials, old.wood, old.finish, scene.look.geometry, solver, &step)
            .stages.back()
            .reading.total();
    } catch (const schedule::Fault& fault) {
        throw scene.at(fault, index, static_cast<std::size_t>(std::max(step, 0)));
    }
}

}  // namespace

TargetView view_target(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver) {
    if (!scene.target)
        throw scene::InputError(
            "target-missing", {scene.file, 1, 1},
            "there is no [target]: say finish = \"...\", reflectance = \"file.csv\", lab = [L, a, b] with light and "
            "observer, or srgb = \"#rrggbb\"");
    const scene::Target& target = *scene.target;
    TargetView view;
    view.observer = target.lab ? target.observer : scene.look.observer;
    if (target.lab) {
        const auto& c = *target.lab;
        view.name = target.srgb.empty()
                        ? "Lab " + base::shortest(c.l) + ", " + base::shortest(c.a) + ", " + base::shortest(c.b)
                        : "sRGB " + target.srgb;
        add_light(view, target.light, library);
        view.aim.lights.push_back({target.light, view.weights.front(), c});
        view.colors.push_back(seen_lab(c, target.light, view.weights.front()));
        return view;
    }
    for (const auto& id : scene.look.lights) add_light(view, id, library);
    view.name = target.finish.empty() ? target.file : target.finish;
    if (target.aged) view.name += ", " + target.aged->text + " old";
    if (target.judge_at) view.name += ", after " + target.judge_at->text;
    view.reflectance = target.reflectance ? *target.reflectance : finished(scene, target.finish, solver);
    view.aim = search::aim_at(*view.reflectance, view.lights, view.weights);
    for (std::size_t l = 0; l < view.lights.size(); ++l)
        view.colors.push_back(see(*view.reflectance, view.lights[l], view.weights[l]));
    return view;
}

std::vector<scene::Problem> target_warnings(const scene::Scene& scene) {
    std::vector<scene::Problem> out;
    if (!scene.target || !scene.target->lab) return out;
    const scene::Target& target = *scene.target;
    if (target.srgb.empty())
        out.push_back({"target-one-light", target.place,
                       "a Lab target is judged under " + target.light + " alone, read as " +
                           scene::geometry_text(scene.look.geometry) +
                           "; whether a match holds under another light is not known: a reflectance file tells it"});
    else
        out.push_back(
            {"target-weak", target.place,
             "an sRGB patch is a weak target: a screen's color under D65 alone, in no geometry; a reading of a sample "
             "is far better"});
    return out;
}

}  // namespace foretone::job
