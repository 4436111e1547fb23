// Every stage of every finish as a named sample with its reflectance: CGATS text, one file a light.

#include "export_job.hpp"
#include "foretone/measure/cgats.hpp"
#include "foretone/scene/version.hpp"

namespace foretone::job {

void export_palette(const ExportJob& job) {
    const auto& look = job.scene.look;
    for (std::size_t l = 0; l < look.lights.size(); ++l) {
        measure::Readings palette;
        for (const auto& f : job.out.preview.finishes)
            for (const auto& s : f.stages) {
                const auto& c = s.colors[l];
                measure::Reading r;
                const std::string stage(appearance::word(s.stage.kind));
                r.name = f.name + ": " + stage;
                if (s.stage.after_step > 0)
                    r.name += ", step " + std::to_string(s.stage.after_step) + " coat " + std::to_string(s.stage.coat);
                r.tags = {{"wood", job.scene.wood},
                          {"finish", f.name},
                          {"stage", stage},
                          {"step", std::to_string(s.stage.after_step)},
                          {"coat", std::to_string(s.stage.coat)},
                          {"srgb_hex", c.screen.hex().substr(1)},
                          {"in_gamut", c.screen.in_gamut ? "yes" : "no"}};
                r.reflectance = spectral::from_grid(s.reflectance);
                r.xyz = c.xyz;
                r.lab = c.lab;
                r.light = c.light;
                r.observer = look.observer;
                r.geometry = look.geometry;
                r.spread_de = c.spread_de00;
                palette.readings.push_back(std::move(r));
            }
        measure::CgatsHeader header;
        header.originator = std::string("foretone ") + scene::version;
        header.descriptor = job.scene.title;
        header.comments = {
            "Predicted, not measured. STDEV_DE is one standard deviation of the prediction, CIEDE2000.",
            "SRGB_HEX is the color on a screen, adapted to D65; where IN_GAMUT is no, its chroma is reduced."};
        for (const auto& f : job.out.preview.finishes)
            header.comments.push_back(f.name + " rests on: " + resting(f.spread));
        const std::string text = measure::write_cgats(palette, header);
        job.add(ExportKind::palette, "", look.lights[l], "a sample for each stage: reflectance, XYZ, Lab",
                job.stem + "-palette-" + job.light_words[l] + ".txt", {text.begin(), text.end()});
    }
}

}  // namespace foretone::job
