#include "on_wood.hpp"

namespace foretone::job {

scene::Scene on_wood(const scene::Scene& scene, const std::string& id, const scene::Library& library) {
    const auto* entry = library.find(id);
    if (!entry || entry->kind != material::Kind::wood)
        throw scene::InputError(entry ? "material-kind" : "material-unknown", {"--wood"},
                                "'" + id.substr(0, 60) + "' is no wood of the library." +
                                    scene::suggestion(id, library.ids(material::Kind::wood)));
    scene::Scene out = scene;
    out.wood = id;
    out.same_board = false;
    if (!out.materials.count(id)) out.materials.emplace(id, library.material(id));
    return out;
}

}  // namespace foretone::job
