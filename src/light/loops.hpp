#pragma once
// The loops over pixels in light, for the widest instruction set there is; the same bytes for every one. Up to
// `light_block` pixels at a time.

#include "foretone/base/bits.hpp"
#include "foretone/base/isa.hpp"
#include "board_light.hpp"

namespace foretone::light {

inline constexpr int light_block = 256;
inline constexpr int sum_lanes = 8;

/// One value a pixel each.
struct Colors {
    float *x, *y, *z;
};

/// The axes of a table of tones (appearance::ToneTable::Lent).
struct ToneAxes {
    float shade_low, per_shade, per_uptake, half_way;
    int shades, uptakes;  ///< entries
};

struct TonePlaces {
    int* first;  ///< entry
    float *along, *across;
};

/// Both lobes of the fibres' highlight: their shares, figures (Lobe) and means over the board.
struct FibreLobes {
    float film_share, film_exponent, film_level, film_mean;
    float dry_share, dry_exponent, dry_level, dry_mean;
};

/// The table of a Glare.
struct GlareTable {
    const float* values;
    int entries;
    float reach, per, last;
};

struct CodePlaces {
    int *r, *g, *b;  ///< entries of the table of codes
    int* outside;    ///< not 0: the color has to be fitted
};

void find_tones(base::Isa isa, const ToneAxes& axes, const float* shade, const float* uptake, const TonePlaces& to,
                int count);
void read_tones(base::Isa isa, const float* table, int shades, const TonePlaces& at, const Colors& to, int count);
void move_colors(base::Isa isa, const Colors& color, const Colors& to, const float* share, int count);
/// Pixels i = 0 … count − 1 lie i · per_pixel of the way from aspect a to b.
void light_fibres(base::Isa isa, const Aspect& a, const Aspect& b, float per_pixel, const FibreLobes& lobes,
                  const float* turn, const float* rise, float* light, float* times, int count);
void tilt_over_pores(base::Isa isa, float* tilt, const float* before, const float* after, float dent, float from,
                     int count);
void mirror_light(base::Isa isa, const Aspect& a, const Aspect& b, float per_pixel, const GlareTable& table,
                  float cover, const float* tilt_x, const float* tilt_y, float* surface, int count);
void put_surface(base::Isa isa, const Colors& body, const float* times, const float* white, const float* surface,
                 int count);
void put_reading(base::Isa isa, const Colors& body, const float* times, const Colors& surface, int count);
/// Adds to `sum_lanes` sums.
void add_sums(base::Isa isa, double* sums, const float* values, int count);
void roll_bright(base::Isa isa, const Colors& color, int count);
void find_codes(base::Isa isa, const float* matrix, float edge, float entries, const Colors& color,
                const CodePlaces& to, int count);

}  // namespace foretone::light
