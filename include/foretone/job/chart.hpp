#pragma once
/// The printed chart photographed beside boards: the camera fitted, the boards read.

#include <string>
#include <vector>

#include "foretone/measure/reading.hpp"
#include "foretone/photo/chart.hpp"
#include "foretone/photo/photo_file.hpp"
#include "foretone/scene/library.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::job {

/// A place to be read.
struct ChartPatch {
    std::string name;
    light::Box box;
};

struct ChartQuestion {
    std::string photo;
    std::string readings;  ///< file of the chart's fields, read with an instrument; empty: taken as planned
    std::vector<ChartPatch> patches;
    std::string photo_light;  ///< under which it was taken; empty: nobody said, daylight is assumed
};

struct ChartReading {
    ChartQuestion question;
    photo::PhotoHead head;
    photo::ChartFit fit;
    photo::Corners corners{};    ///< of the chart in the picture
    double truth_de = 0;         ///< how far its fields may be off, ΔE*ab
    double wood_de = 0;          ///< what wood's other spectra add
    double spread_de = 0;        ///< of each reading: chart, truth and wood together, ΔE*ab
    measure::Readings readings;  ///< of the boards: Lab under D65 for 2°, each with its spread; empty without patches
    std::vector<scene::Problem> warnings;
};

/// Throws InputError: what `read_photo`, `find_chart` and `fit_camera` refuse, with the photograph's name;
/// `chart-readings` for a file that names none of the fields; `patch-outside`, `patch-small`, `patch-clipped`,
/// `patch-twice`.
ChartReading read_chart(const scene::Library& library, const ChartQuestion& question);

/// The chart's fields as planned: CGATS text, for an instrument's program and to compare with.
std::string chart_plan_text();
/// What was read as CGATS text, for boards files and scenes.
std::string chart_readings_text(const ChartReading& reading);

}  // namespace foretone::job
