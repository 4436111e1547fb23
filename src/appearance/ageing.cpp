// A board in time. Symbols: A absorbance of a layer, one pass, natural log · T share of light that passes what lies
// above · D dose on the board's face.
//
//   a film, color in a film      D · T · (1 − e^(−A))/A      the mean over its own depth
//   wood, color in wood          D · (1 − w + w T) · (1 − e^(−Z))/Z
//
// w is the share that films cover and Z the absorbance of what has soaked in: strong color shelters the wood it is in,
// and itself. Light is taken to pass straight through, once: what wood throws back upwards and slanting light are left
// out, which is within the spread of any dose. For visible light all are taken as clear: a dye's own shade slows its
// fading by less than its class is sure to. Films are seen fresh: the little that aged ones shelter more is left out,
// so that doses simply add.
//
// Ageing changes absorptions and nothing else: the account of every coat, films, gloss and scattering are the fresh
// board's.

#include "foretone/appearance/ageing.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/material/optics_of.hpp"
#include "foretone/schedule/mixture.hpp"
#include "moments.hpp"

namespace foretone::appearance {
namespace {
using material::AgeSpan;
using material::Dose;
using material::Material;
using material::Materials;
using Reach = Shelter::Reach;

// Mean over its depth of light that a layer takes away.
double within(double absorbance) { return absorbance > 1e-9 ? -std::expm1(-absorbance) / absorbance : 1; }

double violet_of(const spectral::Spectrum& s) {  // mean, 400–430 nm
    double sum = 0;
    for (std::size_t i = 4; i <= 10; ++i) sum += s[i];
    return std::max(0.0, sum / 7);
}

// Absorbance of a layer.
struct Depth {
    double ultraviolet = 0, violet = 0;
    void add(const Depth& d) { ultraviolet += d.ultraviolet, violet += d.violet; }
};

Depth depth_of(const Coat& coat, double uv_absorbed) {
    const double mm = coat.thickness_um / 1000;
    return {material::ultraviolet_per_mm(coat.absorption_per_mm, uv_absorbed) * mm,
            violet_of(coat.absorption_per_mm) * mm};
}

// Largest of the binders that a step lays.
double uv_of(const schedule::Step& step, const Materials& materials, const AgeingLaws& laws) {
    double share = 0;
    for (const auto& part : step.mix)
        if (const auto& m = materials.at(part.use); is_binder(m)) share = std::max(share, laws.uv_absorbed(m));
    return share;
}

Dose reaching(const Dose& d, const Reach& r) {
    return {d.mega_lux_hours, d.ultraviolet_wh * r.ultraviolet, d.violet_wh * r.violet, d.days};
}

// Puts a step's materials, aged, beside the fresh ones.
class StepAgeing {
public:
    StepAgeing(const Materials& fresh, Materials& to, const AgeingLaws& laws, std::vector<Dose> doses, Ages what,
               const std::string& suffix)
        : fresh_(fresh), to_(to), laws_(laws), doses_(std::move(doses)), what_(what), suffix_(suffix) {}

    std::string operator()(const std::string& id) {
        const Material& m = fresh_.at(id);
        const bool film = is_binder(m) && (what_ == Ages::all || what_ == Ages::film);
        const bool color =
            std::holds_alternative<material::Dye>(m.data) || std::holds_alternative<material::Stock>(m.data);
        if (!film && !(color && (what_ == Ages::all || what_ == Ages::dye))) return id;
        Material out = m;
        out.id = id + suffix_;
        if (auto* stock = std::get_if<material::Stock>(&out.data))
            for (auto& load : stock->mix) load.use = (*this)(load.use);
        if (auto* dye = std::get_if<material::Dye>(&out.data)) fade(*dye, laws_.lightfastness.find(id)->second);
        if (film) yellow(std::get<material::Binder>(out.data), laws_.film(m));
        const std::string name = out.id;
        to_.insert_or_assign(name, std::move(out));
        return name;
    }

private:
    void fade(material::Dye& dye, double lightfastness) const {
        Dose whole;
        for (const auto& d : doses_) whole += d;
        const double left = material::dye_left(lightfastness, whole);
        for (double& v : dye.molar_absorptivity.values.values) v *= left;
    }

    void yellow(material::Binder& binder, const material::FilmAgeing& law) const {
        material::FilmAged state;
        for (const auto& d : doses_)
            if (d.days > 0) state = material::after(state, law, material::actinic_wh(d) / d.days, d.days);
        material::SpectrumFigure color;
        color.values = material::aged_absorption(material::absorption_per_mm(binder), law, state);
        color.from = law.dark_per_mm.from;
        binder.absorption_per_mm = color;
        binder.gardner.reset();
        binder.gardner_solids_volume_percent.reset();
    }

