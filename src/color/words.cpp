#include "foretone/color/words.hpp"

#include <cmath>

namespace foretone::color {
namespace {

// Adds the word for one direction, if its step is large enough to name.
void add(std::string& text, double step, const char* up, const char* down) {
    const double size = std::abs(step);
    if (!(size >= word_slightly)) return;
    if (!text.empty()) text += ", ";
    if (size < word_plain) text += "slightly ";
    if (size >= word_much) text += "much ";
    text += step > 0 ? up : down;
}

}  // namespace

std::string describe(const Lab& from, const Lab& to) {
    if (delta_e_00(from, to) < visible_de00) return "no visible difference";
    std::string text;
    add(text, to.l - from.l, "lighter", "darker");
    add(text, to.a - from.a, "redder", "greener");
    add(text, to.b - from.b, "yellower", "bluer");
    add(text, std::hypot(to.a, to.b) - std::hypot(from.a, from.b), "more saturated", "less saturated");
    return text.empty() ? "barely different" : text;
}

}  // namespace foretone::color
