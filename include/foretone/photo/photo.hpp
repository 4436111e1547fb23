#pragma once
/// A photograph of a bare board, and the same board finished. Pure: pixels in, pixels out.
///
/// A card of known reflectance in the picture takes out exposure and cast. Every pixel of the board then becomes a spot
/// of its wood: how dark the wood is there (shade, as in appearance/tones.hpp), and a small difference in color that
/// stays with it. What is brighter than the wood can be is light from its surface and is laid on top again; what has
/// another color is left as it is.

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

#include "foretone/appearance/tones.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/light/image.hpp"
#include "foretone/photo/light_field.hpp"
#include "foretone/photo/perspective.hpp"
#include "foretone/photo/pixels.hpp"

namespace foretone::photo {

/// A neutral card in the picture.
struct Card {
    light::Box
        box;  ///< a part of the card, without its edges; pixels from the upper left corner of the picture as seen
    double reflectance = 0.90;  ///< 0.02–1; a white card 0.90, a photographer's grey card 0.18
};

/// What the card looks like in the picture.
struct CardReading {
    std::array<double, 3> rgb{};  ///< mean linear light, share of the most the file can say
    double brightness = 0;        ///< relative luminance, 1 = white of the file
    double gradient = 0;          ///< even rise of brightness across it: brightest over darkest, less 1
    double unevenness = 0;        ///< what is left beside that rise, root mean square, relative
    color::Lab as_seen;           ///< its color in the uncorrected picture, under D65
};

/// From a file's linear light to XYZ under D65, the perfect white diffuser at Y = 1.
struct Correction {
    ToXyz to_xyz{};
    bool promise = false;  ///< true: by a card, colors are colors; false: they are relative
    CardReading card;      ///< if by a card
    double stops = 0;      ///< exposure that was added, in stops of two
    std::vector<PhotoNote> notes;
};

/// Correction by a card: it comes out neutral, at its reflectance (von Kries in the cone space of CAT16). Throws
/// PhotoFault, each with the figures: `card-outside`, `card-small` (under 12 pixels a side), `card-clipped`,
/// `card-dark`, `card-uneven` (not one plain surface), `card-colored` (no light is that colored), and
/// std::invalid_argument for a reflectance out of range. Notes: `card-gradient`, `card-dim` (under a ninth of its
/// reflectance).
Correction by_card(const Pixels& pixels, const Card& card);

/// Without a card: the middle of the picture is taken to be the wood as `bare` (XYZ under D65, Y = 100) has it. Only
/// differences mean anything then. Throws PhotoFault `photo-dark` if there is next to no light in the middle.
Correction by_wood(const Pixels& pixels, const color::Xyz& bare);

/// What the finished tables of a `PhotoBoard` should span: its figure takes up as much as a drawn board's does.
inline constexpr appearance::ToneRange photo_range{-2, 3, 8};

class FigureUptake;
class Area;

/// Corners in pixels from the upper left of the picture as seen, in order around; the last joins the first.
using Polygon = std::vector<std::array<double, 2>>;

/// What is known of a picture beside its pixels.
struct Placing {
    std::vector<Card> cards;      ///< by the first of them the picture was corrected; all are left as they are
    std::vector<Polygon> boards;  ///< what to finish, where it looks like the wood; none: wherever it does
    /// Of each board, which way its grain runs: degrees from lying, as a clock's hand turns back; none: found.
    std::vector<std::optional<double>> grains;
    bool even_light = false;  ///< the light is known to be even: none is taken out
    double mm_per_px = 0;     ///< width of a pixel on the board; 0: the picture is taken for one of 400 mm
    int threads = 0;          ///< 0: as many as the machine has; the result is the same for any number
    /// Where perspective was taken out: the picture that the cards lie in, and from it to the one that is finished.
    const Pixels* whole = nullptr;
    Homography from_whole = {};
    /// The wood bare under the second of two lamps, where light of two colors shares the board; the first is that of
    /// `bare`. Null: bare and finished wood change alike with the light's color.
    const appearance::ToneTable* second_lamp = nullptr;
};

/// WoodVariation::by_lamp of a wood, from its bare tables under two lamps.
std::array<double, 3> wood_by_lamp(const appearance::ToneTable& one, const appearance::ToneTable& other);

/// Change of the light's color (FoundLight::color_change) from which it is told, a choice: a ninth of what a filament
/// lamp is off from daylight.
inline constexpr double two_lamps = 0.1;

/// How uneven the light over the board was found to be.
struct FoundLight {
    bool judged = false;        ///< false: it was said to be even, or could not be judged; nothing below holds then
    bool taken_out = false;     ///< before a finish, and put back after
    bool left_to_wood = false;  ///< brightness changes, but no more than this wood may by itself: left to the wood
    double fall = 0;            ///< darkest light on the board less than the brightest, as a share of that, 0–1
    double color_change = 0;    ///< the same of its color: by how much blue over red changes
    std::size_t cards = 0;      ///< that had a say, beside the wood itself
    double sharp = 0;           ///< light that changes faster than what is taken out: 95 of 100 patches lie below (ln)
};

/// Is it worth telling of a card? What it says of its own gradient is said of the whole board where light was taken
/// out.
bool worth_telling(const PhotoNote& of_card, const FoundLight& light);

/// Why a second lamp makes no difference to a finished picture; empty if it does. `same_light`: the board is shown in
/// the light it was photographed in.
std::string second_lamp_unused(const FoundLight& light, bool same_light);

/// One look of the board in the photograph.
struct FinishedPhoto {
    light::Image image;       ///< sRGB, corrected; chroma reduced at constant hue and lightness where the screen ends
    color::Xyz mean;          ///< of the board without its highlights, in the light at the card, under D65, Y = 100
    double out_of_gamut = 0;  ///< share of the board's pixels whose chroma was reduced
};

/// The board found in a photograph.
class PhotoBoard {
public:
    /// `bare` is the wood's table of bare wood under the light of the photograph (D65 if that is not known: the card
    /// has made its white neutral, but not its spectrum another); `wood` its figures. Pixels are kept by reference:
    /// they must outlive this. Throws PhotoFault: `photo-no-wood` if hardly anything in the picture (in its boards)
    /// could be this wood, `light-range` and `light-edge` where light and wood cannot be told apart, `board-outside`
    /// for a polygon that is not in the picture, `board-many`, and what `by_card` says of each card.
    PhotoBoard(const Pixels& pixels, const Correction& correction, const appearance::ToneTable& bare,
               const material::Wood& wood, const Placing& placing);
    /// With one card or none.
    PhotoBoard(const Pixels& pixels, const Correction& correction, const appearance::ToneTable& bare,
               const material::Wood& wood, const light::Box* card = nullptr, int threads = 0);

