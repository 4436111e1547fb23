#pragma once
/// What must hold of any text that a reader of measured boards is given.

#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "foretone/measure/cgats.hpp"
#include "foretone/measure/read.hpp"

namespace foretone::fuzz {

inline void must(bool holds) {
    if (!holds) std::abort();
}

/// Reads; either Refused with an id, or readings that keep their promises and survive being written and read again.
template <class Reader>
void try_reader(const std::uint8_t* data, std::size_t size, Reader reader) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    measure::Options options;
    options.most_fields = 20'000;
    measure::Readings in;
    try {
        in = reader(text, options);
    } catch (const measure::Refused& e) {
        must(!e.id.empty() && e.what()[0] != '\0');
        return;
    }
    must(!in.readings.empty());
    for (const auto& r : in.readings) {
        must(!r.name.empty() && (r.reflectance || r.lab || r.xyz || r.delta));
        must(!(r.lab || r.xyz || r.delta) || (!r.light.empty() && !r.observer.empty()));
        if (!r.reflectance) continue;
        spectral::check(*r.reflectance);
        for (const double v : r.reflectance->value) must(v >= 0 && v <= 1);
    }
    std::string written;
    try {
        written = measure::write_cgats(in, {});
    } catch (const std::invalid_argument&) {
        return;  // readings that have nothing in common
    }
    measure::Options fraction;
    fraction.percent = false;
    must(measure::read_cgats(written, fraction).readings.size() == in.readings.size());
}

}  // namespace foretone::fuzz
