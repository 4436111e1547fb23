#include "foretone/layout/typeface.hpp"

#include <array>
#include <atomic>
#include <cstdint>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"
#include "font_data.hpp"

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#define STBTT_STATIC
#define STB_TRUETYPE_IMPLEMENTATION
#include <stb_truetype.h>
#pragma GCC diagnostic pop

namespace foretone::layout {
namespace {

/// Answers kept by their question: a page asks for the same few hundred pairs of letters thousands of times, and the
/// face searches its tables for each. Slots are written whole: any thread reads an answer or none.
class Kept {
public:
    template <class Answer>
    int of(std::uint32_t question, const Answer& answer) const {
        auto& slot = slots_[question * 2654435761u >> 19];  // Fibonacci hashing to 13 bits
        const std::uint64_t kept = slot.load(std::memory_order_relaxed);
        if (kept != 0 && kept >> 32 == question) return static_cast<int>(static_cast<std::uint32_t>(kept));
        const int made = answer();
        slot.store(std::uint64_t(question) << 32 | static_cast<std::uint32_t>(made), std::memory_order_relaxed);
        return made;
    }

private:
    mutable std::array<std::atomic<std::uint64_t>, 1 << 13> slots_{};
};

/// One parsed face. Read only once made, but for what it keeps.
struct Typeface {
    stbtt_fontinfo info{};
    Kept glyphs, kernings;
    int ascent = 0, descent = 0, box = 0;

    explicit Typeface(const FontData& data) {
        if (!stbtt_InitFont(&info, data.bytes, stbtt_GetFontOffsetForIndex(data.bytes, 0))) {
            throw std::logic_error("picture: the embedded typeface is not a TrueType font");
        }
        int gap = 0;
        stbtt_GetFontVMetrics(&info, &ascent, &descent, &gap);
        box = stbtt_FindGlyphIndex(
            &info, 0x25A1);  // white square; 0, the font's own mark for a missing glyph, if there is none
    }
};

const Typeface& typeface(Face face) {
    static const Typeface regular(font_regular()), bold(font_bold());
    return face == Face::bold ? bold : regular;
}

bool invisible(char32_t p) {
    return p == 0xAD || (p >= 0x200B && p <= 0x200F) || (p >= 0x202A && p <= 0x202E) || (p >= 0x2060 && p <= 0x2064) ||
           (p >= 0xFE00 && p <= 0xFE0F) || p == 0xFEFF;
}

}  // namespace

int glyph_of(Face face, char32_t point) {
    if (invisible(point)) {
        return no_glyph;
    }
    const bool control = point < 0x20 || (point >= 0x7F && point < 0xA0);
    const Typeface& t = typeface(face);
    const std::uint32_t shown = control ? ' ' : std::uint32_t(point);
    const int glyph = t.glyphs.of(shown, [&] { return stbtt_FindGlyphIndex(&t.info, int(shown)); });
    return glyph != 0 ? glyph : t.box;
}

int advance_of(Face face, int glyph) {
    int advance = 0, bearing = 0;
    stbtt_GetGlyphHMetrics(&typeface(face).info, glyph, &advance, &bearing);
    return advance;
}

int kerning_of(Face face, int left, int right) {
    const Typeface& t = typeface(face);
    const auto pair = std::uint32_t(left) << 16 | std::uint32_t(right);  // a face has at most 65,536 glyphs
    return t.kernings.of(pair, [&] { return stbtt_GetGlyphKernAdvance(&t.info, left, right); });
}

double pixels_per_unit(const TextStyle& style) {
    if (!(style.size_px >= 4 && style.size_px <= 400)) {
        throw std::invalid_argument("layout::TextStyle: size_px must be 4 to 400, got " +
                                    base::shortest(style.size_px));
    }
    return double(stbtt_ScaleForMappingEmToPixels(&typeface(style.face).info, float(style.size_px)));
}

int ascent_units(Face face) { return typeface(face).ascent; }
int descent_units(Face face) { return -typeface(face).descent; }

std::span<const unsigned char> face_file(Face face) {
    const FontData data = face == Face::bold ? font_bold() : font_regular();
    return {data.bytes, data.size};
}

GlyphBitmap rasterize(const TextStyle& style, int glyph, double shift) {
    const stbtt_fontinfo& info = typeface(style.face).info;
    const float scale = float(pixels_per_unit(style));
    int right = 0, bottom = 0;
    GlyphBitmap out;
    stbtt_GetGlyphBitmapBoxSubpixel(&info, glyph, scale, scale, float(shift), 0, &out.left, &out.top, &right, &bottom);
    out.width = right - out.left;
    out.height = bottom - out.top;
    if (out.width <= 0 || out.height <= 0) {
        return {};
    }
    out.coverage.assign(std::size_t(out.width) * std::size_t(out.height), 0);
    stbtt_MakeGlyphBitmapSubpixel(&info, out.coverage.data(), out.width, out.height, out.width, scale, scale,
                                  float(shift), 0, glyph);
    return out;
}

}  // namespace foretone::layout
