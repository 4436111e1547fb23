// Readings are sorted into bins of one width between the palest and the darkest, each with its sum: a tenth is so many
// whole bins from either end.

#include "foretone/grain/tenths.hpp"

#include <algorithm>
#include <stdexcept>

namespace foretone::grain {
namespace {

constexpr std::size_t tenth_bins = 8192;

float darkness_of(const color::Xyz& c) { return static_cast<float>(-c.y); }

}  // namespace

void Tenths::widen(std::span<const float> shade, std::span<const float> uptake, std::span<const float> pore) {
    for (std::size_t i = 0; i < shade.size(); ++i) {
        const float v = darkness_of(
            tones_.reading(shade[i], uptake.empty() ? 1.0 : static_cast<double>(uptake[i]), tones_.pore_at(pore, i)));
        low_ = std::min(low_, v), high_ = std::max(high_, v);
    }
}

void Tenths::count(std::span<const float> shade, std::span<const float> uptake, std::span<const float> pore) {
    bins_.resize(tenth_bins);
    const float width = std::max(1e-6F, high_ - low_) / static_cast<float>(tenth_bins - 1);
    for (std::size_t i = 0; i < shade.size(); ++i) {
        const auto c =
            tones_.reading(shade[i], uptake.empty() ? 1.0 : static_cast<double>(uptake[i]), tones_.pore_at(pore, i));
        Bin& bin = bins_[std::min(tenth_bins - 1, static_cast<std::size_t>((darkness_of(c) - low_) / width))];
        ++bin.spots;
        bin.xyz[0] += c.x;
        bin.xyz[1] += c.y;
        bin.xyz[2] += c.z;
    }
    spots_ += shade.size();
}

Contrast Tenths::contrast() const {
    if (spots_ == 0) throw std::invalid_argument("contrast: a board without pixels");
    const std::size_t tenth = std::max<std::size_t>(1, spots_ / 10);
    const auto add = [](Bin& sum, const Bin& bin) {
        sum.spots += bin.spots;
        for (std::size_t c = 0; c < 3; ++c) sum.xyz[c] += bin.xyz[c];
    };
    Bin pale, dark;
    std::size_t from = 0;
    while (pale.spots < tenth) add(pale, bins_[from++]);
    for (std::size_t b = tenth_bins; b > from && dark.spots < tenth;) add(dark, bins_[--b]);
    const auto mean = [](const Bin& sum) {
        const double each = 1 / static_cast<double>(sum.spots);
        return color::Xyz{sum.xyz[0] * each, sum.xyz[1] * each, sum.xyz[2] * each};
    };
    const color::Xyz p = mean(pale), d = dark.spots > 0 ? mean(dark) : p;  // all alike: everything is the palest tenth
    Contrast out{color::to_lab(p, tones_.white()), color::to_lab(d, tones_.white()), 0, p.y / d.y};
    out.lightness = out.pale.l - out.dark.l;
    return out;
}

}  // namespace foretone::grain
