#pragma once
/// A picture one draws on: flat rectangles with exact codes, and text blended in linear light.

#include <memory>
#include <string_view>
#include <utility>

#include "foretone/light/image.hpp"
#include "foretone/layout/text.hpp"

namespace foretone::layout {

/// The mix of two sRGB codes in linear light: `coverage` 0 is `below`, 255 is `above`.
light::Code blend(const light::Code& below, const light::Code& above, int coverage);

class Canvas {
public:
    /// Filled with one color. Throws std::invalid_argument unless both sides are 1–20000 pixels.
    Canvas(int width, int height, const light::Code& code);
    ~Canvas();
    Canvas(Canvas&&) noexcept;
    Canvas& operator=(Canvas&&) noexcept;

    int width() const { return image_.width; }
    int height() const { return image_.height; }
    const light::Image& image() const { return image_; }
    light::Image take() && { return std::move(image_); }  ///< the pixels; the canvas is spent

    /// What lies outside the picture is left out.
    void fill(const light::Box& box, const light::Code& code);

    /// Fills the lower left corner of `box`, the triangle whose equal sides are `side` pixels.
    void cut_corner(const light::Box& box, int side, const light::Code& code);

    /// Copies `image` with its top left corner at (`x`, `y`).
    void place(int x, int y, const light::Image& image);

    /// Draws from the pen at (`x`, `baseline`), pixels, and returns the pen's `x` after the text: x + text_width(text,
    /// style).
    double text(double x, int baseline, std::string_view text, const TextStyle& style, const light::Code& ink);

private:
    struct Glyphs;  // glyphs drawn before
    void dab(int x, int y, const light::Code& ink, int coverage);

    light::Image image_;
    std::unique_ptr<Glyphs> glyphs_;
};

}  // namespace foretone::layout
