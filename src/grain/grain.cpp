#include "foretone/grain/grain.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <mutex>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"
#include "foretone/base/parallel.hpp"
#include "grain_face.hpp"

namespace foretone::grain {
namespace {

constexpr int shade_bins = 2600;  // of the shade, 0.0025 wide

using Counts = std::array<std::int64_t, shade_bins>;

std::size_t bin_of(float shade) {
    const double u = (static_cast<double>(shade) - Tone::low) * (shade_bins / (Tone::high - Tone::low));
    return static_cast<std::size_t>(std::clamp(u, 0.0, shade_bins - 1.0));
}

// What to add to every shade so that the mean brightness is that of shade 0: the counts change with the offset
// smoothly, so halving finds it.
double offset(const Tone& tone, const Counts& counts, std::int64_t pixels) {
    const double due = static_cast<double>(tone.bright(0)) * static_cast<double>(pixels);
    double low = -2, high = 2;
    for (int n = 0; n < 40; ++n) {
        const double mid = 0.5 * (low + high);
        double sum = 0;
        for (std::size_t b = 0; b < shade_bins; ++b)
            if (counts[b]) {
                const double shade =
                    Tone::low + (static_cast<double>(b) + 0.5) * ((Tone::high - Tone::low) / shade_bins);
                sum +=
                    static_cast<double>(counts[b]) * static_cast<double>(tone.bright(static_cast<float>(shade + mid)));
            }
        (sum > due ? low : high) = mid;
    }
    return 0.5 * (low + high);
}

void check(int width, int height, double mm_per_px) {
    if (width < 1 || height < 1 || width > 20000 || height > 20000)
        throw std::invalid_argument("grain::grain: both sides must be 1 to 20000 pixels, got " + std::to_string(width) +
                                    " x " + std::to_string(height));
    if (!(mm_per_px >= 0.005 && mm_per_px <= 5))
        throw std::invalid_argument("grain::grain: mm_per_px must be 0.005 to 5, got " + base::shortest(mm_per_px));
    if (std::max(width, height) * mm_per_px > 6000)
        throw std::invalid_argument("grain::grain: a board is at most 6000 mm long, got " +
                                    base::shortest(std::max(width, height) * mm_per_px));
}

}  // namespace

Maps grain(const material::Wood& wood, Cut cut, int width, int height, double mm_per_px, std::uint64_t seed,
           int threads) {
    check(width, height, mm_per_px);
    const BoardFace face(wood, wood.grain ? *wood.grain : material::plain_grain(), cut, width, height, mm_per_px,
                         hash(seed, static_cast<std::int64_t>(cut), 1) | seed << 32);
    const std::size_t pixels = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    Maps maps{width, height, mm_per_px, {}, {}, {}, {}, {}};
    for (auto* map : {&maps.shade, &maps.uptake, &maps.rise, &maps.turn, &maps.pore}) map->resize(pixels);

    // Sums by row and counts are whole, so that no order of the threads can change them.
    std::vector<double> drunk(static_cast<std::size_t>(height), 0.0);
    Counts counts{};
    std::mutex lock;
    base::parallel_rows(height, threads, [&](int first, int end) {
        face.paint(maps, first, end);
        Counts own{};
        for (int y = first; y < end; ++y)
            for (int x = 0; x < width; ++x) {
                drunk[static_cast<std::size_t>(y)] += static_cast<double>(maps.uptake[maps.at(x, y)]);
                ++own[bin_of(maps.shade[maps.at(x, y)])];
            }
        const std::lock_guard guard(lock);
        for (std::size_t b = 0; b < shade_bins; ++b) counts[b] += own[b];
    });
    double total = 0;
    for (const double row : drunk) total += row;
    const auto per = static_cast<float>(static_cast<double>(pixels) / total);
    const auto add = static_cast<float>(offset(face.tone(), counts, static_cast<std::int64_t>(pixels)));
    base::parallel_rows(height, threads, [&](int first, int end) {
        for (std::size_t i = maps.at(0, first); i < maps.at(0, end); ++i) {
            maps.shade[i] =
                std::clamp(maps.shade[i] + add, static_cast<float>(Tone::low), static_cast<float>(Tone::high));
            maps.uptake[i] = std::clamp(maps.uptake[i] * per, 0.05f, 8.0f);
        }
    });
    return maps;
}

}  // namespace foretone::grain
