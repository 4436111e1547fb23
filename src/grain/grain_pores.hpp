#pragma once
// Pores cut open by the face: grooves along the grain, each drawn as the share of every pixel that it covers.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

#include "grain_log.hpp"

namespace foretone::grain {

/// Rows [first, end) of the board as shares covered, `width` values a row.
struct Band {
    int first = 0, end = 0, width = 0;
    double step = 0;       ///< mm a pixel
    double centre_mm = 0;  ///< y of the first row's upper edge is −centre_mm
    double y(double row) const { return row * step - centre_mm; }
};

/// One kind of groove.
struct Grooves {
    double per_mm2 = 0;  ///< of the face
    double length_mm = 1;
    double width_mm = 0.1;
    std::uint64_t seed = 0;
};

/// Rows beyond a band where the chance of a groove may be asked for.
int groove_margin(const Grooves& grooves, double slope, double step);

/// A candidate: where it lies and how large it is, mm.
struct Groove {
    double x, y, half_length, half_width, slope;
};

/// Walks the candidates that may touch a band, cell by cell.
class GrooveCells {
public:
    GrooveCells(const Band& band, const Grooves& grooves, const Log& log);

    /// The next one, with its own number in [0, 1) to hold against its chance; false when there is none left.
    bool next(Groove& groove, double& lot);

private:
    void column();

    const Band& band_;
    const Grooves& grooves_;
    const Log& log_;
    double cell_x_ = 1, cell_y_ = 1, middle_ = 0, slope_ = 0, drift_ = 0;
    std::int64_t k_ = 0, k_end_ = -1, j_ = 0, j_end_ = -1;
};

/// Adds one groove's share of each pixel.
void draw_groove(const Band& band, const Groove& groove, float* cover);

/// The share of a face that all candidates together cover, if few overlap: per_mm2 · length · width · π/4.
double groove_share(const Grooves& grooves);

/// Adds the grooves that touch the band to `cover`. chance(x, y), in pixels from the board's upper left corner, is the
/// chance (0–1) that a groove lies there, and its size (0–1); it may be asked a few rows beyond the band. Where a pixel
/// holds more than one candidate their mean is added instead.
template <class Chance>
void add_grooves(const Band& band, const Grooves& grooves, const Log& log, const Chance& chance, float* cover) {
    if (!(grooves.per_mm2 > 0)) return;
    if (grooves.per_mm2 * band.step * band.step > 1) {
        const double mean = groove_share(grooves);
        for (int row = band.first; row < band.end; ++row)
            for (int column = 0; column < band.width; ++column) {
                const auto [share, size] = chance(column + 0.5, row + 0.5);
                *cover++ += static_cast<float>(mean) * share * size;
            }
        return;
    }
    GrooveCells cells(band, grooves, log);
    Groove groove{};
    for (double lot = 0; cells.next(groove, lot);) {
        const auto [share, size] = chance(std::clamp(groove.x / band.step, 0.0, static_cast<double>(band.width)),
                                          (groove.y + band.centre_mm) / band.step);
        if (lot >= static_cast<double>(share)) continue;
        groove.half_width *= static_cast<double>(size);
        draw_groove(band, groove, cover);
    }
}

}  // namespace foretone::grain
