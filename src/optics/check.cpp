// Whether a stack can be computed: one scan of each coefficient array, and the place of the first fault if there is
// one.

#include <cmath>
#include <cstdint>
#include <limits>
#include <stdexcept>
#include <string>
#include <vector>

#include "foretone/base/bits.hpp"
#include "foretone/base/number.hpp"
#include "foretone/optics/stack.hpp"

namespace foretone::optics {
namespace {

[[noreturn]] void fail(const std::string& place, const std::string& what) {
    throw std::invalid_argument("stack: " + place + ": " + what);
}

using base::shortest;

/// All of `values` in 0–`top`; NaN fails. By bits, without an early exit, so that the scan of a good array is a few
/// vector instructions: non-negative doubles are ordered as their bits are, negative ones and differences below zero
/// set the top bit.
bool all_within(const std::vector<double>& values, double top) {
    const auto limit = base::bit_cast<std::uint64_t>(top);
    std::uint64_t bad = 0;
    for (const double v : values) {
        const auto bits = base::bit_cast<std::uint64_t>(v + 0.0);  // −0 becomes 0
        bad |= bits | (limit - bits);
    }
    return bad >> 63 == 0;
}

// `where` names the place: asked only when something is wrong.
template <class Where>
void check_array(const std::vector<double>& values, std::size_t wavelengths, double top, const Where& where,
                 const char* name) {
    if (values.size() != wavelengths) {
        fail(where(), std::string(name) + " has " + std::to_string(values.size()) + " entries for " +
                          std::to_string(wavelengths) + " wavelengths");
    }
    if (all_within(values, top)) return;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (values[i] >= 0 && values[i] <= top) continue;
        const std::string range = top == 1 ? "0 to 1" : "0 or more and finite";
        const std::string at = std::string(name) + " at wavelength index " + std::to_string(i);
        fail(where(), at + " is " + shortest(values[i]) + ", not " + range);
    }
}

void check_half_space(const Layer& layer, const std::string& place) {
    for (std::size_t i = 0; i < layer.absorption_per_mm.size(); ++i) {
        const double scattering = layer.scattering_per_mm.empty() ? 0.0 : layer.scattering_per_mm[i];
        if (layer.absorption_per_mm[i] == 0 && scattering == 0) {
            fail(place, "infinite thickness with zero absorption and zero scattering at wavelength index " +
                            std::to_string(i));
        }
    }
}

void check_layer(const Layer& layer, std::size_t wavelengths, bool last, std::size_t number) {
    const auto where = [number] { return "layer " + std::to_string(number); };
    if (!(layer.n >= 1 && layer.n <= 3)) fail(where(), "index " + shortest(layer.n) + ", not 1 to 3");
    if (!(layer.thickness_mm > 0)) fail(where(), "thickness " + shortest(layer.thickness_mm) + " mm, not above 0");
    if (!(layer.anisotropy > -1 && layer.anisotropy < 1)) {
        fail(where(), "anisotropy " + shortest(layer.anisotropy) + ", not between -1 and 1");
    }
    if (std::isinf(layer.thickness_mm) && !last) fail(where(), "infinite thickness above another layer");
    constexpr double largest = std::numeric_limits<double>::max();
    check_array(layer.absorption_per_mm, wavelengths, largest, where, "absorption_per_mm");
    if (!layer.scattering_per_mm.empty()) {
        check_array(layer.scattering_per_mm, wavelengths, largest, where, "scattering_per_mm");
    }
    if (std::isinf(layer.thickness_mm)) check_half_space(layer, where());
}

}  // namespace

void check(const Stack& stack) {
    for (std::size_t i = 0; i < stack.layers.size(); ++i) {
        check_layer(stack.layers[i], stack.wavelengths, i + 1 == stack.layers.size(), i + 1);
    }
    if (stack.base.kind == Base::Kind::lambertian) {
        check_array(
            stack.base.reflectance, stack.wavelengths, 1, [] { return std::string("base"); }, "reflectance");
    }
}

}  // namespace foretone::optics
