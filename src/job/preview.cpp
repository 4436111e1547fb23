#include "foretone/job/preview.hpp"

#include <algorithm>

#include "foretone/appearance/tones.hpp"
#include "foretone/appearance/uneven.hpp"
#include "foretone/base/parallel.hpp"
#include "foretone/color/words.hpp"
#include "foretone/material/figures.hpp"
#include "foretone/search/chance.hpp"
#include "readable.hpp"

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

// What published boards say of a finish up to a step (1-based; 0 is bare wood).
PublishedFooting footing_of(const schedule::Finish& finish, int up_to_step, const material::Materials& materials) {
    std::vector<std::string> used;
    for (std::size_t s = 0; s < finish.steps.size() && static_cast<int>(s) < up_to_step; ++s)
        if (finish.steps[s].coats > 0)
            for (const auto& part : finish.steps[s].mix) used.push_back(part.use);
    return published_footing(used, materials);
}

void what_next(SeenFinish& out) {
    auto found = next_on_board(out.stages, &SeenStage::stage, out.spread);
    out.readings = std::move(found.readings);
    out.next = std::move(found.next);
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

// How sure all of it is: one account for all finishes.
void add_spreads(Preview& out, const appearance::Solver& solver, const std::vector<color::Weights>& lights) {
    const auto& scene = out.scene;
    auto spreads = appearance::spreads({scene.materials, scene.wood, scene.finishes, scene.look.geometry, solver,
                                        lights, true, scene.knowledge(), base::parallel_for_all});
    for (std::size_t f = 0; f < out.finishes.size(); ++f) {
        auto& finish = out.finishes[f];
        finish.spread = std::move(spreads[f]);
        for (std::size_t s = 0; s < finish.stages.size(); ++s)
            for (std::size_t l = 0; l < lights.size(); ++l) {
                auto& color = finish.stages[s].colors[l];
                color.spread_de00 = finish.spread.de00(s, l);
                color.region = finish.spread.regions[s][l];
            }
        for (std::size_t l = 0; l < lights.size(); ++l) {
            finish.plausible.emplace_back();
            for (const auto& lab :
                 appearance::plausible(finish.spread.finished[l], finish.spread.regions.back()[l], plausible_boards))
                finish.plausible.back().push_back(
                    color::to_display(color::from_lab(lab, lights[l].white), lights[l].white));
        }
        what_next(finish);
    }
}

// What light and time make of the finished boards.
void add_aged(Preview& out, const appearance::Solver& solver, const std::vector<color::Weights>& lights) {
    auto aged = see_aged(out.scene, lights, solver);
    for (std::size_t f = 0; f < aged.size(); ++f) out.finishes[f].aged = std::move(aged[f]);
}

Difference difference(const Preview& p, std::size_t from, std::size_t to, std::size_t light) {
    const auto &a = p.finishes[from], &b = p.finishes[to];
    const auto &ca = a.stages.back().colors[light].lab, &cb = b.stages.back().colors[light].lab;
    const auto &da = a.spread.finished[light], &db = b.spread.finished[light];
    return {a.name,
            b.name,
            p.scene.look.lights[light],
            color::delta_e_00(ca, cb),
            b.spread.from_earlier[from][light],
            appearance::chance_beyond(search::client_sees_de00, da, db),
            appearance::chance_beyond(search::client_sees_de00, da, appearance::on_the_other_board(db)),
            color::describe(ca, cb),
            color::describe(cb, ca)};
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

}  // namespace

Preview preview(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver) {
    if (scene.finishes.empty())
        throw scene::InputError("finish-empty", {scene.file, 1, 1},
                                "there is no finish: add [[finish]] with a name and at least one [[finish.step]]");
    Preview out{scene, solver.name, scene.materials.at(scene.wood).name, {}, {}, {}, scene.warnings, {}};
    const auto lights = weights_of(scene.look, library);
    for (std::size_t i = 0; i < scene.finishes.size(); ++i)
        out.finishes.push_back(see_finish(scene, i, solver, lights));
    add_spreads(out, solver, lights);
    for (std::size_t i = 0; i < out.finishes.size(); ++i)
        for (std::size_t j = i + 1; j < out.finishes.size(); ++j)
            for (std::size_t l = 0; l < lights.size(); ++l) out.differences.push_back(difference(out, i, j, l));
    for (const auto& f : out.finishes) {
        const auto& colors = f.stages.back().colors;
        for (std::size_t l = 1; l < colors.size(); ++l)
            out.across.push_back({f.name, colors[0].light, colors[l].light,
                                  color::delta_e_ucs(color::ucs(colors[0].seen), color::ucs(colors[l].seen)),
                                  color::describe(colors[0].seen, colors[l].seen)});
    }
    add_aged(out, solver, lights);
    out.reference = scene.target && !scene.target->finish.empty() ? scene.target->finish : scene.finishes.front().name;
    warn_resampled(scene, out.warnings);
    return out;
}

}  // namespace foretone::job
