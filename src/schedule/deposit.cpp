#include "foretone/schedule/deposit.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/base/number.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/schedule/suction.hpp"
#include "foretone/schedule/units.hpp"
#include "ready.hpp"

namespace foretone::schedule {
namespace {
using material::Binder;
using material::Method;
using spectral::Spectrum;

constexpr double assumed_soak_g_per_m2 = 70;  // common practice: a wiped dye or wash, wet

void add_scaled(Spectrum& sum, const Spectrum& part, double factor) {
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += factor * part[i];
}

const Binder* main_binder(const Mixture& m, const material::Materials& materials) {
    const Mixture::Binder* most = nullptr;
    for (const auto& b : m.binders)
        if (!most || b.dry_share > most->dry_share) most = &b;
    return most ? &std::get<Binder>(materials.at(most->id).data) : nullptr;
}

Method method_of(const Step& step, const Binder* binder, const material::Material* ready) {
    if (ready && !step.method) return usual_method(*ready);
    return step.method.value_or(!binder || binder->stay.value < 0.5 ? Method::wipe : Method::brush);
}

// As said in the step; else the usual wet film of the main binder for the method; else what a soaking liquid usually
// takes.
double wet_film_um(const Step& step, const Mixture& m, const Binder* binder, const material::Material* ready,
                   std::vector<std::string>& notes) {
    if (step.wet_um) return *step.wet_um;
    if (step.wet_g_per_m2) return *step.wet_g_per_m2 / m.density_g_per_ml;
    if (step.coverage_m2_per_l) return wet_um_from_coverage(*step.coverage_m2_per_l);
    if (ready) {
        const auto* colored = std::get_if<material::Colored>(&ready->data);
        return colored ? colored->wet_um.value : std::get<material::Treatment>(ready->data).wet_um.value;
    }
    if (!binder) {
        notes.push_back("no amount given: 70 g/m2 (0.23 oz/ft²) wet is taken (common practice)");
        return assumed_soak_g_per_m2 / m.density_g_per_ml;
    }
    const Method method = method_of(step, binder, nullptr);
    if (const auto& usual = binder->wet_um[static_cast<std::size_t>(method)]) return usual->value;
    throw Fault("wet-unknown", -1,
                "no usual wet film is known for this material by " +
                    std::string(material::method_words[static_cast<std::size_t>(method)]) +
                    ": give wet_um, wet_mil, wet_g_per_m2, coverage_m2_per_l or coverage_ft2_per_gal");
}

void check_film(double wet_um) {
    if (wet_um >= 1 && wet_um <= 500) return;
    throw Fault("wet-range", -1,
                "one coat would be " + base::significant(wet_um, 6) + " µm (" +
                    base::significant(wet_um / um_per_mil, 3) +
                    " mil) wet; a coat is between 1 and 500 µm (0.04 to 20 mil)");
}

// √ of how much longer than usual a wiped coat is kept wet.
double flood_of(const Step& step, Method method, const Mixture& m, const material::Materials& materials) {
    if (!step.flood_minutes) return 1;
    if (method != Method::wipe)
        throw Fault(
            "flood-not-wiped", -1,
            "flood_minutes is for what is wiped: put on wet, kept wet, the excess wiped off; this step is put on by " +
                std::string(material::method_words[static_cast<std::size_t>(method)]));
    const bool oil = std::any_of(m.binders.begin(), m.binders.end(),
                                 [&](const auto& b) { return materials.at(b.id).kind == material::Kind::oil; });
    return std::sqrt(*step.flood_minutes / (oil ? usual_oil_flood_min : usual_flood_min));
}

// Passes of a sprayed coat lie on each other before any of them dries.
double passes_of(const Step& step, Method method) {
    if (!step.passes) return 1;
    if (method != Method::spray)
        throw Fault("passes-not-sprayed", -1,
                    "passes is for what is sprayed, one pass over another while both are wet; this step is put on by " +
                        std::string(material::method_words[static_cast<std::size_t>(method)]));
    return *step.passes;
}

// What a rag leaves: of a glaze, a gel stain or a stain as its file says, of anything with binder as the step says.
std::optional<double> remainder_of(const Step& step, Method method, const Mixture& m, const material::Material* ready) {
    if (step.remainder && (method != Method::wipe || m.binders.empty()))
        throw Fault("remainder-not-wiped", -1,
                    "remainder is the share that is left of a coat with binder when it is wiped: a glaze, a stain; " +
                        std::string(m.binders.empty()
                                        ? "nothing in this step binds"
                                        : "this step is put on by " +
                                              std::string(material::method_words[static_cast<std::size_t>(method)])));
    if (step.remainder) return step.remainder;
    const auto* colored = ready ? std::get_if<material::Colored>(&ready->data) : nullptr;
    if (colored && method == Method::wipe) return colored->remainder.value;
    return std::nullopt;
}

// Hours until what was put on is dry: of its main binder, else of its liquid, else overnight.
double dry_h_of(const Mixture& m, const material::Materials& materials, const material::Material* ready) {
    if (ready && ready->order.recoat_early_h) return ready->order.recoat_early_h->value;
    const Mixture::Binder* most = nullptr;
    for (const auto& b : m.binders)
        if (!most || b.dry_share > most->dry_share) most = &b;
    const std::string& id = most ? most->id : m.carrier;
    if (id.empty() || !materials.count(id)) return 12;
    const auto& early = materials.at(id).order.recoat_early_h;
    return early ? early->value : 12;  // common practice: overnight
}

void add_ready(Deposit& d, const material::Material& ready) {
    if (const auto* colored = std::get_if<material::Colored>(&ready.data)) {
        if (colored->pore_fill) d.pore_fill = colored->pore_fill->value;
    } else {
        d.change = std::make_shared<WoodChange>(wood_change(std::get<material::Treatment>(ready.data)));
    }
}

void add_masses(Deposit& d, const Mixture& m, const material::Materials& materials) {
    d.laid_g = d.wet_um * m.density_g_per_ml;
    for (const auto& b : m.binders) d.binder_g += d.wet_um * b.dry_share * b.dry_density;
    for (const auto& p : m.powders) {
        const double g = p.g_per_l * d.wet_um / 1000.0;
        (std::holds_alternative<material::Dye>(materials.at(p.id).data) ? d.dye_g : d.pigment_g) += g;
    }
    // What holds nothing volatile is all binder, whatever its file says of densities.
    const double rest = d.laid_g - d.dye_g - d.pigment_g;
    d.binder_g = m.carrier.empty() ? rest : std::min(d.binder_g, rest);
    d.liquid_g = rest - d.binder_g;
}

void add_binders(Deposit& d, const Mixture& m, const material::Materials& materials) {
    const double solids = m.solids_share();
    if (!(solids > 0)) return;
    d.binder_um = d.wet_um * solids;
    d.binder_n = d.contact = 0;
    for (const auto& part : m.binders) {
        const auto& b = std::get<Binder>(materials.at(part.id).data);
        const double w = part.dry_share / solids;
        d.binder_n += w * b.n.value;
        d.stay += w * b.stay.value;
        d.contact += w * (b.contact ? b.contact->value : 1);
        d.binder_depth_um += w * b.depth_um.value;
        d.sheen_gu60 += w * b.sheen_gu60.value;
        add_scaled(d.binder_absorption_per_mm, material::absorption_per_mm(b), w);
        add_scaled(d.binder_haze_per_mm, material::haze_per_mm(b), w);
    }
}

void add_powders(Deposit& d, const Mixture& m, const material::Materials& materials) {
    for (const auto& p : m.powders) {
        const double g_per_m2 = p.g_per_l * d.wet_um / 1000.0;  // 1 µm over 1 m² is 1 mL
        const auto& data = materials.at(p.id).data;
        if (const auto* dye = std::get_if<material::Dye>(&data)) {
            add_scaled(d.dye_absorbance, material::mass_absorptivity_m2_per_g(*dye), g_per_m2);
        } else if (const auto* pigment = std::get_if<material::Pigment>(&data); pigment && d.pigment_g > 0) {
            add_scaled(d.pigment_absorbance, pigment->absorption_m2_per_g.values, g_per_m2);
            add_scaled(d.pigment_scattering, pigment->scattering_m2_per_g.values, g_per_m2);
            const double um = pigment->particle_um ? pigment->particle_um->value : material::usual_particle_um;
            d.particle_um += g_per_m2 / d.pigment_g * um;
            d.has_pigment = true;
        }
    }
}

}  // namespace

Deposit deposit(const Step& step, const material::Materials& materials) {
    const Mixture m = mix(step, materials);
    Deposit d;
    d.notes = m.notes;
    const Binder* binder = main_binder(m, materials);
    const material::Material* ready = ready_of(step, materials);
    d.wet_um = wet_film_um(step, m, binder, ready, d.notes);
    d.method = method_of(step, binder, ready);
    d.wet_um *= passes_of(step, d.method);
    d.wiped = d.method == Method::wipe;
    d.remainder = remainder_of(step, d.method, m, ready);
    if (ready) add_ready(d, *ready);
    d.flood = flood_of(step, d.method, m, materials);
    d.wet_um *= std::max(1.0, d.flood);
    check_film(d.wet_um);
    d.sand = step.sand;
    d.water_pop = step.water_pop;
    d.scuff = step.scuff;
    if (step.after_days) d.waited_h = *step.after_days * 24;
    d.dry_h = dry_h_of(m, materials, ready);
    d.raises_grain = m.binders.empty() && m.powders.empty() && m.carrier == "water" && !d.change;
    add_masses(d, m, materials);
    if (d.change && m.carrier.empty()) d.laid_g = d.binder_g = d.liquid_g = 0;  // a gas or a flame lays nothing on
    add_binders(d, m, materials);
    add_powders(d, m, materials);
    if (step.sheen_gu60) d.sheen_gu60 = *step.sheen_gu60;

    if (!m.carrier.empty()) {
        const auto& liquid = std::get<material::Liquid>(materials.at(m.carrier).data);
        d.liquid_n = liquid.n.value;
        d.liquid_depth_um = liquid.depth_um.value;
        d.liquid_fill = liquid.fill.value;
    } else {
        d.liquid_n = d.binder_n;  // a neat oil wets as what it is
        d.liquid_depth_um = d.binder_depth_um;
        d.liquid_fill = 1;
    }
    return d;
}

Deposit further_coat(const Deposit& first) {
    Deposit d = first;
    d.sand.reset();
    d.water_pop = d.scuff = false;
    d.waited_h.reset();
    return d;
}

Deposit thicker(const Deposit& deposit, double factor) {
    Deposit d = deposit;
    for (double* amount : {&d.wet_um, &d.laid_g, &d.liquid_g, &d.binder_g, &d.dye_g, &d.pigment_g, &d.binder_um})
        *amount *= factor;
    check_film(d.wet_um);
    for (auto* spectrum : {&d.dye_absorbance, &d.pigment_absorbance, &d.pigment_scattering})
        for (double& v : *spectrum) v *= factor;
    return d;
}

}  // namespace foretone::schedule
