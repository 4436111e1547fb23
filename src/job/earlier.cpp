#include "foretone/job/earlier.hpp"

#include "foretone/search/words.hpp"

namespace foretone::job {

std::vector<EarlierReading> earlier_readings(const scene::Notebook& notebook, const Preview& preview,
                                             std::size_t finish) {
    const auto& seen = preview.finishes.at(finish);
    const auto& look = preview.scene.look;
    std::vector<EarlierReading> out;
    for (const auto& e : notebook.entries) {
        if (e.finish != seen.name || e.geometry != scene::geometry_text(look.geometry)) continue;
        for (const auto& r : e.read) {
            if (r.observer != look.observer) continue;
            for (const auto& c : seen.stages.back().colors)
                if (c.light == r.light)
                    out.push_back({e.id, e.date, e.sample, r.light, r.lab, c.lab, color::delta_e_00(r.lab, c.lab),
                                   e.recipe == search::mixing_line(preview.scene.finishes.at(finish))});
        }
    }
    return out;
}

}  // namespace foretone::job
