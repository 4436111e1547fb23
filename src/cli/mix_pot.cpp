// `mix pot`: the recipe of one step, to be weighed and drawn up.

#include <algorithm>

#include <fmt/core.h>

#include "foretone/appearance/render.hpp"
#include "foretone/base/number.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/job/pot_color.hpp"
#include "foretone/schedule/printed.hpp"
#include "mix_verbs.hpp"
#include "tools.hpp"

namespace foretone::cli {
using schedule::Dimension;

int mix_pot(const MixOptions& o) {
    const auto lib = library(o);
    const auto scene = scene::read_scene(o.scene, lib);
    std::vector<std::string> names;
    for (const auto& f : scene.finishes) names.push_back(f.name);
    const auto named = o.finish.empty() ? names.begin() : std::find(names.begin(), names.end(), o.finish);
    if (named == names.end())
        throw schedule::Fault("finish-unknown", -1,
                              "there is no finish \"" + o.finish + "\"." + scene::suggestion(o.finish, names));
    const auto f = static_cast<std::size_t>(named - names.begin());
    const auto& finish = scene.finishes[f];
    if (o.step < 1 || static_cast<std::size_t>(o.step) > finish.steps.size())
        throw schedule::Fault("step-unknown", -1,
                              "--step " + std::to_string(o.step) + ": \"" + finish.name + "\" has steps 1 to " +
                                  std::to_string(finish.steps.size()));
    const auto s = static_cast<std::size_t>(o.step - 1);
    const auto& step = finish.steps[s];
    if (o.area.empty() == o.volume.empty())
        throw schedule::Fault("amount-missing", -1, "how much? Say --area 2.5m2 or --volume 500mL");

    const auto units = units_for(o, scene, o.area.empty() ? o.volume : o.area);
    const auto tools = tools_of(o.scale, o.syringe, units);
    Answer a;
    a.units = units;
    const auto method = schedule::method_of(step, scene.materials);
    const std::string by(material::method_words[static_cast<std::size_t>(method)]);
    double ml = 0;
    if (!o.area.empty()) {
        const double m2 = schedule::amount_in(o.area, Dimension::area, 1e-4, 1e5);
        ml = schedule::ml_for_area(step, scene.materials, m2);
        const double loss = schedule::loss_share(method), used = ml * (1 - loss);
        a.formulas.push_back(fmt::format(
            "volume = wet um x m2 x coats / (1 - loss) = {} x {} x {} / (1 - {}) = {} mL; loss by {}, practice",
            base::at_most(used / m2 / step.coats, 2), base::at_most(m2, 4), step.coats, base::at_most(loss, 2),
            base::at_most(ml, 1), by));
    } else {
        ml = schedule::amount_in(o.volume, Dimension::volume, 0.1, 1e6);
    }
    const auto pot = schedule::pot(step, scene.materials, ml, tools);
    a.title = finish.name + ", step " + std::to_string(o.step) + ": " + schedule::printed(ml, Dimension::volume, units);
    for (const auto& m : pot.measures) {
        Answer::Value v{m.id, scene.materials.at(m.id).name, m.measured, m.weighed ? "g" : "mL", 4};
        v.text = schedule::printed_measure(m.measured, m.weighed, units);
        a.values.push_back(std::move(v));
    }
    a.values.push_back({"total_ml", "makes", pot.measured_ml, "mL", 1});
    const auto errors = job::rounding_de00(scene, f, s, pot, lib, appearance::two_flux_solver());
    for (std::size_t i = 0; i < errors.size(); ++i)
        a.values.push_back({"rounding_dE00_" + scene.look.lights[i], "color error of rounding, " + scene.look.lights[i],
                            errors[i], "dE00", 3});
    a.formulas.push_back("each measure = nearest whole step of the tool: " + tools_text(o.scale, o.syringe, units));
    a.formulas.push_back("color error = dE00 of the finished board, as written against as measured");
    a.notes = pot.notes;
    a.cautions = job::cautions_of(scene.materials, finish);
    return give(a, o);
}

}  // namespace foretone::cli
