// The recipe of one step, to be weighed and drawn up.

#include <algorithm>

#include <fmt/core.h>

#include "foretone/appearance/render.hpp"
#include "foretone/base/number.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/job/mix.hpp"
#include "foretone/job/pot_color.hpp"
#include "foretone/schedule/measure.hpp"
#include "foretone/schedule/printed.hpp"
#include "foretone/schedule/shop_arithmetic.hpp"

namespace foretone::job {
using schedule::Dimension;

MixAnswer mix_pot(const scene::Scene& scene, const scene::Library& library, const PotQuestion& q) {
    std::vector<std::string> names;
    for (const auto& f : scene.finishes) names.push_back(f.name);
    const auto named = q.finish.empty() ? names.begin() : std::find(names.begin(), names.end(), q.finish);
    if (named == names.end())
        throw schedule::Fault("finish-unknown", -1,
                              "there is no finish \"" + q.finish + "\"." + scene::suggestion(q.finish, names));
    const auto f = static_cast<std::size_t>(named - names.begin());
    const auto& finish = scene.finishes[f];
    if (q.step < 1 || static_cast<std::size_t>(q.step) > finish.steps.size())
        throw schedule::Fault("step-unknown", -1,
                              "--step " + std::to_string(q.step) + ": \"" + finish.name + "\" has steps 1 to " +
                                  std::to_string(finish.steps.size()));
    const auto s = static_cast<std::size_t>(q.step - 1);
    const auto& step = finish.steps[s];
    if (q.area.empty() == q.volume.empty())
        throw schedule::Fault("amount-missing", -1, "how much? Say --area 2.5m2 or --volume 500mL");

    MixAnswer a;
    a.units_written = q.units;
    const auto method = schedule::method_of(step, scene.materials);
    const std::string by(material::method_words[static_cast<std::size_t>(method)]);
    double ml = 0;
    if (!q.area.empty()) {
        const double m2 = schedule::amount_in(q.area, Dimension::area, 1e-4, 1e5);
        ml = schedule::ml_for_area(step, scene.materials, m2);
        const double loss = schedule::loss_share(method), used = ml * (1 - loss);
        a.formulas.push_back(fmt::format(
            "volume = wet um x m2 x coats / (1 - loss) = {} x {} x {} / (1 - {}) = {} mL; loss by {}, practice",
            base::at_most(used / m2 / step.coats, 2), base::at_most(m2, 4), step.coats, base::at_most(loss, 2),
            base::at_most(ml, 1), by));
    } else {
        ml = schedule::amount_in(q.volume, Dimension::volume, 0.1, 1e6);
    }
    const auto pot = schedule::pot(step, scene.materials, ml, q.tools);
    a.title =
        finish.name + ", step " + std::to_string(q.step) + ": " + schedule::printed(ml, Dimension::volume, q.units);
    for (const auto& m : pot.measures) {
        MixFigure v{m.id, scene.materials.at(m.id).name, m.measured, m.weighed ? "g" : "mL", 4};
        v.text = schedule::printed_measure(m.measured, m.weighed, q.units);
        a.figures.push_back(std::move(v));
    }
    a.figures.push_back({"total_ml", "makes", pot.measured_ml, "mL", 1});
    const auto errors = rounding_de00(scene, f, s, pot, library, appearance::two_flux_solver());
    for (std::size_t i = 0; i < errors.size(); ++i)
        a.figures.push_back({"rounding_dE00_" + scene.look.lights[i],
                             "color error of rounding, " + scene.look.lights[i], errors[i], "dE00", 3});
    a.formulas.push_back("each measure = nearest whole step of the tool: " + q.tools_text);
    a.formulas.push_back("color error = dE00 of the finished board, as written against as measured");
    a.notes = pot.notes;
    a.cautions = cautions_of(scene.materials, finish);
    return a;
}

}  // namespace foretone::job
