#include "sink.hpp"

#include <utility>

#include "foretone/base/large_pages.hpp"

namespace foretone::photo {

Sink::Sink(int width, int height, int orientation) : width_(width), height_(height), orientation_(orientation) {
    const bool on_its_side = orientation >= 5;
    pixels_.width = on_its_side ? height : width;
    pixels_.height = on_its_side ? width : height;
    const std::size_t values = 3 * std::size_t(width) * std::size_t(height);
    pixels_.rgb.reserve(values);
    base::prefer_large_pages(pixels_.rgb.data(), values * sizeof(std::uint16_t));
    pixels_.rgb.resize(values);
    if (orientation != 1) band_.resize(3 * std::size_t(width) * (on_its_side ? std::size_t(band_rows) : 1));
}

std::uint16_t* Sink::row() {
    const std::size_t length = 3 * std::size_t(width_);
    return orientation_ == 1 ? pixels_.rgb.data() + std::size_t(next_) * length
                             : band_.data() + std::size_t(waiting_) * length;
}

void Sink::keep() {
    ++next_;
    if (orientation_ == 1) return;
    ++waiting_;
    if (waiting_ == (orientation_ >= 5 ? band_rows : 1) || next_ == height_) flush();
}

// Where stored pixel (x, y) is seen: EXIF 2.32, tag 274. Orientation 6, for one, has the stored first row on the right.
void Sink::flush() {
    const bool on_its_side = orientation_ >= 5;
    const bool flip_x =
        orientation_ == 2 || orientation_ == 3 || orientation_ == 7 || orientation_ == 8;  // stored x runs backwards
    const bool flip_y =
        orientation_ == 3 || orientation_ == 4 || orientation_ == 6 || orientation_ == 7;  // stored y runs backwards
    const int first = next_ - waiting_;
    for (int x = 0; x < width_; ++x) {
        const int across = flip_x ? width_ - 1 - x : x;
        for (int r = 0; r < waiting_; ++r) {
            const int down = flip_y ? height_ - 1 - (first + r) : first + r;
            const std::size_t column = std::size_t(on_its_side ? down : across),
                              line = std::size_t(on_its_side ? across : down);
            const std::uint16_t* from = band_.data() + 3 * (std::size_t(r) * std::size_t(width_) + std::size_t(x));
            std::uint16_t* to = pixels_.rgb.data() + 3 * (line * std::size_t(pixels_.width) + column);
            to[0] = from[0];
            to[1] = from[1];
            to[2] = from[2];
        }
    }
    waiting_ = 0;
}

Pixels Sink::take() { return std::move(pixels_); }

}  // namespace foretone::photo
