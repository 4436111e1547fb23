#include "loops.hpp"

#include <algorithm>
#include <cmath>

#define FORETONE_LOOPS "grain/face_loops.inc"

namespace foretone::grain {

#include "foretone/base/each_isa.inc"

void draw_pixels(base::Isa isa, const PixelTables& tables, const PixelRow& row, const PixelOut& out, int count) {
    for (int first = 0; first < count; first += pixel_block)
        FORETONE_FOR(isa, pixels)(tables, row, out, first, std::min(pixel_block, count - first));
}

void add_cubics(base::Isa isa, float* out, int count, double first, double pace, const double* columns,
                std::int64_t k0) {
    FORETONE_FOR(isa, cubics)(out, count, first, pace, columns, k0);
}

void add_between(base::Isa isa, float* out, const float* a, const float* b, float t, int count) {
    FORETONE_FOR(isa, add_between)(out, a, b, t, count);
}

void add_distance(base::Isa isa, float* out, const float* drift, const float* v, float base, int count) {
    FORETONE_FOR(isa, add_distance)(out, drift, v, base, count);
}

void add_groove(base::Isa isa, float* cover, int count, float from, float half, float end, float half_width, float row,
                float slope) {
    FORETONE_FOR(isa, groove_row)(cover, count, from, half, end, half_width, row, slope);
}

void finish_pixels(base::Isa isa, float* shade, float* uptake, int count, float add, float per, float low, float high) {
    FORETONE_FOR(isa, finish_row)(shade, uptake, count, add, per, low, high);
}

}  // namespace foretone::grain
