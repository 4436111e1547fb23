// Words for a difference. At equal lightness a difference of color is one of chroma (how far from grey) and one of hue
// (which way), not one of a* and b*: of two browns the paler in color is lower in both, and nobody calls that greener
// and bluer. Bare woods and browns are so near to grey that the change itself is what is seen, as a cast.
//
// Symbols: C* = √(a*² + b*²) · h hue angle · ΔC* along the radius · ΔH* = 2 √(C1* C2*) sin(Δh/2) across it, above 0 if
// the hue turns from red towards yellow.

#include "foretone/color/words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace foretone::color {
namespace {

constexpr double per_degree = std::numbers::pi / 180;

// Where the names of hues meet on CIELAB's circle, degrees, and orange, the hue of warmth.
constexpr double red = 20, yellow = 92, green = 165, blue = 265, orange = 64;

struct Word {
    double size;
    const char* text;
};

double hue(double a, double b) {
    const double h = std::atan2(b, a) / per_degree;
    return h < 0 ? h + 360 : h;
}

// A color between red and yellow: wood, and nearly all that is put on it.
bool is_warm(double h) { return h >= red && h <= yellow + 8; }

// The name of the next hue when turning up (towards yellow, from red) or down from `h`.
const char* turned(double h, bool up) {
    struct Name {
        double at;
        const char* word;
    };
    constexpr std::array<Name, 6> circle = {{{blue - 360, "bluer"},
                                             {red, "redder"},
                                             {yellow, "yellower"},
                                             {green, "greener"},
                                             {blue, "bluer"},
                                             {red + 360, "redder"}}};
    const auto above = std::find_if(circle.begin() + 1, circle.end(), [&](const Name& n) { return n.at > h; });
    return up ? above->word : (above - 1)->word;
}

// The change of a*, b* itself, by six directions of 60° each around orange.
Word cast(double da, double db, bool both_warm) {
    const double size = std::hypot(da, db), from_orange = std::fmod(hue(da, db) - orange + 360 + 30, 360);
    const char* const words[] = {
        "warmer", "yellower", both_warm ? "less red" : "greener", "cooler", both_warm ? "less yellow" : "bluer",
        "redder"};
    return {size, words[std::min(static_cast<std::size_t>(from_orange / 60), std::size_t{5})]};
}

void add_color(const Lab& from, const Lab& to, std::vector<Word>& words) {
    const double c1 = std::hypot(from.a, from.b), c2 = std::hypot(to.a, to.b);
    const double h1 = hue(from.a, from.b), h2 = hue(to.a, to.b);
    const bool grey = std::min(c1, c2) < grey_chroma, both_warm = !grey && is_warm(h1) && is_warm(h2);
    if (grey || (c1 + c2) / 2 < cast_chroma) {
        words.push_back(cast(to.a - from.a, to.b - from.b, both_warm));
        return;
    }
    double turn = h2 - h1;
    if (turn > 180) turn -= 360;
    if (turn < -180) turn += 360;
    const double chroma = c2 - c1, across = 2 * std::sqrt(c1 * c2) * std::sin(turn * per_degree / 2);
    const double middle = std::fmod(h1 + turn / 2 + 360, 360);
    if (both_warm && std::abs(chroma) >= word_slightly && std::abs(across) >= word_slightly &&
        std::min(std::abs(chroma), std::abs(across)) > std::max(std::abs(chroma), std::abs(across)) / 5) {
        const bool to_orange = std::abs(h2 - orange) < std::abs(h1 - orange);
        if ((chroma > 0) == to_orange) {
            words.push_back({std::hypot(chroma, across), chroma > 0 ? "warmer" : "cooler"});
            return;
        }
    }
    const char* const turn_word = both_warm ? (across > 0 ? "yellower" : "redder") : turned(middle, across > 0);
    const Word turn_by{std::abs(across), turn_word}, strength{std::abs(chroma), chroma > 0 ? "stronger" : "duller"};
    if (turn_by.size >= strength.size / 5) words.push_back(turn_by);
    if (strength.size >= turn_by.size / 5) words.push_back(strength);
}

std::string named(const Lab& from, const Lab& to) {
    std::vector<Word> words = {{std::abs(to.l - from.l), to.l > from.l ? "paler" : "darker"}};
    add_color(from, to, words);
    double largest = 0;
    for (const auto& w : words) largest = std::max(largest, w.size);
    std::string text;
    for (const auto& w : words) {
        if (!(w.size >= word_slightly) || (w.size < word_plain && w.size < largest / 5)) continue;
        if (!text.empty()) text += ", ";
        if (w.size < word_plain) text += "slightly ";
        if (w.size >= word_much) text += "much ";
        text += w.text;
    }
    return text.empty() ? "barely different" : text;
}

Lab as_lab(const Appearance& seen) {
    const double h = seen.hue_deg * per_degree;
    return {seen.lightness, seen.chroma * std::cos(h), seen.chroma * std::sin(h)};
}

constexpr const char* none = "no visible difference";

}  // namespace

std::string describe(const Lab& from, const Lab& to) {
    return delta_e_00(from, to) < visible_de00 ? none : named(from, to);
}

std::string describe(const Appearance& from, const Appearance& to) {
    return delta_e_ucs(ucs(from), ucs(to)) < visible_ucs ? none : named(as_lab(from), as_lab(to));
}

}  // namespace foretone::color