    /// The corrected picture without any finish.
    FinishedPhoto before() const;
    /// The picture with the board finished; `finished` over the same wood, under the light that the finished board is
    /// to be seen in, shown adapted to D65. With the table of bare wood under that light: the bare board in it.
    /// `second_lamp`: the same finish under `Placing::second_lamp`'s light; where the board is lit by both, it is seen
    /// in that mixture. Null: the light's color does to finished wood what it does to bare.
    FinishedPhoto finished(const appearance::ToneTable& finished,
                           const appearance::ToneTable* second_lamp = nullptr) const;

    const FoundLight& light() const { return light_; }
    /// What is worth knowing of light and figure: `light-uneven`, `light-or-wood`, `light-not-judged`, what `by_card`
    /// notes of the cards after the first; for a finish that soaks in also `photo-scale` where the scale was assumed,
    /// `photo-blotches` for a wood that has them.
    std::vector<PhotoNote> notes(bool soaks_in) const;
    double shade() const { return shade_; }  ///< median of the board against the library's wood
    double chroma_offset() const {
        return offset_de_;
    }                                            ///< ΔE*ab of its hue and chroma from that wood at the same lightness
    double wood_share() const { return wood_; }  ///< share of the picture that is finished (soft edges in part)
    double highlight_share() const {
        return highlight_;
    }  ///< of it, brighter than the wood can be: surface light kept on top
    double mm_per_px() const { return mm_per_px_; }    ///< as given, or as taken
    double limited_share() const { return limited_; }  ///< of it, whose own color went further than the wood's can
    double untouched_share() const { return 1 - wood_; }

    /// How much of pixel (x, y) is wood, 0–1.
    float weight(int x, int y) const;

private:
    struct Entry {             // for one luminance: what the wood's color would be, and what becomes of it
        float px = 0, pz = 0;  // X and Z of the bare wood
        float gx = 0, gz = 0;  // how a difference in X and Z carries over, as an exponent
        float shade = 0;       // of the wood there
        float above = 0;       // 1: brighter than the wood can be
    };
    using Curve = std::vector<Entry>;
    struct Finish {                               // everything a pixel needs
        Curve curve;                              // over luminance
        std::vector<std::array<float, 4>> tones;  // finished XYZ over luminance and, within, ln of uptake
        // Under the second lamp, in the first one's adaptation: the same; bare over bare, in cones, over luminance.
        std::vector<std::array<float, 4>> second_tones, second_bare;
    };
    struct Spot {
        double shade = 0, surface = 0, shadow = 1;
    };

    struct MaskRow {
        std::vector<float> sure, maybe;
    };
    struct Edge {  // colors nearby, on either side of the board's edge
        std::array<float, 3> wood{}, rest{};
    };
    struct WoodShare {
        float wood = 0;               // how much of a pixel is wood
        std::array<float, 3> rest{};  // the color of what else is in it
    };

    struct Likely {  // blocks that may be this wood, and how its color differs there
        std::vector<std::size_t> blocks;
        std::size_t allowed = 0;  // blocks looked at
        double a = 0, b = 0, like_share = 0;
    };

