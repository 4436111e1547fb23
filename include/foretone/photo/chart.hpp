#pragma once
/// A printed chart of our own: grey steps and colored fields between four ringed corner marks. Photographed beside
/// boards it says what the camera made of known colors, so that a camera reads the boards' colors.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "foretone/color/lab.hpp"
#include "foretone/light/image.hpp"
#include "foretone/photo/perspective.hpp"

namespace foretone::photo {

/// One field, square. Places in mm from the chart's upper left.
struct ChartField {
    std::string name;  ///< "A1" … "E8": row, column
    light::Code code;  ///< as printed, sRGB
    color::Lab lab;    ///< of that code under D65 for 2°: what a perfect printer would lay down
    double x_mm, y_mm;
};

inline constexpr double chart_width_mm = 190, chart_height_mm = 130, field_mm = 14;
inline constexpr double chart_nominal_de = 6;  ///< how far prints of one file differ: ΔE*ab, one standard deviation

/// The fields, row by row; the first is bare paper.
const std::vector<ChartField>& chart_fields();

/// A corner mark: a ring with a disc in it, black; radii in mm. The lower right one's disc is larger.
struct ChartMark {
    double x_mm, y_mm, outer, inner, disc;
};
/// Upper left, upper right, lower right, lower left.
const std::array<ChartMark, 4>& chart_marks();

/// From mm on the chart to pixels of the picture, found by its corner marks. Throws PhotoFault `chart-missing`.
Homography find_chart(const Pixels& pixels);

/// What the picture shows of a field.
struct FieldSeen {
    std::array<double, 3> rgb{};  ///< mean linear light, share of the most the file can say
    bool plain = true;            ///< false: glare, a shadow's edge, or too bright to tell; left out of the fit
};
std::vector<FieldSeen> see_fields(const Pixels& pixels, const Homography& chart);

/// A camera made an instrument: from linear values of the file to colors under D65.
///   ln l = a x + b x² + c x³, x = ln of a channel      its tone curve, one for all channels
///   XYZ = M l · exp(−g · place)                        its matrix, and light that falls off evenly over the chart
struct Camera {
    std::array<double, 3> curve{1, 0, 0};
    ToXyz to_xyz{};
    std::array<double, 2> light{};  ///< ln, over half the chart's width and height

    /// XYZ under D65, Y = 1, of what lies at a place of the chart's plane (mm; held at one chart beyond its edges).
    color::Xyz xyz(const std::array<double, 3>& rgb, double x_mm, double y_mm) const;
    color::Lab lab(const std::array<double, 3>& rgb, double x_mm, double y_mm) const;
};

/// The camera that makes of the fields what they are, and how sure that is.
struct ChartFit {
    Camera camera;
    std::size_t used = 0;                         ///< fields
    std::vector<std::optional<double>> left_out;  ///< ΔE00 of each field, read by a camera fitted without it
    double left_out_mean = 0, left_out_p95 = 0;   ///< of them
    double left_out_de = 0;                       ///< their root mean square ΔE*ab
};

/// Fits a camera. `truth` holds each field's color under D65 for 2°, none where it is not known; `truth_de` how far
/// they may be off. Throws PhotoFault `chart-few` (under 20 fields that are plain and known), `chart-poor` (what is
/// left is over ΔE00 8: another chart, other readings, or a camera whose picture was worked over).
ChartFit fit_camera(const std::vector<FieldSeen>& seen, const std::vector<std::optional<color::Lab>>& truth,
                    double truth_de);

/// What the camera's error adds on wood, whose spectra no printer's inks have: ΔE*ab, root mean square, in daylight or
/// under a white LED, and under a filament lamp. Computed from eleven published cameras, three lamps, an invented
/// printer, and bare and finished woods (tests/photo/chart_cameras_test.cpp); in ΔE00 the means are 1.9 and 3.7.
inline constexpr double wood_by_inks_de = 3.4, wood_by_inks_filament_de = 8.5;
/// The one due under a light of that white (Y = 100): a lamp is a filament's kind where its Z is under half of Y.
inline double wood_by_inks(const color::Xyz& white) {
    return white.z < 50 ? wood_by_inks_filament_de : wood_by_inks_de;
}

}  // namespace foretone::photo
