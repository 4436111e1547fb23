#include "foretone/job/pot_color.hpp"

#include "foretone/appearance/stages.hpp"
#include "foretone/job/preview.hpp"

namespace foretone::job {

std::vector<double> rounding_de00(const scene::Scene& scene, std::size_t finish, std::size_t step,
                                  const schedule::Pot& pot, const scene::Library& library,
                                  const appearance::Solver& solver) {
    const auto& as_written = scene.finishes.at(finish);
    auto as_measured = as_written;
    as_measured.steps.at(step) = pot.step;
    const auto finished = [&](const schedule::Finish& f) {
        return appearance::stages(scene.materials, scene.wood, f, scene.look.geometry, solver)
            .stages.back()
            .reading.total();
    };
    const auto a = finished(as_written), b = finished(as_measured);
    const auto observer = library.observer(scene.look.observer);
    std::vector<double> out;
    for (const auto& id : scene.look.lights) {
        const auto weights = color::make_weights(library.illuminant(id), observer);
        out.push_back(color::delta_e_00(see(a, id, weights).lab, see(b, id, weights).lab));
    }
    return out;
}

}  // namespace foretone::job
