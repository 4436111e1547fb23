#include "paint_loops.hpp"

#include <cmath>
#include <cstring>

#include "photo_curve.hpp"

#define FORETONE_LOOPS "photo/paint_loops.inc"

namespace foretone::photo {

#include "foretone/base/each_isa.inc"

void paint_wood(base::Isa isa, const PaintTables& tables, const PaintRow& row, int first, int count, Painted& out) {
    FORETONE_FOR(isa, wood_pixels)(tables, row, first, count, out);
}

void paint_rest(base::Isa isa, const PaintTables& tables, const PaintRow& row, int first, int count, Painted& out) {
    FORETONE_FOR(isa, rest_pixels)(tables, row, first, count, out);
}

bool encode_painted(base::Isa isa, const PaintTables& tables, const Painted& from, int count, std::uint8_t* codes,
                    std::uint8_t* judge) {
    return FORETONE_FOR(isa, encode)(tables, from, count, codes, judge);
}

}  // namespace foretone::photo
