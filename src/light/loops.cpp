#include "loops.hpp"

#include <cmath>

#define FORETONE_LOOPS "light/light_loops.inc"

namespace foretone::light {

#include "foretone/base/each_isa.inc"

void find_tones(base::Isa isa, const ToneAxes& axes, const float* shade, const float* uptake, const TonePlaces& to,
                int count) {
    FORETONE_FOR(isa, tone_places)(axes, shade, uptake, to, count);
}

void read_tones(base::Isa isa, const float* table, int shades, const TonePlaces& at, const Colors& to, int count) {
    FORETONE_FOR(isa, tones_between)(table, shades, at, to, count);
}

void move_colors(base::Isa isa, const Colors& color, const Colors& to, const float* share, int count) {
    FORETONE_FOR(isa, mix_colors)(color, to, share, count);
}

void light_fibres(base::Isa isa, const Aspect& a, const Aspect& b, float per_pixel, const FibreLobes& lobes,
                  const float* turn, const float* rise, float* light, float* times, int count) {
    FORETONE_FOR(isa, lit_fibres)(a, b, per_pixel, lobes, turn, rise, light, times, count);
}

void tilt_over_pores(base::Isa isa, float* tilt, const float* before, const float* after, float dent, float from,
                     int count) {
    FORETONE_FOR(isa, add_dents)(tilt, before, after, dent, from, count);
}

void mirror_light(base::Isa isa, const Aspect& a, const Aspect& b, float per_pixel, const GlareTable& table,
                  float cover, const float* tilt_x, const float* tilt_y, float* surface, int count) {
    FORETONE_FOR(isa, add_glare)(a, b, per_pixel, table, cover, tilt_x, tilt_y, surface, count);
}

void put_surface(base::Isa isa, const Colors& body, const float* times, const float* white, const float* surface,
                 int count) {
    FORETONE_FOR(isa, add_surface)(body, times, white, surface, count);
}

void put_reading(base::Isa isa, const Colors& body, const float* times, const Colors& surface, int count) {
    FORETONE_FOR(isa, add_reading)(body, times, surface, count);
}

void add_sums(base::Isa isa, double* sums, const float* values, int count) {
    FORETONE_FOR(isa, add_up)(sums, values, count);
}

void roll_bright(base::Isa isa, const Colors& color, int count) { FORETONE_FOR(isa, roll)(color, count); }

void find_codes(base::Isa isa, const float* matrix, float edge, float entries, const Colors& color,
                const CodePlaces& to, int count) {
    FORETONE_FOR(isa, screen_places)(matrix, edge, entries, color, to, count);
}

}  // namespace foretone::light
