#pragma once
/// A page before it is painted: where every color field and every line of text lies, so that a test can prove that
/// nothing overlaps.

#include <string>
#include <vector>

#include "foretone/layout/canvas.hpp"

namespace foretone::layout {

struct PlacedField {
    light::Box box;
    light::Code code{};
    bool cut_corner = false;  ///< marks a color the screen cannot show in full
};

struct PlacedText {
    light::Box box;    ///< the room the line takes: its width by its ascent and descent, rounded outward
    double x = 0;      ///< pen, pixels
    int baseline = 0;  ///< pixels from the top
    std::string text;
    TextStyle style;
    light::Code ink{};
};

struct PlacedRule {
    light::Box box;
    light::Code code{};
};

/// A picture on the page, pixel for pixel: its size is that of `box`.
struct PlacedPicture {
    light::Box box;
    light::Image image;
    std::string about;  ///< what it shows, in words, for those who cannot see it
};

/// All positions in pixels from the top left corner of the page.
struct Sheet {
    int width = 0, height = 0;
    double dpi = 150;
    light::Code surround{};
    std::string title;               ///< goes into the file
    std::string description;         ///< goes into the file
    std::vector<PlacedRule> panels;  ///< grounds that all else lies on
    std::vector<PlacedField> fields;
    std::vector<PlacedPicture> pictures;
    std::vector<PlacedField> strips;  ///< the pieces of strips of color: narrow, touching
    std::vector<PlacedText> texts;
    std::vector<PlacedRule> rules;
};

/// The page as pixels: surround, panels, fields, pictures, strips, rules, texts. Throws std::invalid_argument for a
/// page that is not 1–20000 pixels a side, and for a picture that is not of its box's size.
light::Image paint(const Sheet& sheet);

}  // namespace foretone::layout
