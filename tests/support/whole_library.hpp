#pragma once
/// The library, read once, and all of it as the materials of a job.

#include "foretone/scene/library.hpp"

namespace foretone::test {

inline const scene::Library& library() {
    static const scene::Library lib;
    return lib;
}

inline const material::Materials& whole_library() {
    static const material::Materials materials = library().materials();
    return materials;
}

}  // namespace foretone::test
