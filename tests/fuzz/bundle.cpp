#include <cstdint>

#include "foretone/scene/bundle.hpp"
#include "foretone/scene/problem.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    foretone::scene::BundleLimits limits;
    limits.bytes = limits.entry = std::size_t(1) << 20;
    try {
        const foretone::scene::Bundle bundle({reinterpret_cast<const char*>(data), size}, "job.zip", limits);
        for (const auto& name : bundle.names()) bundle.read(name, limits.entry);
        bundle.scene();
    } catch (const foretone::scene::InputError&) {}
    return 0;
}
