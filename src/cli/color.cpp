#include <iostream>
#include <memory>

#include "common.hpp"
#include "foretone/report/json.hpp"
#include "foretone/scene/readings.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {

struct ColorOptions : Common {
    std::string spectrum;
    std::string sample;
    std::vector<std::string> lights;
    std::string observer = "2deg";
};

int run_color(const ColorOptions& options) {
    const auto lib = library(options);
    const auto one = scene::read_one_reflectance(options.spectrum, lib, options.sample);
    const auto& sampled = one.reflectance;
    const auto grid = spectral::to_grid(sampled);
    const auto observer = lib.observer(options.observer);
    std::vector<job::SeenColor> colors;
    for (const auto& id : options.lights)
        colors.push_back(job::see(grid.spectrum, id, color::make_weights(lib.illuminant(id), observer)));

    auto warnings = one.notes;
    if (grid.resampled) warnings.push_back({"spectrum-resampled", {options.spectrum}, "resampled to 380-780 nm, 5 nm"});
    if (grid.held_below || grid.held_above)
        warnings.push_back({"spectrum-extended",
                            {options.spectrum},
                            "the readings run from " + scene::number(sampled.first_nm()) + " to " +
                                scene::number(sampled.last_nm()) + " nm: end values were held to 380 and 780 nm"});
    for (const auto& c : colors)
        if (!c.screen.in_gamut)
            warnings.push_back(
                {"out-of-gamut",
                 {options.spectrum},
                 "under " + c.light + " the color is beyond sRGB; chroma was reduced at constant hue and lightness"});
    print_warnings(options, warnings);

    put_json(options, report::colors_json(colors, options.observer, "as read", warnings));
    if (!options.speaks()) return 0;

    std::vector<std::vector<std::string>> rows = {{"light", "", "X", "Y", "Z", "L*", "a*", "b*", "hex"}};
    for (const auto& c : colors)
        rows.push_back({c.light, chip(c.screen.code, chips()), fixed(c.xyz.x, 4), fixed(c.xyz.y, 4), fixed(c.xyz.z, 4),
                        fixed(c.lab.l, 2), fixed(c.lab.a, 2), fixed(c.lab.b, 2),
                        c.screen.hex() + (c.screen.in_gamut ? "" : "*")});
    std::cout << table(rows, {false, false, true, true, true, true, true, true, false});
    return 0;
}

}  // namespace

void add_color(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<ColorOptions>();
    options->lights = {"D65"};
    auto* verb = app.add_subcommand("color", "XYZ, Lab and sRGB of a reflectance under lights");
    verb->add_option("SPECTRUM", options->spectrum,
                     "File of a reflectance: wavelength_nm,reflectance; or readings as CGATS or CSV")
        ->required();
    verb->add_option("--sample", options->sample, "Which reading, if the file holds several")->type_name("NAME");
    verb->add_option("--light", options->lights, "Light, may be given several times (default: D65)")->type_name("ID");
    verb->add_option("--observer", options->observer, "2deg or 10deg (default: 2deg)");
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_color(*options); }; });
}

}  // namespace foretone::cli
