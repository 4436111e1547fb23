#include <cstdint>

#include "foretone/scene/problem.hpp"
#include "foretone/scene/spectrum_file.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        const auto s = foretone::scene::read_reflectance({reinterpret_cast<const char*>(data), size}, "spectrum.csv");
        foretone::spectral::to_grid(s);
    } catch (const foretone::scene::InputError&) {}
    return 0;
}
