#include "foretone/job/chart.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "foretone/base/number.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/color/xyz.hpp"
#include "foretone/job/board_photo.hpp"
#include "foretone/measure/cgats.hpp"
#include "foretone/scene/readings.hpp"
#include "foretone/scene/version.hpp"
#include "foretone/spectral/sampled.hpp"

namespace foretone::job {
namespace {

constexpr double instrument_de = 0.3;  // repeats of a hand-held instrument on paper (practice)
constexpr int least_patch = 8;
constexpr double patch_bright = 0.97, most_bright = 0.02;

scene::InputError as_input(const photo::PhotoFault& fault, const std::string& file) {
    return scene::InputError(fault.id, {file}, fault.what());
}

std::string upper(std::string text) {
    for (char& c : text) c = c >= 'a' && c <= 'z' ? char(c - 'a' + 'A') : c;
    return text;
}

// The fields' colors under D65 for 2° as an instrument read them.
std::vector<std::optional<color::Lab>> read_truth(const scene::Library& library, ChartReading& out) {
    const auto& file = out.question.readings;
    const auto read = scene::read_readings(file, library);
    for (auto& note : scene::notes_of(read, file)) out.warnings.push_back(std::move(note));
    const auto weights = color::make_weights(library.illuminant("D65"), library.observer("2deg"));
    const auto& fields = photo::chart_fields();
    std::vector<std::optional<color::Lab>> truth(fields.size());
    double squares = 0, n = 0;
    for (const auto& r : read.readings) {
        const auto at =
            std::find_if(fields.begin(), fields.end(), [&](const auto& f) { return f.name == upper(r.name); });
        if (at == fields.end()) continue;
        auto& field = truth[std::size_t(at - fields.begin())];
        if (r.reflectance)
            field = color::to_lab(color::xyz(spectral::to_grid(*r.reflectance).spectrum, weights), weights.white);
        else if (r.lab && r.light == "D65" && r.observer == "2deg")
            field = r.lab;
        else
            throw scene::InputError("chart-readings", {file, r.line, 1},
                                    "the reading '" + r.name + "' is under " + r.light + " " + r.observer +
                                        "; reflectances, or Lab under D65 for 2deg, are wanted of the chart");
        squares += std::pow(r.spread_de.value_or(instrument_de), 2);
        ++n;
    }
    if (n == 0)
        throw scene::InputError("chart-readings", {file},
                                "no reading in it is named as a field of the chart: A1, A2 … A8, B1 … E8. The first is "
                                "named '" +
                                    read.readings.front().name + "'");
    out.truth_de = std::sqrt(squares / n);
    return truth;
}

std::vector<std::optional<color::Lab>> planned_truth(ChartReading& out) {
    std::vector<std::optional<color::Lab>> truth;
    for (const auto& f : photo::chart_fields()) truth.emplace_back(f.lab);
    out.truth_de = photo::chart_nominal_de;
    out.warnings.push_back(
        {"chart-planned",
         {out.question.photo},
         "the chart's colors were taken as planned, and printers differ by ΔE 6 and more (a guess). Read its fields "
         "once with an instrument and name the file with --readings"});
    return truth;
}

// Mean linear values of a box, as the camera saw it.
std::array<double, 3> patch_mean(const photo::Pixels& p, const ChartPatch& patch, const std::string& file) {
    const auto& b = patch.box;
    const auto refuse = [&](const std::string& id, const std::string& text) {
        throw scene::InputError(id, {file}, "the patch '" + patch.name + "' " + text);
    };
    if (!(b.x >= 0 && b.y >= 0 && b.width > 0 && b.height > 0 && b.width <= p.width - b.x &&
          b.height <= p.height - b.y))
        refuse("patch-outside", "is not inside the picture, which is " + std::to_string(p.width) + " × " +
                                    std::to_string(p.height) + " pixels as seen");
    if (std::min(b.width, b.height) < least_patch)
        refuse("patch-small", "is smaller than " + std::to_string(least_patch) + " pixels a side");
    std::array<double, 3> sum{};
    double bright = 0;
    for (int y = b.y; y < b.y + b.height; ++y) {
        const auto* v = &p.rgb[3 * (std::size_t(y) * std::size_t(p.width) + std::size_t(b.x))];
        for (int x = 0; x < b.width; ++x, v += 3) {
            for (std::size_t c = 0; c < 3; ++c) sum[c] += v[c] / 65535.0;
            bright += std::max({v[0], v[1], v[2]}) > patch_bright * 65535;
        }
    }
    const double n = double(b.width) * b.height;
    if (bright > most_bright * n)
        refuse("patch-clipped", "is too bright to read on " + base::fixed(100 * bright / n, 0) +
                                    " % of it: glare, or too long an exposure");
    for (double& s : sum) s /= n;
    return sum;
}

measure::Reading lab_reading(const std::string& name, const color::Lab& lab, double spread) {
    measure::Reading r;
    r.name = name;
    r.lab = lab;
    r.light = "D65";
    r.observer = "2deg";
    r.spread_de = spread;
    return r;
}

}  // namespace

ChartReading read_chart(const scene::Library& library, const ChartQuestion& question) {
    ChartReading out;
    out.question = question;
    std::set<std::string> names;
    for (const auto& p : question.patches)
        if (!names.insert(p.name).second)
            throw scene::InputError("patch-twice", {question.photo}, "there are two patches named '" + p.name + "'");
    const auto lamp = color::make_weights(
        library.illuminant(question.photo_light.empty() ? "D65" : question.photo_light), library.observer("2deg"));
    out.wood_de = photo::wood_by_inks(lamp.white);
    if (question.photo_light.empty())
        out.warnings.push_back({"chart-light",
                                {question.photo},
                                "the light was taken to be daylight. Name it with --photo-light: under a filament lamp "
                                "readings of wood are surer by less than half"});
    const auto truth = question.readings.empty() ? planned_truth(out) : read_truth(library, out);
    try {
        const auto photo = photo::read_photo(read_picture(question.photo));
        out.head = photo.head;
        for (const auto& note : photo.notes) out.warnings.push_back({note.id, {question.photo}, note.text});
        const auto chart = photo::find_chart(photo.pixels);
        const double w = photo::chart_width_mm, h = photo::chart_height_mm;
        const photo::Point2 ends[] = {{0, 0}, {w, 0}, {w, h}, {0, h}};
        for (std::size_t k = 0; k < 4; ++k) out.corners[k] = chart.at(ends[k][0], ends[k][1]).value_or(photo::Point2{});
        out.fit = photo::fit_camera(photo::see_fields(photo.pixels, chart), truth, out.truth_de);
        out.spread_de =
            std::sqrt(std::pow(out.fit.left_out_de, 2) + std::pow(out.truth_de, 2) + std::pow(out.wood_de, 2));
        out.readings.format = "photograph";
        const auto back = chart.inverse();
        for (const auto& p : question.patches) {
            const auto rgb = patch_mean(photo.pixels, p, question.photo);
            const auto at =
                back.at(p.box.x + p.box.width / 2.0, p.box.y + p.box.height / 2.0).value_or(photo::Point2{w, h});
            out.readings.readings.push_back(lab_reading(p.name, out.fit.camera.lab(rgb, at[0], at[1]), out.spread_de));
        }
    } catch (const photo::PhotoFault& fault) {
        throw as_input(fault, question.photo);
    }
    return out;
}

std::string chart_plan_text() {
    measure::Readings all;
    for (const auto& f : photo::chart_fields())
        all.readings.push_back(lab_reading(f.name, f.lab, photo::chart_nominal_de));
    return measure::write_cgats(all, {std::string("foretone ") + scene::version,
                                      "color chart, fields as planned; STDEV_DE: how far prints differ (a guess)",
                                      "",
                                      {}});
}

std::string chart_readings_text(const ChartReading& reading) {
    return measure::write_cgats(
        reading.readings,
        {std::string("foretone ") + scene::version,
         "boards read from a photograph with the color chart; STDEV_DE holds the chart's and the camera's error",
         "",
         {"the errors of one photograph go together: differences between its boards are surer than their colors"}});
}

}  // namespace foretone::job
