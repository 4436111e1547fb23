#include "foretone/job/client_sheet.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/order_rules.hpp"
#include "foretone/scene/version.hpp"

namespace foretone::job {
namespace {

// The draws if the materials were known: about the mean, what two boards of a world differ by, over √2, to both sides.
appearance::Draws boards_of(const appearance::Draws& draws, const color::Lab& mean) {
    appearance::Draws out;
    for (std::size_t i = 0; i + 1 < draws.size(); i += 2)
        for (const double side : {std::sqrt(0.5), -std::sqrt(0.5)})
            out.push_back({mean.l + side * (draws[i].l - draws[i + 1].l), mean.a + side * (draws[i].a - draws[i + 1].a),
                           mean.b + side * (draws[i].b - draws[i + 1].b)});
    return out;
}

// Once step boards were learned from, a client is shown what boards and coats do: what is still not known of the
// materials goes with the next board, and is the shop's to say.
void show_boards_alone(Preview& p, const scene::Library& library) {
    const auto& look = p.scene.look;
    for (auto& finish : p.finishes) {
        auto& colors = finish.stages.back().colors;
        for (std::size_t l = 0; l < colors.size(); ++l) {
            const auto white =
                color::make_weights(library.illuminant(look.lights[l]), library.observer(look.observer)).white;
            colors[l].region = finish.spread.boards[l];
            colors[l].spread_de00 = colors[l].region.rms_de00;
            auto& shown = finish.plausible[l];
            const auto count = shown.size();
            shown.clear();
            const auto draws = boards_of(finish.spread.finished[l], colors[l].region.mean);
            for (const auto& lab : appearance::plausible(draws, colors[l].region, count))
                shown.push_back(color::to_display(color::from_lab(lab, white), white));
        }
        std::erase_if(finish.spread.contributions,
                      [](const auto& c) { return c.origin == appearance::Origin::materials; });
    }
}

std::vector<std::size_t> chosen_finishes(const scene::Scene& scene, const std::vector<std::string>& wanted) {
    std::vector<std::string> names;
    for (const auto& f : scene.finishes) names.push_back(f.name);
    std::vector<std::size_t> chosen;
    if (wanted.empty())
        for (std::size_t i = 0; i < names.size(); ++i) chosen.push_back(i);
    for (const auto& name : wanted) {
        const auto at = std::find(names.begin(), names.end(), name);
        if (at == names.end())
            throw scene::InputError("finish-unknown", {scene.file},
                                    "there is no finish \"" + name + "\"." + scene::suggestion(name, names));
        const auto index = static_cast<std::size_t>(at - names.begin());
        if (std::find(chosen.begin(), chosen.end(), index) == chosen.end()) chosen.push_back(index);
    }
    if (chosen.size() > layout::client_sheet_most) {
        std::vector<std::string> quoted;
        for (const std::size_t i : chosen) quoted.push_back("\"" + names[i] + "\"");
        throw scene::InputError("finish-too-many", {scene.file},
                                std::to_string(chosen.size()) +
                                    " finishes do not go on one sheet: choose up to four of them, each with "
                                    "--finish NAME, from " +
                                    scene::either(quoted));
    }
    return chosen;
}

std::vector<std::string> two_lights(const std::vector<std::string>& lights) {
    if (lights.size() >= 2) return {lights[0], lights[1]};
    if (lights.empty() || lights[0] == "D65" || lights[0] == "A") return {"D65", "A"};
    return {"D65", lights[0]};
}

/// A finish's last step that leaves a binder, its colorants left out, as a finish of its own.
struct ClearCandidate {
    schedule::Step step;
    std::size_t finish = 0, from = 0;  ///< whose step it is
    int rank = 0;                      ///< film 0, oil 1, wax 2
    double absorption = 0;             ///< of the dry binder at 450 nm, 1/mm
    bool whole = false;                ///< the finish is nothing but this step
};

std::optional<ClearCandidate> clear_of(const scene::Scene& scene, std::size_t finish) {
    const auto& steps = scene.finishes[finish].steps;
    for (std::size_t s = steps.size(); s-- > 0;) {
        ClearCandidate c{steps[s], finish, s, 2, 0, false};
        std::erase_if(c.step.mix, [&](const auto& p) { return facts(scene.materials.at(p.use).kind).colorant; });
        c.whole = steps.size() == 1 && c.step.mix.size() == steps[s].mix.size();
        if (c.step.mix.size() == 1) c.step.mix.front() = {c.step.mix.front().use, schedule::Amount::parts, 1};
        if (!c.whole) c.step.after_days.reset(), c.step.scuff = false;
        try {
            const auto d = schedule::deposit(c.step, scene.materials);
            if (c.step.mix.empty() || d.binder_um <= 0) continue;
            c.absorption = d.binder_absorption_per_mm.values[(450 - spectral::grid_start_nm) / spectral::grid_step_nm];
        } catch (const schedule::Fault&) {
            continue;  // without its colorants this mix no longer works out
        }
        for (const auto& p : c.step.mix) {
            c.rank = std::min(c.rank, facts(scene.materials.at(p.use).kind).clear_rank);
        }
        return c;
    }
    return std::nullopt;
}

std::optional<ClearCandidate> clear_control(const scene::Scene& scene) {
    std::optional<ClearCandidate> best;
    for (std::size_t f = 0; f < scene.finishes.size(); ++f) {
        const auto c = clear_of(scene, f);
        if (!c) continue;
        const auto key = [](const ClearCandidate& k) { return std::tuple(k.rank, k.absorption, k.whole ? 0 : 1); };
        if (!best || key(*c) < key(*best)) best = c;
    }
    return best;
}

std::string clear_name(const ClearCandidate& c, const scene::Scene& scene, bool shown) {
    std::string text;
    for (const auto& p : c.step.mix) text += (text.empty() ? "" : " and ") + scene.materials.at(p.use).name;
    text += " alone, " + std::to_string(c.step.coats) + (c.step.coats == 1 ? " coat" : " coats");
    return "Clear: " + text + (shown ? ", as " + layout::letter_of(c.finish) : "");
}

/// The scene with what is shown, and nothing else.
scene::Scene cut_down(const scene::Scene& scene, const std::vector<std::size_t>& chosen) {
    scene::Scene out = scene;
    out.finishes.clear();
    out.places.clear();
    for (const std::size_t i : chosen) {
        out.finishes.push_back(scene.finishes[i]);
        out.places.push_back(scene.places.at(i));
    }
    out.look.lights = two_lights(scene.look.lights);
    // The reference of a preview must be one of its finishes; the sheet compares with the clear control.
    if (out.target && !out.target->finish.empty()) out.target.reset();
    return out;
}

}  // namespace

ClientSheetWork client_sheet(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver,
                             const SheetRequest& request) {
    const auto chosen = chosen_finishes(scene, request.finishes);
    scene::Scene own = cut_down(scene, chosen);
    ClientSheetWork work;
    work.shown = chosen.size();
    if (scene.look.lights.size() > 2) work.lights_left_out = scene.look.lights.size() - 2;
    if (const auto clear = clear_control(own)) {
        work.clear = clear->whole ? clear->finish : own.finishes.size();
        work.clear_name = clear_name(*clear, own, clear->whole);
        if (!clear->whole) {
            own.finishes.push_back({work.clear_name, {clear->step}, false});
            own.places.push_back({own.places[clear->finish].at(clear->from)});
        }
    }
    work.preview = preview(own, library, solver);
    if (!own.fits.empty()) show_boards_alone(work.preview, library);
    return work;
}

}  // namespace foretone::job
