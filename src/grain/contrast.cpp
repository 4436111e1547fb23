#include "foretone/grain/tenths.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <string>

namespace foretone::grain {
namespace {

constexpr std::size_t order_bins = 8192;

// Values at which the lowest and the highest tenth begin, from a histogram between the extremes: exact to a bin.
std::pair<float, float> tenths(const std::vector<float>& values) {
    const auto [low, high] = std::minmax_element(values.begin(), values.end());
    const float width = std::max(1e-6F, *high - *low) / static_cast<float>(order_bins - 1);
    std::array<std::size_t, order_bins> count{};
    for (const float v : values) ++count[static_cast<std::size_t>((v - *low) / width)];
    const std::size_t tenth = std::max<std::size_t>(1, values.size() / 10);
    std::size_t from_low = 0, from_high = order_bins - 1;
    for (std::size_t sum = count[0]; sum < tenth; sum += count[from_low]) ++from_low;
    for (std::size_t sum = count[order_bins - 1]; sum < tenth; sum += count[from_high]) --from_high;
    return {*low + width * static_cast<float>(from_low + 1), *low + width * static_cast<float>(from_high)};
}

}  // namespace

Contrast contrast(const Maps& maps, const appearance::ToneTable& tones, const std::vector<float>& order) {
    if (order.empty() || order.size() != maps.shade.size())
        throw std::invalid_argument("contrast: " + std::to_string(maps.shade.size()) + " pixels in an order of " +
                                    std::to_string(order.size()));
    const auto [below, above] = tenths(order);
    std::array<double, 3> pale{}, dark{};
    std::size_t pales = 0, darks = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
        const bool is_pale = order[i] <= below, is_dark = order[i] >= above;
        if (!is_pale && !is_dark) continue;
        const auto c = tones.reading(maps.shade[i], maps.uptake.empty() ? 1.0 : static_cast<double>(maps.uptake[i]),
                                     tones.pore_at(maps.pore, i));
        auto& sum = is_pale ? pale : dark;
        (is_pale ? pales : darks) += 1;
        sum[0] += c.x;
        sum[1] += c.y;
        sum[2] += c.z;
    }
    const auto mean = [](const std::array<double, 3>& sum, std::size_t n) {
        const double each = 1 / static_cast<double>(std::max<std::size_t>(1, n));
        return color::Xyz{sum[0] * each, sum[1] * each, sum[2] * each};
    };
    const color::Xyz p = mean(pale, pales),
                     d = darks > 0 ? mean(dark, darks) : p;  // all alike: everything is the palest tenth
    Contrast out{color::to_lab(p, tones.white()), color::to_lab(d, tones.white()), 0, p.y / d.y};
    out.lightness = out.pale.l - out.dark.l;
    return out;
}

Contrast contrast(const Maps& maps, const appearance::ToneTable& tones) {
    Tenths tenths(tones);
    tenths.widen(maps.shade, maps.uptake, maps.pore);
    tenths.count(maps.shade, maps.uptake, maps.pore);
    return tenths.contrast();
}

}  // namespace foretone::grain
