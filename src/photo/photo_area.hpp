#pragma once
/// The parts of a picture that are to be finished, pixel by pixel.

#include <array>
#include <vector>

namespace foretone::photo {

/// Polygons over rows of pixels. Without any, all of the picture.
class Area {
public:
    Area() = default;
    explicit Area(std::vector<std::vector<std::array<double, 2>>> polygons) : polygons_(std::move(polygons)) {}

    bool all() const { return polygons_.empty(); }
    /// Share of each pixel of row `y` that lies in any of them, 0–1; 1 throughout without any.
    void row(int y, int width, std::vector<float>& share) const;

private:
    std::vector<std::vector<std::array<double, 2>>> polygons_;
};

}  // namespace foretone::photo
