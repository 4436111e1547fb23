// Anti-aliased edges are mixed in linear light, since coverage is a share of area and areas add light, not codes.

#include "foretone/layout/canvas.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>

#include "foretone/layout/typeface.hpp"
#include "foretone/base/utf8.hpp"

namespace foretone::layout {
namespace {

constexpr int encode_steps = 8192;  // fine enough that every one of the 256 codes comes back from its own linear value

/// The sRGB curve (IEC 61966-2-1) as tables: code → linear, linear → code.
struct Curve {
    std::array<double, 256> linear{};
    std::array<std::uint8_t, encode_steps + 1> code{};

    Curve() {
        for (std::size_t i = 0; i < linear.size(); ++i) {
            const double v = double(i) / 255;
            linear[i] = v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
        }
        for (std::size_t i = 0; i < code.size(); ++i) {
            const double v = double(i) / encode_steps;
            const double encoded = v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055;
            code[i] = std::uint8_t(std::lround(255 * encoded));
        }
    }
};

const Curve& curve() {
    static const Curve once;
    return once;
}

}  // namespace

light::Code blend(const light::Code& below, const light::Code& above, int coverage) {
    if (coverage <= 0) {
        return below;
    }
    if (coverage >= 255) {
        return above;
    }
    const Curve& c = curve();
    const double share = coverage / 255.0;
    light::Code out{};
    for (std::size_t i = 0; i < 3; ++i) {
        const double linear = c.linear[below[i]] * (1 - share) + c.linear[above[i]] * share;
        out[i] = c.code[std::size_t(std::lround(linear * encode_steps))];
    }
    return out;
}

struct Canvas::Glyphs {
    static constexpr int shifts = 4;                 // pen positions told apart within a pixel
    using Key = std::tuple<Face, double, int, int>;  // face, size, glyph, shift
    std::map<Key, GlyphBitmap> drawn;

    const GlyphBitmap& get(const TextStyle& style, int glyph, int shift) {
        const Key key{style.face, style.size_px, glyph, shift};
        const auto found = drawn.find(key);
        if (found != drawn.end()) {
            return found->second;
        }
        return drawn.emplace(key, rasterize(style, glyph, double(shift) / shifts)).first->second;
    }
};

Canvas::Canvas(int width, int height, const light::Code& code)
    : image_(light::Image::filled(width, height, code)), glyphs_(std::make_unique<Glyphs>()) {}
Canvas::~Canvas() = default;
Canvas::Canvas(Canvas&&) noexcept = default;
Canvas& Canvas::operator=(Canvas&&) noexcept = default;

void Canvas::fill(const light::Box& box, const light::Code& code) {
    const int left = std::max(box.x, 0), right = std::min(box.x + box.width, image_.width);
    const int top = std::max(box.y, 0), bottom = std::min(box.y + box.height, image_.height);
    if (left >= right || top >= bottom) {
        return;
    }
    const auto row = [&](int y) {
        return image_.rgb.data() + 3 * (std::size_t(y) * std::size_t(image_.width) + std::size_t(left));
    };
    for (int i = 0; i < right - left; ++i) {
        std::copy(code.begin(), code.end(), row(top) + 3 * i);
    }
    for (int y = top + 1; y < bottom; ++y) {
        std::copy_n(row(top), 3 * (right - left), row(y));
    }
}

void Canvas::cut_corner(const light::Box& box, int side, const light::Code& code) {
    const int reach = std::min({side, box.width, box.height});
    for (int up = 0; up < reach; ++up) {
        const int y = box.y + box.height - 1 - up, whole = reach - 1 - up;
        fill({box.x, y, whole, 1}, code);
        dab(box.x + whole, y, code, 128);  // the diagonal halves this pixel
    }
}

void Canvas::place(int x, int y, const light::Image& image) {
    const int left = std::max(x, 0), right = std::min(x + image.width, image_.width);
    if (left >= right) {
        return;
    }
    for (int row = std::max(y, 0); row < std::min(y + image.height, image_.height); ++row) {
        const std::size_t from = std::size_t(row - y) * std::size_t(image.width) + std::size_t(left - x);
        const std::size_t to = std::size_t(row) * std::size_t(image_.width) + std::size_t(left);
        std::copy_n(image.rgb.data() + 3 * from, 3 * (right - left), image_.rgb.data() + 3 * to);
    }
}

double Canvas::text(double x, int baseline, std::string_view text, const TextStyle& style, const light::Code& ink) {
    const double scale = pixels_per_unit(style);
    long units = 0;
    int before = no_glyph;
    for (std::size_t at = 0; at < text.size();) {
        const int glyph = glyph_of(style.face, base::next_code_point(text, at));
        if (glyph == no_glyph) {
            continue;
        }
        units += before == no_glyph ? 0 : kerning_of(style.face, before, glyph);
        const double pen = x + double(units) * scale;
        const int quarters = int(std::floor(pen * Glyphs::shifts + 0.5));
        const int shift = ((quarters % Glyphs::shifts) + Glyphs::shifts) % Glyphs::shifts;
        const int pixel = (quarters - shift) / Glyphs::shifts;
        const GlyphBitmap& bitmap = glyphs_->get(style, glyph, shift);
        for (int row = 0; row < bitmap.height; ++row) {
            for (int column = 0; column < bitmap.width; ++column) {
                dab(pixel + bitmap.left + column, baseline + bitmap.top + row, ink,
                    bitmap.coverage[std::size_t(row) * std::size_t(bitmap.width) + std::size_t(column)]);
            }
        }
        units += advance_of(style.face, glyph);
        before = glyph;
    }
    return x + double(units) * scale;
}

void Canvas::dab(int x, int y, const light::Code& ink, int coverage) {
    if (coverage == 0 || x < 0 || y < 0 || x >= image_.width || y >= image_.height) {
        return;
    }
    std::uint8_t* pixel = image_.rgb.data() + 3 * (std::size_t(y) * std::size_t(image_.width) + std::size_t(x));
    const light::Code mixed = blend({pixel[0], pixel[1], pixel[2]}, ink, coverage);
    std::copy(mixed.begin(), mixed.end(), pixel);
}

}  // namespace foretone::layout
