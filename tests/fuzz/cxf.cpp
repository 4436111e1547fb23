#include "foretone/measure/cxf.hpp"
#include "readings.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    foretone::fuzz::try_reader(data, size, [](std::string_view text, const auto& options) {
        return foretone::measure::read_cxf(text, options);
    });
    return 0;
}
