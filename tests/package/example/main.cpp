// The finished colors of a scene: example SCENE.
#include <foretone/job/preview.hpp>
#include <foretone/scene/library.hpp>
#include <iostream>

int main(int, char** argv) {
    using namespace foretone;
    const scene::Library library;
    const auto scene = scene::read_scene(argv[1], library);
    const auto preview = job::preview(scene, library, appearance::two_flux_solver());
    for (const auto& finish : preview.finishes)
        for (const auto& color : finish.stages.back().colors)
            std::cout << finish.name << ", " << color.light << ": " << color.screen.hex() << "\n";
}
