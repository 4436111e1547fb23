#include <cstdint>

#include "foretone/scene/material_file.hpp"
#include "foretone/scene/problem.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    foretone::scene::Problems problems;
    try {
        foretone::scene::read_material_file({reinterpret_cast<const char*>(data), size}, "material.toml", "material",
                                            problems);
    } catch (const foretone::scene::InputError&) {}
    return 0;
}
