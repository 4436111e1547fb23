#include <cstdint>

#include "foretone/scene/problem.hpp"
#include "foretone/scene/scene.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const foretone::scene::Library library;
    try {
        foretone::scene::read_scene_text({reinterpret_cast<const char*>(data), size}, "scene.toml", "/nowhere",
                                         library);
    } catch (const foretone::scene::InputError&) {}
    return 0;
}
