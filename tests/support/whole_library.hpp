#pragma once
/// The library, read once, and all of it as the materials of a job.

#include "foretone/scene/library.hpp"

namespace foretone::test {

inline const scene::Library& library() {
    static const scene::Library lib;
    return lib;
}

inline const material::Materials& whole_library() {
    static const material::Materials materials = [] {
        material::Materials s;
        for (const auto& id : library().ids()) s[id] = library().material(id);
        return s;
    }();
    return materials;
}

}  // namespace foretone::test
