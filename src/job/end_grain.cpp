#include "foretone/job/end_grain.hpp"

#include "foretone/appearance/tones.hpp"
#include "foretone/appearance/uneven.hpp"

namespace foretone::job {

void see_end_grain(Preview& preview, const scene::Library& library, const appearance::Solver& solver) {
    const auto& scene = preview.scene;
    const auto& wood = std::get<material::Wood>(scene.materials.at(scene.wood).data);
    if (!wood.grain)
        throw scene::InputError("end-grain-unknown", {scene.file},
                                "how much the ends of " + preview.wood_name +
                                    " take is not known: give [material.ID.grain] end_uptake, or a wood that has it");
    const auto observer = library.observer(scene.look.observer);
    for (std::size_t i = 0; i < preview.finishes.size(); ++i) {
        const auto board = appearance::at_uptake(
            appearance::boards(scene.materials, scene.wood, scene.finishes[i]).back(), wood.grain->end_uptake.value);
        SeenStage end;
        end.stage = preview.finishes[i].stages.back().stage;
        end.stage.account = board.account;
        end.stage.reading = appearance::render(board, wood, scene.look.geometry, solver);
        end.reflectance = end.stage.reading.total();
        for (const auto& light : scene.look.lights)
            end.colors.push_back(see(end.reflectance, light, color::make_weights(library.illuminant(light), observer)));
        end.uneven_de00 =
            appearance::uneven_de00(appearance::tenths(board, wood, scene.look.geometry, solver),
                                    color::make_weights(library.illuminant(scene.look.lights.front()), observer));
        preview.finishes[i].end_grain = std::move(end);
    }
}

}  // namespace foretone::job
