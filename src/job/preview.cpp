#include "foretone/job/preview.hpp"

#include <algorithm>

#include "even_pigment.hpp"
#include "foretone/color/words.hpp"
#include "foretone/material/figures.hpp"

namespace foretone::job {
namespace {

constexpr std::size_t plausible_boards = 24;

std::vector<color::Weights> weights_of(const scene::Look& look, const scene::Library& library) {
    const auto observer = library.observer(look.observer);
    std::vector<color::Weights> out;
    for (const auto& id : look.lights) out.push_back(color::make_weights(library.illuminant(id), observer));
    return out;
}

void warn_out_of_gamut(SeenFinish& finish, const scene::Place& place) {
    for (const auto& s : finish.stages)
        for (const auto& c : s.colors)
            if (!c.screen.in_gamut)
                finish.warnings.push_back(
                    {"out-of-gamut", place,
                     "the " + std::string(appearance::word(s.stage.kind)) + " color under " + c.light +
                         " is beyond what an sRGB screen shows; its picture has less chroma, same hue and lightness"});
}

SeenFinish see_finish(const scene::Scene& scene, std::size_t index, const appearance::Solver& solver,
                      const std::vector<color::Weights>& lights) {
    const auto& finish = scene.finishes[index];
    SeenFinish out;
    out.name = finish.name;
    appearance::Stages worked;
    int step = 0;
    try {
        worked = appearance::stages(scene.shelf, scene.wood, finish, scene.look.geometry, solver, &step);
    } catch (const schedule::Fault& fault) {
        throw scene.at(fault, index, static_cast<std::size_t>(std::max(step, 0)));
    }
    const scene::Place place =
        scene.places[index].empty() ? scene::Place{scene.file} : scene.places[index].front().step;
    for (const auto& note : worked.notes) {
        const std::size_t number =
            note.starts_with("step ") ? static_cast<std::size_t>(std::stoul(note.substr(5))) - 1 : 0;
        out.warnings.push_back({"assumed", scene.places[index].at(number).step, note});
    }
    for (auto& w : even_pigment(scene, index)) out.warnings.push_back(std::move(w));
    out.spread = appearance::spread(scene.shelf, scene.wood, finish, scene.look.geometry, solver, lights);
    for (std::size_t s = 0; s < worked.stages.size(); ++s) {
        SeenStage seen{worked.stages[s], worked.stages[s].reading.total(), {}};
        for (std::size_t l = 0; l < lights.size(); ++l) {
            seen.colors.push_back(see(seen.reflectance, scene.look.lights[l], lights[l]));
            seen.colors.back().spread_de00 = out.spread.de00(s, l);
            seen.colors.back().region = out.spread.regions[s][l];
        }
        out.stages.push_back(std::move(seen));
    }
    for (std::size_t l = 0; l < lights.size(); ++l) {
        out.may_be.emplace_back();
        for (const auto& lab :
             appearance::plausible(out.spread.finished[l], out.spread.regions.back()[l], plausible_boards))
            out.may_be.back().push_back(color::to_display(color::from_lab(lab, lights[l].white), lights[l].white));
    }
    warn_out_of_gamut(out, place);
    out.findings = schedule::judge(finish, scene.shelf);
    return out;
}

void warn_resampled(const scene::Scene& scene, std::vector<scene::Problem>& warnings) {
    for (const auto& [id, m] : scene.shelf) {
        material::Material copy = m;
        for (const auto& f : material::figures(copy)) {
            if (!f.spectrum || id == "board") continue;
            if (f.spectrum->resampled)
                warnings.push_back({"spectrum-resampled", {id}, f.key + " of " + m.name + " was resampled to 5 nm"});
            if (f.spectrum->held_below || f.spectrum->held_above)
                warnings.push_back(
                    {"spectrum-extended",
                     {id},
                     f.key + " of " + m.name + " does not cover 380 to 780 nm: its end values were held"});
        }
    }
}

}  // namespace

SeenColor see(const spectral::Spectrum& reflectance, const std::string& light, const color::Weights& weights) {
    SeenColor c;
    c.light = light;
    c.xyz = color::xyz(reflectance, weights);
    c.lab = color::to_lab(c.xyz, weights.white);
    c.screen = color::to_display(c.xyz, weights.white);
    return c;
}

Preview preview(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver) {
    if (scene.finishes.empty())
        throw scene::InputError("finish-empty", {scene.file, 1, 1},
                                "there is no finish: add [[finish]] with a name and at least one [[finish.step]]");
    Preview out{scene, solver.name, scene.shelf.at(scene.wood).name, {}, {}, scene.warnings, {}};
    const auto lights = weights_of(scene.look, library);
    for (std::size_t i = 0; i < scene.finishes.size(); ++i)
        out.finishes.push_back(see_finish(scene, i, solver, lights));
    for (std::size_t i = 0; i < out.finishes.size(); ++i)
        for (std::size_t j = i + 1; j < out.finishes.size(); ++j)
            for (std::size_t l = 0; l < lights.size(); ++l) {
                const auto& p = out.finishes[i].stages.back().colors[l].lab;
                const auto& q = out.finishes[j].stages.back().colors[l].lab;
                out.differences.push_back({out.finishes[i].name, out.finishes[j].name, scene.look.lights[l],
                                           color::delta_e_00(p, q), color::describe(p, q), color::describe(q, p)});
            }
    out.reference = scene.target && !scene.target->finish.empty() ? scene.target->finish : scene.finishes.front().name;
    warn_resampled(scene, out.warnings);
    return out;
}

}  // namespace foretone::job
