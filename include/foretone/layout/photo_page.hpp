#pragma once
/// Photographs side by side on one page, each with its name; and a line under one photograph.

#include <string>
#include <vector>

#include "foretone/light/image.hpp"

namespace foretone::layout {

struct PhotoPanel {
    light::Image image;                 ///< at the size it is shown: see `shrunk`; all of a page are of one size
    std::string name;                   ///< printed bold
    std::vector<std::string> captions;  ///< printed below it, each wrapped into at most two lines
};

struct PhotoPage {
    std::string scene;               ///< heading
    std::string subheading;          ///< may be empty
    std::vector<PhotoPanel> panels;  ///< 1–64
    std::vector<std::string> notes;  ///< at the foot
    std::string alarm;               ///< printed bold above the panels; may be empty
};

/// The picture made smaller, mixing light (not codes) over each pixel's area, until it is no wider than `width` and no
/// higher than `height`; as it is if it fits.
light::Image shrunk(const light::Image& image, int width, int height);

/// Two columns up to four panels, three beyond. Throws std::invalid_argument for no panels, more than 64, or panels of
/// two sizes.
light::Image photo_page(const PhotoPage& page);

/// The picture with a strip below that says `text`, in letters that suit its width.
light::Image with_strip(const light::Image& image, const std::string& text);

}  // namespace foretone::layout
