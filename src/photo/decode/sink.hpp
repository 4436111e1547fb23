#pragma once
/// Where decoded rows go: each lands the right way up, so that turning takes no second picture.

#include <cstdint>
#include <vector>

#include "foretone/photo/pixels.hpp"

namespace foretone::photo {

class Sink {
public:
    /// For a picture stored as `width` × `height`, to be turned by EXIF `orientation`.
    Sink(int width, int height, int orientation);

    /// Room for the next row: 3 · width values of linear light. Valid until `keep`.
    std::uint16_t* row();
    /// The row is filled.
    void keep();

    int rows() const { return next_; }  ///< kept so far
    Pixels take();

private:
    void flush();

    static constexpr int band_rows = 16;  // turned by a right angle, 16 rows become 96-byte runs
    int width_, height_, orientation_, next_ = 0, waiting_ = 0;
    std::vector<std::uint16_t> band_;
    Pixels pixels_;
};

}  // namespace foretone::photo
