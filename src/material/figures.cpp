// One visitor over the figures of each kind of data, with units and valid ranges: whoever lists, checks, moves, reads
// or writes figures goes by it, so that a figure is named once.

#include "foretone/material/figures.hpp"

#include <algorithm>

namespace foretone::material {
namespace {

// What happens to figures that a material may lack: listed if there, put in so as to be listed, or taken out unless
// kept.
enum class Lacking { skipped, put_in, dropped };

struct Collector {
    std::vector<FigureAt> out;
    Lacking lacking = Lacking::skipped;
    const std::set<std::string>* keep = nullptr;  // with Lacking::dropped

    void operator()(std::string key, std::string unit, double low, double high, Figure& f, bool optical = true) {
        out.push_back({std::move(key), std::move(unit), low, high, &f, nullptr, optical});
    }
    void operator()(std::string key, std::string unit, double low, double high, SpectrumFigure& f) {
        out.push_back({std::move(key), std::move(unit), low, high, nullptr, &f, true});
    }
    // Figures of age move no color of a fresh board.
    void of_age(std::string key, double low, double high, std::optional<Figure>& f) {
        const std::size_t before = out.size();
        (*this)(std::move(key), "", low, high, f);
        if (out.size() > before) out.back().optical = false;
    }
    template <class F>
    void operator()(std::string key, std::string unit, double low, double high, std::optional<F>& f) {
        if (lacking == Lacking::put_in && !f) f.emplace();
        if (lacking == Lacking::dropped && !keep->count(key)) f.reset();
        if (!f) return;
        (*this)(std::move(key), std::move(unit), low, high, *f);
        out.back().may_lack = true;
    }
};

// Ranges are what a finisher's material can be, generously: outside them a number is a slip of the unit.
void visit(Wood& m, Collector& at) {
    at("reflectance", "", 0.005, 0.98, m.reflectance);
    at("surface_k1", "", 0, 0.2, m.surface_k1);
    at("surface_k2", "", 0, 0.7, m.surface_k2);
    at("scattering_per_mm", "1/mm", 0.5, 100, m.scattering_per_mm);
    at("scattering_exponent", "", -1, 4, m.scattering_exponent);
    at("n", "", 1.3, 1.8, m.n);
    at("porosity", "", 0.05, 0.95, m.porosity);
    at("density_g_per_cm3", "g/cm3", 0.1, 1.4, m.density_g_per_cm3, false);
    at("level_um", "um", 0.5, 100, m.level_um);
    at("absorbency", "", 0.1, 5, m.absorbency);
    at("tannin_percent", "%", 0, 30, m.tannin_percent);
    if (m.grain)
        for (auto& f : grain_figures(*m.grain)) {
            f.key = "grain." + f.key;
            at.out.push_back(std::move(f));
        }
}

void visit(Dye& m, Collector& at) {
    at("molar_absorptivity", "L/(mol cm)", -1e4, 5e5, m.molar_absorptivity);
    at("molar_mass_g_per_mol", "g/mol", 50, 3000, m.molar_mass_g_per_mol);
    at("purity", "", 0.01, 1, m.purity);
    at("density_g_per_cm3", "g/cm3", 0.5, 5, m.density_g_per_cm3, false);
    at.of_age("lightfastness", 1, 8, m.lightfastness);
}

void visit(Stock& m, Collector& at) { at("strength", "", 0.05, 5, m.strength); }

void visit(Pigment& m, Collector& at) {
    at("absorption_m2_per_g", "m2/g", 0, 50, m.absorption_m2_per_g);
    at("scattering_m2_per_g", "m2/g", 0, 50, m.scattering_m2_per_g);
    at("density_g_per_cm3", "g/cm3", 0.5, 12, m.density_g_per_cm3, false);
    at("particle_um", "um", 0.01, 100, m.particle_um);
}

void visit(Binder& m, Collector& at) {
    at("gardner", "", 1, 18, m.gardner);
    at("gardner_solids_volume_percent", "%", 1, 100, m.gardner_solids_volume_percent);
    at("absorption_per_mm", "1/mm", 0, 1e4, m.absorption_per_mm);
    at("n", "", 1.2, 1.8, m.n);
    at("density_g_per_ml", "g/mL", 0.6, 2, m.density_g_per_ml);
    at("solids_volume_percent", "%", 1, 100, m.solids_volume_percent);
    at("resin_density_g_per_ml", "g/mL", 0.6, 2, m.resin_density_g_per_ml);
    at("cut_lb", "lb/gal", 0.1, 6, m.cut_lb);
    at("haze_per_mm", "1/mm", 0, 50, m.haze_per_mm);
    at("haze_exponent", "", -1, 5, m.haze_exponent);
    at("contact", "", 0.2, 1, m.contact);
    at("stay", "", 0, 1, m.stay);
    at("depth_um", "um", 1, 1000, m.depth_um);
    at("sheen_gu60", "GU", 0, 100, m.sheen_gu60);
    for (std::size_t i = 0; i < m.wet_um.size(); ++i)
        at("wet_um." + std::string(method_words[i]), "um", 1, 500, m.wet_um[i]);
    at("coverage_m2_per_l", "m2/L", 1, 100, m.coverage_m2_per_l, false);
    at.of_age("uv_absorbed", 0, 0.99, m.uv_absorbed);
}

void visit(Liquid& m, Collector& at) {
    at("n", "", 1.2, 1.7, m.n);
    at("density_g_per_ml", "g/mL", 0.5, 2, m.density_g_per_ml);
    at("depth_um", "um", 1, 1000, m.depth_um);
    at("fill", "", 0, 1, m.fill);
}

void visit(Colored& m, Collector& at) {
    at("binder_volume_percent", "%", 0.5, 95, m.binder_volume_percent);
    at("strength", "", 0.05, 5, m.strength);
    at("remainder", "", 0, 1, m.remainder);
    at("pore_fill", "", 0, 1, m.pore_fill);
    at("wet_um", "um", 1, 500, m.wet_um);
}

void visit(Treatment& m, Collector& at) {
    at("takes_wood", "", 0, 1, m.takes_wood);
    at("floor", "", 0, 1, m.floor);
    at("takes_dye", "", 0, 1, m.takes_dye);
    at("takes_iron", "", 0, 1, m.takes_iron);
    at("gives_tannin_percent", "%", 0, 30, m.gives_tannin_percent);
    at("half_tannin_percent", "%", 0.01, 30, m.half_tannin_percent);
    at("adds_absorbance", "", 0, 20, m.adds_absorbance);
    at("depth_um", "um", 1, 5000, m.depth_um);
    at("wet_um", "um", 1, 500, m.wet_um);
}

}  // namespace

std::vector<FigureAt> grain_figures(Grain& g) {
    Collector at;
    const auto put = [&](const char* key, const char* unit, double low, double high, Figure& f) {
        at(key, unit, low, high, f, false);
    };
    put("ring_mm", "mm", 0.2, 20, g.ring_mm);
    put("ring_variation", "", 0, 1, g.ring_variation);
    put("ring_waver_mm", "mm", 0, 5, g.ring_waver_mm);
    put("late_share", "", 0.02, 0.95, g.late_share);
    put("late_abrupt", "", 0, 1, g.late_abrupt);
    put("late_shade", "", -1, 2.5, g.late_shade);
    put("late_uptake", "", 0.05, 5, g.late_uptake);
    put("line_mm", "mm", 0, 2, g.line_mm);
    put("line_shade", "", -1, 2, g.line_shade);
    put("pore_um", "um", 10, 600, g.pore_um);
    put("pore_per_mm2", "1/mm2", 0, 500, g.pore_per_mm2);
    put("pore_zone", "", 0.02, 1, g.pore_zone);
    put("pore_mm", "mm", 0.2, 30, g.pore_mm);
    put("small_pore_um", "um", 5, 300, g.small_pore_um);
    put("small_pore_per_mm2", "1/mm2", 0, 500, g.small_pore_per_mm2);
    put("pore_shade", "", -1, 3, g.pore_shade);
    put("pore_uptake", "", 0.1, 10, g.pore_uptake);
    put("ray_um", "um", 5, 1000, g.ray_um);
    put("ray_mm", "mm", 0.05, 150, g.ray_mm);
    put("ray_per_mm", "1/mm", 0, 20, g.ray_per_mm);
    put("ray_shade", "", -1.5, 1.5, g.ray_shade);
    put("ray_end_shade", "", -1.5, 1.5, g.ray_end_shade);
    put("fibre_shade", "", 0, 0.5, g.fibre_shade);
    put("streak_shade", "", 0, 1, g.streak_shade);
    put("streak_mm", "mm", 0.5, 100, g.streak_mm);
    put("drift_shade", "", 0, 0.5, g.drift_shade);
    put("speck_per_dm2", "1/dm2", 0, 200, g.speck_per_dm2);
    put("speck_mm", "mm", 0.2, 30, g.speck_mm);
    put("slope_deg", "deg", 0, 10, g.slope_deg);
    put("curl_deg", "deg", 0, 20, g.curl_deg);
    put("curl_mm", "mm", 2, 60, g.curl_mm);
    put("ribbon_deg", "deg", 0, 20, g.ribbon_deg);
    put("ribbon_mm", "mm", 3, 100, g.ribbon_mm);
    put("blotch", "", 0, 1, g.blotch);
    put("blotch_mm", "mm", 1, 100, g.blotch_mm);
    put("end_uptake", "", 0.5, 15, g.end_uptake);
    return std::move(at.out);
}

std::vector<FigureAt> figures(Material& m) {
    Collector at;
    std::visit([&](auto& data) { visit(data, at); }, m.data);
    return std::move(at.out);
}

std::vector<FigureAt> all_figures(Material& m) {
    Collector at;
    at.lacking = Lacking::put_in;
    std::visit([&](auto& data) { visit(data, at); }, m.data);
    return std::move(at.out);
}

std::string load_key(std::size_t number) { return "mix." + std::to_string(number + 1); }

double* load_at(Material& m, std::string_view key) {
    auto* stock = std::get_if<Stock>(&m.data);
    for (std::size_t i = 0; stock && i < stock->mix.size(); ++i)
        if (key == load_key(i)) return &stock->mix[i].g_per_l;
    return nullptr;
}

void keep_figures(Material& m, const std::set<std::string>& keys) {
    Collector at;
    at.lacking = Lacking::dropped;
    at.keep = &keys;
    std::visit([&](auto& data) { visit(data, at); }, m.data);
}

Mark weakest(const Material& m) {
    Material copy = m;
    Mark mark = Mark::measured;
    for (const auto& f : figures(copy))
        if (f.optical) mark = weaker(mark, f.from().mark);
    return mark;
}

void move(const FigureAt& at, double sigmas) {
    if (at.figure) {
        at.figure->value = std::clamp(at.figure->value + sigmas * at.figure->sd, at.low, at.high);
        return;
    }
    const double factor = std::max(0.0, 1 + sigmas * at.spectrum->sd);
    for (double& v : at.spectrum->values) v = std::clamp(v * factor, at.low, at.high);
}

}  // namespace foretone::material
