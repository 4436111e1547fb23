// A reading of a color says nothing of the curve behind it. The library's woods are the curves that wood is known to
// have; brought to the color that was read, they agree where the eye looks and differ where it does not, and that
// difference is carried as a spread of the reading.

#include "wood_shapes.hpp"

#include <cmath>
#include <vector>

namespace foretone::scene {

ShapeSpread shape_spread(const Library& library, const color::Lab& lab, const color::Weights& weights) {
    std::vector<spectral::Spectrum> shapes;
    for (const auto& id : library.ids(material::Kind::wood)) {
        auto wood = std::get<material::Wood>(library.material(id).data);
        if (material::relevel(wood, lab, weights)) shapes.push_back(wood.reflectance.values);
    }
    ShapeSpread out;
    out.woods = static_cast<int>(shapes.size());
    if (shapes.size() < 3) return out;
    double sum = 0;
    int terms = 0;
    for (std::size_t i = 0; i < shapes.front().size(); ++i) {
        const double nm = spectral::grid_nm(i);
        if (nm < 400 || nm > 700) continue;
        double mean = 0;
        for (const auto& s : shapes) mean += s[i] / static_cast<double>(shapes.size());
        for (const auto& s : shapes) {
            sum += (s[i] / mean - 1) * (s[i] / mean - 1);
            ++terms;
        }
    }
    out.sd = std::sqrt(sum / terms);
    return out;
}

std::string nearest_wood(const Library& library, const color::Lab& lab, const color::Weights& weights) {
    std::string best;
    double least = 1e300;
    for (const auto& id : library.ids(material::Kind::wood)) {
        const auto wood = library.material(id);
        const auto& curve = std::get<material::Wood>(wood.data).reflectance.values;
        const double de = color::delta_e_ab(color::to_lab(color::xyz(curve, weights), weights.white), lab);
        if (de < least) least = de, best = id;
    }
    return best;
}

std::string will_darken(const material::Materials& materials) {
    for (const auto& [id, m] : materials)
        if (m.kind == material::Kind::wood && m.name.find("fresh") != std::string::npos)
            return m.name +
                   ": the color told is that of the fresh board. In daylight it darkens and reddens within weeks, by "
                   "far "
                   "more than boards differ (common practice): put finished boards in the sun before they are judged";
    return "";
}

void make_generic(material::Wood& wood) {
    for (auto* figure : {&wood.surface_k1, &wood.surface_k2, &wood.scattering_per_mm, &wood.scattering_exponent,
                         &wood.n, &wood.porosity, &wood.density_g_per_cm3, &wood.level_um, &wood.absorbency})
        figure->sd *= 2;
}

}  // namespace foretone::scene
