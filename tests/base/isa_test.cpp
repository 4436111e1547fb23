#include "foretone/base/isa.hpp"

#include <fstream>
#include <string>

#include <catch2/catch.hpp>

using foretone::base::Isa;
using foretone::base::widest_isa;

TEST_CASE("The widest instruction set is what the system says the processor has", "[isa]") {
#if defined(__x86_64__) && defined(__linux__)
    std::ifstream in("/proc/cpuinfo");
    std::string line, flags;
    while (std::getline(in, line))
        if (line.starts_with("flags")) flags = line + " ";
    REQUIRE_FALSE(flags.empty());
    const auto has = [&](const char* word) { return flags.find(std::string(" ") + word + " ") != std::string::npos; };
    const Isa due = has("avx512f") && has("avx512dq") ? Isa::avx512 : has("avx2") ? Isa::avx2 : Isa::baseline;
    CHECK(widest_isa() == due);
#else
    CHECK(widest_isa() == Isa::baseline);
#endif
}
