// Patches of a photograph, relative to a white card in it.
//
// Symbols: c mean linear channel values of the card · p those of a patch · ρ the card's reflectance.
// Each channel is scaled by ρ/c, which takes out exposure and, channel by channel, the color of the light (a von Kries
// scaling in the camera's primaries). What stays is p·ρ/c: a reflectance in three bands, read as sRGB. Means are taken
// of linear light, because light adds and codes do not. Errors that no scaling takes out: a camera's bands are not an
// observer's, so that two boards that look alike may differ here and the other way round; light that falls off from the
// card to the board; gloss. Hence: for differences of alike boards only.

#include "foretone/measure/photo_patches.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "foretone/base/number.hpp"
#include "foretone/color/srgb.hpp"

namespace foretone::measure {
namespace {

using Rgb = std::array<double, 3>;

struct Patch {
    Rgb mean{};
    double clipped = 0;  ///< share of its pixels
};

std::string percent(double share) { return base::shortest(std::round(share * 1000) / 10) + " %"; }

std::string words(const Rect& r) {
    return std::to_string(r.x) + "," + std::to_string(r.y) + "," + std::to_string(r.width) + "," +
           std::to_string(r.height);
}

[[noreturn]] void refuse(const std::string& id, const Rect& r, const std::string& text) {
    throw Refused(id, 0, 0, words(r), text);
}

Patch mean_of(const PixelView& pixels, const Rect& r, double clip) {
    Patch out;
    for (int y = r.y; y < r.y + r.height; ++y)
        for (int x = r.x; x < r.x + r.width; ++x) {
            const float* p = &pixels.rgb[3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(pixels.width) +
                                              static_cast<std::size_t>(x))];
            for (std::size_t c = 0; c < 3; ++c) out.mean[c] += static_cast<double>(p[c]);
            out.clipped += std::max({p[0], p[1], p[2]}) > static_cast<float>(clip) ? 1 : 0;
        }
    const double n = static_cast<double>(r.width) * r.height;
    for (double& v : out.mean) v /= n;
    out.clipped /= n;
    return out;
}

void check_place(const PixelView& pixels, const Rect& r, const std::string& kind, const std::string& name, int least) {
    // Compared in 64 bits: x + width may be beyond an int.
    const bool inside = r.x >= 0 && r.y >= 0 && r.width > 0 && r.height > 0 &&
                        static_cast<long long>(r.x) + r.width <= pixels.width &&
                        static_cast<long long>(r.y) + r.height <= pixels.height;
    if (!inside)
        refuse(kind + "-outside", r,
               name + " is at " + words(r) + " (x,y,width,height), which is not within the picture of " +
                   std::to_string(pixels.width) + " x " + std::to_string(pixels.height) + " pixels");
    if (std::min(r.width, r.height) < least)
        refuse(kind + "-small", r,
               name + " is " + std::to_string(r.width) + " x " + std::to_string(r.height) + " pixels; at least " +
                   std::to_string(least) + " a side are needed");
}

bool overlap(const Rect& a, const Rect& b) {
    return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

// Half the range of the means of nine fields of the card, over its mean; the worst channel.
double unevenness(const PixelView& pixels, const Rect& card, const Rgb& mean) {
    Rgb low{}, high{};
    for (int i = 0; i < 9; ++i) {
        const int column = i % 3, row = i / 3;
        const Rect field{card.x + card.width * column / 3, card.y + card.height * row / 3,
                         card.width * (column + 1) / 3 - card.width * column / 3,
                         card.height * (row + 1) / 3 - card.height * row / 3};
        const auto m = mean_of(pixels, field, 1).mean;
        for (std::size_t c = 0; c < 3; ++c) {
            low[c] = i == 0 ? m[c] : std::min(low[c], m[c]);
            high[c] = i == 0 ? m[c] : std::max(high[c], m[c]);
        }
    }
    double worst = 0;
    for (std::size_t c = 0; c < 3; ++c) worst = std::max(worst, (high[c] - low[c]) / 2 / mean[c]);
    return worst;
}

Rgb read_card(const PixelView& pixels, const Rect& card, const CardRules& rules, std::vector<Note>& notes) {
    check_place(pixels, card, "card", "the card", std::max(3, rules.least_side));
    const auto c = mean_of(pixels, card, rules.clipped);
    if (c.clipped > rules.most_clipped)
        refuse("card-clipped", card,
               percent(c.clipped) +
                   " of the card's pixels are overexposed; expose so that the card stays below white, and photograph "
                   "again");
    const double weakest = *std::min_element(c.mean.begin(), c.mean.end());
    if (!(weakest >= rules.darkest))
        refuse("card-dark", card,
               "the card reads " + percent(std::max(0.0, weakest)) +
                   " of full exposure in its weakest channel; at least " + percent(rules.darkest) +
                   " is needed: give more light or exposure");
    const double uneven = unevenness(pixels, card, c.mean);
    if (uneven > rules.most_uneven)
        refuse("card-uneven", card,
               "the card is uneven by " + percent(uneven) + " of its mean; at most " + percent(rules.most_uneven) +
                   " will do: is the rectangle on the card alone, in one light?");
    if (uneven > rules.noted_uneven)
        notes.push_back({"light-uneven", 0, 0,
                         "the light changes over the card by " + percent(uneven) +
                             " of its mean; boards away from the card are off by as much or more"});
    return c.mean;
}

color::Lab lab_of(const Rgb& linear) {
    Rgb encoded{};
    for (std::size_t c = 0; c < 3; ++c) encoded[c] = color::srgb_encode(linear[c]);
    return color::to_lab(color::srgb_to_xyz(encoded), color::srgb_white);
}

void check_pixels(const PixelView& pixels, const CardRules& rules) {
    const auto due =
        static_cast<std::size_t>(std::max(0, pixels.width)) * static_cast<std::size_t>(std::max(0, pixels.height)) * 3;
    if (due == 0 || pixels.rgb.size() != due)
        throw std::invalid_argument("photograph: " + std::to_string(pixels.rgb.size()) + " values for " +
                                    std::to_string(pixels.width) + " x " + std::to_string(pixels.height) + " pixels");
    if (!(rules.reflectance >= 0.05 && rules.reflectance <= 1))
        throw std::invalid_argument("photograph: the card's reflectance is " + base::shortest(rules.reflectance) +
                                    ", not from 0.05 to 1");
}

}  // namespace

Readings read_patches(const PixelView& pixels, const Rect& card, const std::vector<NamedRect>& patches,
                      const CardRules& rules) {
    check_pixels(pixels, rules);
    Readings out{"photograph", {}, {}, {}};
    out.notes.push_back({"photo-relative", 0, 0,
                         "read from a photograph, relative to its card: good for comparing boards within the picture, "
                         "not for the color of a board by itself"});
    const Rgb white = read_card(pixels, card, rules, out.notes);
    if (patches.empty())
        throw Refused("patches-none", 0, 0, "",
                      "no patch is named beside the card; give each board a name and a rectangle");
    std::set<std::string> names;
    for (const auto& [name, rect] : patches) {
        if (!names.insert(name).second) refuse("patch-twice", rect, "there are two patches named '" + name + "'");
        check_place(pixels, rect, "patch", "the patch '" + name + "'", rules.least_side);
        if (overlap(rect, card)) refuse("patch-on-card", rect, "the patch '" + name + "' lies on the card");
        const auto p = mean_of(pixels, rect, rules.clipped);
        if (p.clipped > 0.5)
            refuse("patch-clipped-whole", rect,
                   percent(p.clipped) + " of the patch '" + name + "' is overexposed; nothing can be read there");
        if (p.clipped > rules.most_clipped)
            out.notes.push_back({"patch-clipped", 0, 0,
                                 percent(p.clipped) + " of the patch '" + name +
                                     "' is overexposed (gloss?): it reads too pale or too dull"});
        Rgb scaled{};
        for (std::size_t c = 0; c < 3; ++c) scaled[c] = p.mean[c] * rules.reflectance / white[c];
        if (!std::isfinite(scaled[0] + scaled[1] + scaled[2]))
            throw std::invalid_argument("photograph: a pixel of '" + name + "' is not finite");
        Reading r;
        r.name = name;
        r.tags["source"] = "photograph";
        r.relative = true;
        r.lab = lab_of(scaled);
        r.light = "D65";
        r.observer = "2deg";
        out.readings.push_back(std::move(r));
    }
    return out;
}

}  // namespace foretone::measure
