// `chart`: the color chart to print; and a photograph of it beside boards, read.

#include <charconv>
#include <iostream>
#include <memory>

#include "common.hpp"
#include "foretone/format/chart_html.hpp"
#include "foretone/format/png.hpp"
#include "foretone/job/chart.hpp"
#include "foretone/layout/chart_page.hpp"
#include "foretone/report/chart_json.hpp"
#include "foretone/scene/names.hpp"
#include "foretone/scene/output.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {

struct ChartOptions : Common {
    std::string photo, photo_light, readings, paper = "a4";
    std::vector<std::string> patches;  // "NAME=X,Y,W,H" as written, checked
};

std::optional<job::ChartPatch> patch_of(const std::string& text) {
    const auto sign = text.rfind('=');
    if (sign == std::string::npos || sign == 0) return std::nullopt;
    int v[4] = {};
    const char* at = text.data() + sign + 1;
    const char* const end = text.data() + text.size();
    for (int i = 0; i < 4; ++i) {
        const auto r = std::from_chars(at, end, v[i]);
        if (r.ec != std::errc{}) return std::nullopt;
        at = r.ptr;
        if (i < 3 && (at == end || *at++ != ',')) return std::nullopt;
    }
    if (at != end) return std::nullopt;
    return job::ChartPatch{text.substr(0, sign), {v[0], v[1], v[2], v[3]}};
}

int make_chart(const ChartOptions& o) {
    const std::filesystem::path folder = o.out;
    std::vector<scene::OutputFile> files;
    files.push_back({folder / "chart.png", format::encode_png(layout::chart_page(), {layout::chart_dpi, "Color chart",
                                                                                     "Print at full size", false})});
    files.push_back(
        scene::OutputFile::text(folder / "chart.html", format::chart_html(o.paper == "a4" ? "A4" : "letter")));
    files.push_back(scene::OutputFile::text(folder / "chart-plan.txt", job::chart_plan_text()));
    std::vector<std::string> names;
    for (const auto& f : files) names.push_back(f.path.string());
    deliver(o, std::move(files), "");
    if (!o.speaks()) return 0;
    std::cout << "Print " << names[1] << " at full size (100 %, nothing fitted) and check its line of 100 mm. "
              << "Read its fields once with an instrument if you can; " << names[2]
              << " holds what they should be.\n\nopen:\n";
    for (const auto& n : names) std::cout << "  " << n << "\n";
    return 0;
}

int read_chart_photo(const ChartOptions& o) {
    const auto lib = library(o);
    job::ChartQuestion q{o.photo, o.readings, {}, o.photo_light};
    for (const auto& text : o.patches)
        if (const auto p = patch_of(text)) q.patches.push_back(*p);
    const auto r = job::read_chart(lib, q);
    std::vector<scene::OutputFile> files;
    std::string name;
    if (!q.patches.empty()) {
        const auto file = std::filesystem::path(o.out) /
                          (scene::file_word(std::filesystem::path(o.photo).stem().string()) + "-readings.txt");
        name = file.generic_string();
        files.push_back(scene::OutputFile::text(file, job::chart_readings_text(r)));
    }
    deliver(o, std::move(files), o.json.empty() ? "" : report::chart_json(r, name));
    print_warnings(o, r.warnings);
    if (!o.speaks()) return 0;
    std::cout << "chart found; camera fitted to " << r.fit.used
              << " fields: each read by a camera fitted without it, dE00 " << fixed(r.fit.left_out_mean, 1)
              << " in the mean, " << fixed(r.fit.left_out_p95, 1) << " at most in 95 of 100\n";
    if (q.patches.empty()) {
        std::cout << "No board was marked: --patch NAME=X,Y,W,H reads one.\n";
        return 0;
    }
    std::vector<std::vector<std::string>> rows = {{"patch", "L*     a*     b*", "spread dE"}};
    for (const auto& one : r.readings.readings)
        rows.push_back({one.name, lab_text(*one.lab), fixed(*one.spread_de, 1)});
    std::cout << "\n"
              << table(rows, {false, true, true}) << "under D65 for 2deg. Spread, one standard deviation: chart "
              << fixed(r.fit.left_out_de, 1) << ", its own colors " << fixed(r.truth_de, 1)
              << ", wood that has other colors than inks " << fixed(r.wood_de, 1)
              << ". Differences within the picture are surer.\n\nreadings, for boards files and scenes:\n  " << name
              << "\n";
    return 0;
}

}  // namespace

void add_chart(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<ChartOptions>();
    auto& o = *options;
    auto* verb = app.add_subcommand(
        "chart", "A color chart to print; photographed beside boards (--photo) it makes a camera read their colors");
    auto* photo =
        verb->add_option("--photo", o.photo, "Photograph (JPEG or PNG) with the printed chart and boards in it")
            ->type_name("IMG");
    verb->add_option("--patch", o.patches,
                     "A board to read: its name and where it lies, left, top, width, height in pixels of the picture "
                     "as seen; repeat it")
        ->type_name("NAME=X,Y,W,H")
        ->allow_extra_args(false)
        ->needs(photo)
        ->check([](const std::string& text) {
            return patch_of(text) ? std::string()
                                  : "--patch is NAME=X,Y,W,H in whole pixels, for example dyed=840,300,200,150, not '" +
                                        text + "'";
        });
    verb->add_option("--readings", o.readings, "The chart's own fields, read once with an instrument (A1 … E8)")
        ->type_name("FILE")
        ->needs(photo);
    verb->add_option("--photo-light", o.photo_light, "Light under which the photograph was taken (default: daylight)")
        ->type_name("ID")
        ->needs(photo);
    verb->add_option("--paper", o.paper, "Paper to print on: a4 or letter")
        ->check(CLI::IsMember({"a4", "letter"}))
        ->excludes(photo);
    add_common(*verb, *options);
    verb->callback([options, &chosen] {
        chosen = [options] { return options->photo.empty() ? make_chart(*options) : read_chart_photo(*options); };
    });
}

}  // namespace foretone::cli
