// Shares of pixels inside polygons: four lines through each row of pixels, each exact from crossing to crossing
// (even-odd); polygons that share an edge leave no seam, as their shares are added up to 1.

#include "photo_area.hpp"

#include <algorithm>

namespace foretone::photo {
namespace {

constexpr int lines_a_row = 4;

// Adds `weight` times the part of each pixel that lies between a and b.
void add_span(double a, double b, float weight, std::vector<float>& share) {
    a = std::clamp(a, 0.0, double(share.size()));
    b = std::clamp(b, 0.0, double(share.size()));
    if (!(b > a)) return;
    const auto first = static_cast<std::size_t>(a), last = static_cast<std::size_t>(b);
    if (first == last) {
        share[first] += weight * float(b - a);
        return;
    }
    share[first] += weight * float(double(first) + 1 - a);
    for (std::size_t x = first + 1; x < last; ++x) share[x] += weight;
    if (last < share.size()) share[last] += weight * float(b - double(last));
}

}  // namespace

void Area::row(int y, int width, std::vector<float>& share) const {
    share.assign(static_cast<std::size_t>(width), all() ? 1.0F : 0.0F);
    std::vector<double> at;
    for (const auto& p : polygons_) {
        for (int line = 0; line < lines_a_row; ++line) {
            const double v = y + (line + 0.5) / lines_a_row;
            at.clear();
            for (std::size_t a = 0, b = p.size() - 1; a < p.size(); b = a++) {
                if ((p[a][1] > v) == (p[b][1] > v)) continue;
                at.push_back(p[a][0] + (p[b][0] - p[a][0]) * (v - p[a][1]) / (p[b][1] - p[a][1]));
            }
            std::sort(at.begin(), at.end());
            for (std::size_t k = 0; k + 1 < at.size(); k += 2) add_span(at[k], at[k + 1], 1.0F / lines_a_row, share);
        }
    }
    for (float& s : share) s = s > 0.9999F ? 1.0F : s;
}

}  // namespace foretone::photo