    void choose_cones();
    void average_blocks();
    int looked_at_step() const;
    void sample_tones(const appearance::ToneTable& bare, const appearance::ToneTable* second);
    void read_cards(const Placing& placing);
    void cover_boards(const Placing& placing);
    Likely likely_blocks(double window, double out_from_middle) const;
    void find_light(const material::Wood& wood, const Placing& placing);
    std::vector<LightSample> wood_patches(const Likely& likely) const;
    std::vector<LightSample> card_patches(const Placing& placing) const;
    void take_out_light(int step);
    void find(const material::Wood& wood);
    void mask(const Curve& bare);
    void find_edges(const std::vector<float>& inside, const std::vector<float>& within);
    void measure();
    Spot spot(double luminance) const { return spot(luminance, palest_); }
    Spot spot(double luminance, double palest) const;  // brighter than wood of that shade: light from the surface
    double bare_color(const Spot& at, std::size_t channel) const;
    std::array<float, 3> second_over_first(const Spot& at) const;
    // Of each node of the field in a row: brightness in three cones, and the second lamp's weight.
    std::vector<std::array<float, 4>> lamps_row(float v) const;
    Curve curve() const;
    float likeness(const Curve& bare, const std::array<float, 3>& xyz) const;
    void mask_row(int y, MaskRow& row) const;
    std::array<float, 3> color_of(const std::uint16_t* v) const {
        const float r = v[0], g = v[1], b = v[2];
        std::array<float, 3> c{};
        for (std::size_t k = 0; k < 3; ++k) c[k] = m_[k][0] * r + m_[k][1] * g + m_[k][2] * b;
        return c;
    }
    WoodShare share_of_wood(const MaskRow& row, int x, int y, const std::array<float, 3>& xyz) const;
    Finish finish_of(const appearance::ToneTable& finished, const appearance::ToneTable* second_lamp) const;
    int sampled_step() const;
    void read_figure(const material::Wood& wood, const Placing& placing);
    struct Paint;
    struct PaintedRow;
    struct RowSum;
    using Four [[gnu::vector_size(16)]] = float;
    void figure_row(int y, std::vector<Four>& at_columns) const;
    void lamps_at_columns(int y, std::vector<Four>& at_columns) const;
    FinishedPhoto paint(const Finish* finish) const;
    void paint_pixel(const Paint& paint, const PaintedRow& row, int x, int y, RowSum& sum, std::uint8_t* to) const;

    std::array<float, 3> without_light(const std::array<float, 3>& xyz, const std::array<float, 3>& gain) const;
    std::array<float, 3> with_light(const std::array<float, 3>& xyz, const std::array<float, 3>& gain) const;
    std::array<float, 3> light_at(int x, int y) const {
        return field_.at((float(x) + 0.5F) / float(pixels_.width), (float(y) + 0.5F) / float(pixels_.height));
    }

    const Pixels& pixels_;
    std::array<std::array<float, 3>, 3> m_{};                        // 16-bit values to XYZ, Y = 1
    std::array<std::array<float, 3>, 3> to_cones_{}, from_cones_{};  // XYZ to cone responses and back
    int threads_ = 0;
    int block_ = 1, columns_ = 0, rows_ = 0;   // the mask is worked out on blocks of pixels
    std::vector<std::array<float, 3>> means_;  // XYZ of each block, as photographed
    std::vector<std::array<float, 3>> even_;   // the same in the light at the card
    std::vector<float> allowed_;               // share of each block that may be finished
    std::vector<std::uint8_t> board_of_;       // the number of its board, from 1
    std::vector<std::uint8_t> on_card_;        // 1: a card lies on it
    std::shared_ptr<const Area> area_;         // what may be finished, pixel by pixel
    LightField field_;
    FoundLight light_;
    bool said_even_ = false;
    std::vector<CardReading> card_readings_;
    std::vector<PhotoNote> card_notes_;  // of the cards after the first
    std::vector<float> sure_, maybe_;    // weights inside the board's edge, and as far out as it may lie
    std::vector<int> edge_;              // for each block: its place in edges_, −1 if it has none
    std::vector<Edge> edges_;
    Curve own_;                                          // this board, bare
    std::vector<std::array<double, 3>> tones_, slopes_;  // bare wood over shade: XYZ (Y = 1, D65) and d ln/d shade
    std::vector<std::array<double, 3>> second_tones_;    // the same under the second lamp; empty: there is none
    std::array<double, 3> second_white_{}, by_lamp_{};   // its white; WoodVariation::by_lamp
    std::array<float, 3> second_usual_{1, 1, 1};         // cones of this board bare under it, over the first lamp's
    std::shared_ptr<const FigureUptake> figure_;         // what is taken up, by the board's figure
    std::vector<float> ring_, blotch_;                   // of each block: shade of its rings against the middle; ln
    float ring_scale_ = 1, detail_scale_ = 1, ln_mean_ = 0;
    double mm_per_px_ = 0, blotch_sd_ = 0;
    bool scale_assumed_ = false;
    double first_shade_ = 0, shade_step_ = 0;
    double shade_ = 0, palest_ = 0, offset_de_ = 0;
    std::array<double, 3> offset_{};  // of the board's color from the wood's, as shade of each channel
    double wood_ = 0, highlight_ = 0, limited_ = 0;
};

}  // namespace foretone::photo