    const Materials& fresh_;
    Materials& to_;
    const AgeingLaws& laws_;
    std::vector<Dose> doses_;
    Ages what_;
    std::string suffix_;
};

}  // namespace

const material::Wood& AgedFinish::wood_data() const { return std::get<material::Wood>(materials.at(wood).data); }

Shelter shelter(const Materials& materials, const std::string& wood_id, const schedule::Finish& finish,
                const Departure& departure, const AgeingLaws& laws) {
    const auto& wood = std::get<material::Wood>(materials.at(wood_id).data);
    std::vector<std::size_t> coats_after(finish.steps.size(), 0);  // how many films lie there after each step
    Board board;
    visit_moments(materials, wood, finish, departure, nullptr, [&](const Moment& m) {
        if (m.kind == StageKind::damp) return;
        board = m.board();
        if (m.step >= 0) coats_after[static_cast<std::size_t>(m.step)] = board.coats.size();
    });
    Shelter out;
    out.steps.resize(finish.steps.size());
    Depth above, zone;
    const auto passed = [](const Depth& d) { return Reach{std::exp(-d.ultraviolet), std::exp(-d.violet)}; };
    std::vector<bool> films(finish.steps.size(), false);
    for (std::size_t s = finish.steps.size(); s-- > 0;) {  // from the top down
        const std::size_t to = coats_after[s], from = s == 0 ? 0 : std::min(coats_after[s - 1], to);
        const double uv = to > from ? uv_of(finish.steps[s], materials, laws) : 0;
        Depth own;
        for (std::size_t c = from; c < to; ++c) own.add(depth_of(board.coats[c], uv));
        const Reach top = passed(above);
        out.steps[s] = {top.ultraviolet * within(own.ultraviolet), top.violet * within(own.violet)};
        films[s] = to > from;
        above.add(own);
    }
    for (const auto& soaked : board.zone) zone.add({std::max(0.0, soaked.absorbance[0]), violet_of(soaked.absorbance)});
    const double w = board.coats.empty() ? 0 : board.covered(wood);
    const Reach all = passed(above);
    out.wood = {(1 - w + w * all.ultraviolet) * within(zone.ultraviolet),
                (1 - w + w * all.violet) * within(zone.violet)};
    for (std::size_t s = 0; s < films.size(); ++s)
        if (!films[s]) out.steps[s] = out.wood;
    return out;
}

AgedFinish aged(const Materials& materials, const std::string& wood, const schedule::Finish& finish,
                const Departure& departure, const AgeingLaws& laws, std::span<const AgeSpan> times, Ages what) {
    AgedFinish out{materials, wood, finish};
    std::vector<Dose> doses;
    Dose whole;
    for (const auto& t : times) {
        Dose d = material::dose(material::exposure(t.stands), t.days);
        d = {laws.light * d.mega_lux_hours, laws.light * d.ultraviolet_wh, laws.light * d.violet_wh, d.days};
        whole += d;
        doses.push_back(d);
    }
    if (!(whole.days > 0)) return out;
    const Shelter reach = shelter(materials, wood, finish, departure, laws);
    if (what == Ages::all || what == Ages::wood) {
        auto& data = std::get<material::Wood>(out.materials.at(wood).data);
        const double dose = material::actinic_wh(reaching(whole, reach.wood));
        data = material::aged_wood(data, laws.wood, material::aged(laws.wood, dose, whole.days));
    }
    for (std::size_t s = 0; s < finish.steps.size(); ++s) {
        std::vector<Dose> own;
        for (const auto& d : doses) own.push_back(reaching(d, reach.steps[s]));
        StepAgeing age(materials, out.materials, laws, std::move(own), what, "#" + std::to_string(s + 1));
        for (auto& part : out.finish.steps[s].mix) part.use = age(part.use);
    }
    return out;
}

AgedFinish aged(const Materials& materials, const std::string& wood, const schedule::Finish& finish,
                std::span<const AgeSpan> times, Ages what) {
    return aged(materials, wood, finish, {}, ageing_laws(materials, wood), times, what);
}

Materials aged_alike(const Materials& materials, const std::string& wood, const schedule::Finish& like,
                     std::span<const AgeSpan> times) {
    const AgeingLaws laws = ageing_laws(materials, wood);
    const Shelter reach = shelter(materials, wood, like, {}, laws);
    Materials out = materials;
    const auto doses = [&](const Reach& r) {
        std::vector<Dose> own;
        for (const auto& t : times) own.push_back(reaching(material::dose(material::exposure(t.stands), t.days), r));
        return own;
    };
    for (const auto& [id, m] : materials) {
        if (m.kind == material::Kind::wood) continue;
        StepAgeing age(materials, out, laws,
                       doses(is_binder(m) && !reach.steps.empty() ? reach.steps.back() : reach.wood), Ages::all, "");
        age(id);
    }
    for (std::size_t s = 0; s < like.steps.size(); ++s)
        for (const auto& part : like.steps[s].mix)
            StepAgeing(materials, out, laws, doses(reach.steps[s]), Ages::all, "")(part.use);
    out.at(wood) = aged(materials, wood, like, {}, laws, times, Ages::wood).materials.at(wood);
    return out;
}

}  // namespace foretone::appearance
