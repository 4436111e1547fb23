#include <cstdint>

#include "foretone/scene/problem.hpp"
#include "foretone/scene/stack_file.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        foretone::scene::read_stack_text({reinterpret_cast<const char*>(data), size}, "stack.toml");
    } catch (const foretone::scene::InputError&) {}
    return 0;
}
