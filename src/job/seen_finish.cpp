#include "seen_finish.hpp"

#include <algorithm>

#include "foretone/appearance/tones.hpp"
#include "foretone/appearance/uneven.hpp"
#include "foretone/material/figures.hpp"

namespace foretone::job {
namespace {

void warn_out_of_gamut(SeenFinish& finish, const scene::Place& place) {
    for (const auto& s : finish.stages)
        for (const auto& c : s.colors)
            if (!c.screen.in_gamut)
                finish.warnings.push_back(
                    {"out-of-gamut", place,
                     "the " + std::string(appearance::word(s.stage.kind)) + " color under " + c.light +
                         " is beyond what an sRGB screen shows; its picture has less chroma, same hue and lightness"});
}

// What published boards say of a finish up to a step (1-based; 0 is bare wood).
PublishedFooting footing_of(const schedule::Finish& finish, int up_to_step, const material::Materials& materials) {
    std::vector<std::string> used;
    for (std::size_t s = 0; s < finish.steps.size() && static_cast<int>(s) < up_to_step; ++s)
        if (finish.steps[s].coats > 0)
            for (const auto& part : finish.steps[s].mix) used.push_back(part.use);
    return published_footing(used, materials);
}

// A ready dye as it comes is some ten times as strong as it is meant to be laid on.
void warn_of_neat_dye(SeenFinish& out, const scene::Scene& scene, std::size_t finish) {
    const auto& steps = scene.finishes[finish].steps;
    for (std::size_t s = 0; s < steps.size(); ++s) {
        const auto is_stock = [&](const auto& part) {
            return std::holds_alternative<material::Stock>(scene.materials.at(part.use).data);
        };
        if (steps[s].mix.empty() || !std::all_of(steps[s].mix.begin(), steps[s].mix.end(), is_stock)) continue;
        out.warnings.push_back(
            {"dye-neat", scene.places[finish].empty() ? scene::Place{scene.file} : scene.places[finish].at(s).step,
             steps[s].mix.front().use +
                 " goes on as it comes; ready dyes are meant to be thinned (about 1:9): mix = [ { use "
                 "= \"" +
                 steps[s].mix.front().use + "\", parts = 1 }, { use = \"water\", parts = 9 } ]"});
    }
}

}  // namespace

std::vector<color::Weights> weights_of(const scene::Look& look, const scene::Library& library) {
    const auto observer = library.observer(look.observer);
    std::vector<color::Weights> out;
    for (const auto& id : look.lights) out.push_back(color::make_weights(library.illuminant(id), observer));
    return out;
}

SeenFinish see_finish(const scene::Scene& scene, std::size_t index, const appearance::Solver& solver,
                      const std::vector<color::Weights>& lights) {
    const auto& finish = scene.finishes[index];
    SeenFinish out;
    out.name = finish.name;
    appearance::Stages worked;
    int step = 0;
    try {
        worked = appearance::stages(scene.materials, scene.wood, finish, scene.look.geometry, solver, &step);
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
    warn_of_neat_dye(out, scene, index);
    const auto boards = appearance::boards(scene.materials, scene.wood, finish);
    const auto& wood = std::get<material::Wood>(scene.materials.at(scene.wood).data);
    for (std::size_t s = 0; s < worked.stages.size(); ++s) {
        SeenStage seen{worked.stages[s], worked.stages[s].reading.total(), {}};
        seen.uneven_de00 =
            appearance::uneven_de00(appearance::tenths(boards[s], wood, scene.look.geometry, solver), lights.front());
        for (std::size_t l = 0; l < lights.size(); ++l) {
            seen.colors.push_back(see(seen.reflectance, scene.look.lights[l], lights[l]));
            seen.colors.back().published_boards =
                std::max(0, footing_of(finish, worked.stages[s].after_step, scene.materials).rows);
        }
        out.stages.push_back(std::move(seen));
    }
    out.footing = footing_of(finish, static_cast<int>(finish.steps.size()), scene.materials);
    warn_out_of_gamut(out, place);
    out.findings = schedule::check_order(finish, scene.materials, &scene.wood_data());
    return out;
}

void take_spread(SeenFinish& finish, appearance::Spread spread) {
    finish.spread = std::move(spread);
    const auto take = [&](SeenStage& stage, std::size_t s) {
        for (std::size_t l = 0; l < stage.colors.size(); ++l) {
            stage.colors[l].spread_de00 = finish.spread.de00(s, l);
            stage.colors[l].region = finish.spread.regions[s][l];
        }
    };
    const std::size_t told = finish.spread.regions.size();
    if (told == finish.stages.size())
        for (std::size_t s = 0; s < told; ++s) take(finish.stages[s], s);
    else
        take(finish.stages.front(), 0), take(finish.stages.back(), told - 1);
}

void warn_resampled(const scene::Scene& scene, std::vector<scene::Problem>& warnings) {
    for (const auto& [id, m] : scene.materials) {
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

}  // namespace foretone::job
