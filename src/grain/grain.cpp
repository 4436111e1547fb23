#include "foretone/grain/face.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <mutex>
#include <stdexcept>
#include <string>

#include "foretone/base/large_pages.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/parallel.hpp"
#include "grain_face.hpp"

namespace foretone::grain {
namespace {

constexpr int shade_bins = 2600;  // of the shade, 0.0025 wide

using Counts = std::array<std::int64_t, shade_bins>;

std::size_t bin_of(float shade) {
    const float u = (shade - static_cast<float>(Tone::low)) * static_cast<float>(shade_bins / (Tone::high - Tone::low));
    return static_cast<std::size_t>(std::clamp(u, 0.0f, shade_bins - 1.0f));
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

// Rows that one thread draws at a time: a band's margins cost less in high bands, its buffers less in low ones.
int band_rows(int width) { return std::clamp(800000 / width, 16, 64); }

void each_band(int rows, int band, int threads, const std::function<void(int first, int end)>& work) {
    base::parallel_for(static_cast<std::size_t>((rows + band - 1) / band), static_cast<unsigned>(threads),
                       [&](std::size_t i) {
                           const int first = static_cast<int>(i) * band;
                           work(first, std::min(rows, first + band));
                       });
}

void make_room(Maps& maps, int width, int height, double mm_per_px, int threads) {
    maps.width = width, maps.height = height, maps.mm_per_px = mm_per_px;
    const std::size_t pixels = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    std::vector<float>* const all[] = {&maps.shade, &maps.uptake, &maps.rise, &maps.turn, &maps.pore};
    base::parallel_for(std::size(all), static_cast<unsigned>(threads), [&](std::size_t i) {
        if (all[i]->capacity() < pixels) {
            all[i]->reserve(pixels);
            base::prefer_large_pages(all[i]->data() + all[i]->size(), (pixels - all[i]->size()) * sizeof(float));
        }
        all[i]->resize(pixels);
    });
}

float kept_shade(float shade, float add) {
    return std::clamp(shade + add, static_cast<float>(Tone::low), static_cast<float>(Tone::high));
}

float kept_uptake(float uptake, float per) { return std::clamp(uptake * per, 0.05f, 8.0f); }

}  // namespace

Face::Face(Face&&) noexcept = default;
Face& Face::operator=(Face&&) noexcept = default;
Face::~Face() = default;

Face::Face(const material::Wood& wood, Cut cut, int width, int height, double mm_per_px, std::uint64_t seed,
           int threads, Maps* keep)
    : width_(width), height_(height), mm_per_px_(mm_per_px) {
    check(width, height, mm_per_px);
    face_ = std::make_unique<BoardFace>(wood, wood.grain ? *wood.grain : material::plain_grain(), cut, width, height,
                                        mm_per_px, hash(seed, static_cast<std::int64_t>(cut), 1) | seed << 32, threads);
    if (keep) make_room(*keep, width, height, mm_per_px, threads);
    // Sums by row and counts are whole, so that no order of the threads can change them.
    std::vector<double> drunk(static_cast<std::size_t>(height), 0.0);
    Counts counts{};
    float low = 1e9F, high = -1e9F, most = 0;
    std::mutex lock;
    each_band(height, band_rows(width), threads, [&](int first, int end) {
        Maps own_maps;
        if (!keep) make_room(own_maps, width, end - first, mm_per_px, 1);
        Maps& maps = keep ? *keep : own_maps;
        const int origin = keep ? 0 : first;
        face_->paint(maps, origin, first, end);
        Counts own{};
        float own_low = 1e9F, own_high = -1e9F, own_most = 0;
        for (int y = first; y < end; ++y) {
            double& sum = drunk[static_cast<std::size_t>(y)];
            for (std::size_t i = maps.at(0, y - origin); i < maps.at(0, y - origin + 1); ++i) {
                sum += static_cast<double>(maps.uptake[i]);
                ++own[bin_of(maps.shade[i])];
                own_low = std::min(own_low, maps.shade[i]), own_high = std::max(own_high, maps.shade[i]);
                own_most = std::max(own_most, maps.uptake[i]);
            }
        }
        const std::lock_guard guard(lock);
        low = std::min(low, own_low), high = std::max(high, own_high), most = std::max(most, own_most);
        for (std::size_t b = 0; b < shade_bins; ++b) counts[b] += own[b];
    });
    double total = 0;
    for (const double row : drunk) total += row;
    const std::size_t pixels = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    per_ = static_cast<float>(static_cast<double>(pixels) / total);
    add_ = static_cast<float>(offset(face_->tone(), counts, static_cast<std::int64_t>(pixels)));
    range_ = {kept_shade(low, add_), kept_shade(high, add_), kept_uptake(most, per_), pixels};
    if (keep) each_band(height, band_rows(width), threads, [&](int first, int end) { finish(*keep, first, end); });
}

void Face::finish(Maps& maps, int first, int end) const {
    const std::size_t from = maps.at(0, first), count = maps.at(0, end) - from;
    finish_pixels(base::widest_isa(), &maps.shade[from], &maps.uptake[from], static_cast<int>(count), add_, per_,
                  static_cast<float>(Tone::low), static_cast<float>(Tone::high));
}

void Face::draw(Maps& maps, int first, int end, int threads) const {
    make_room(maps, width_, end - first, mm_per_px_, threads);
    each_band(end - first, band_rows(width_), threads, [&](int from, int to) {
        face_->paint(maps, first, first + from, first + to);
        finish(maps, from, to);
    });
}

Maps grain(const material::Wood& wood, Cut cut, int width, int height, double mm_per_px, std::uint64_t seed,
           int threads) {
    Maps maps;
    const Face face(wood, cut, width, height, mm_per_px, seed, threads, &maps);
    return maps;
}

}  // namespace foretone::grain
