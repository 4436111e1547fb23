#include "foretone/job/stoppable.hpp"

namespace foretone::job {

bool Going::leave(const std::string& what, std::size_t done, std::size_t all) const {
    if (told) told(what + ": " + std::to_string(done) + " of " + std::to_string(all));
    if (done == all || !stop || !stop()) return false;
    if (done == 0) throw Stopped{};
    return true;
}

Boards boards(const scene::Scene& scene, const scene::Library& library, const BoardRequest& request) {
    return boards(scene, library, request, {});
}

Export export_scene(const scene::Scene& scene, const scene::Library& library, const ExportRequest& request,
                    const std::filesystem::path& folder) {
    return export_scene(scene, library, request, folder, {});
}

BoardPhoto board_photo(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver,
                       const BoardPhotoQuestion& question, const PhotoSink& sink) {
    return board_photo(scene, library, solver, question, sink, {});
}

}  // namespace foretone::job
