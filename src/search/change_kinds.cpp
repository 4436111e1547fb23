// Strength is concentration. With d parts of ready dye in d + w parts, f times the concentration is d parts in (d +
// w)/f: the liquid changes to w′ = (d + w)/f − d, and at w′ = 0 the dye is at its strongest. Where colorants are given
// against a fixed whole (g/L, g, percent with a rest) their own amounts are multiplied.

#include "change_kinds.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/schedule/deposit.hpp"

namespace foretone::search {
namespace {
using schedule::Amount;
using schedule::Part;
using schedule::Step;

bool by_volume(Amount a) { return a == Amount::parts || a == Amount::ml || a == Amount::drops; }

double in_parts(const Part& p) { return p.amount == Amount::drops ? p.value * 0.05 : p.value; }

std::string carrier_of(const std::string& id, const material::Materials& materials) {
    const auto* stock = std::get_if<material::Stock>(&materials.at(id).data);
    return stock ? stock->carrier : "";
}

// All parts by volume, none a powder.
bool all_by_volume(const Step& step, const material::Materials& materials) {
    return std::all_of(step.mix.begin(), step.mix.end(),
                       [&](const Part& p) { return by_volume(p.amount) && !facts(materials.at(p.use).kind).powder; });
}

// A plain liquid in the mix, or the carrier that a single ready dye can be thinned with.
std::optional<std::size_t> thinner(Step& step, const material::Materials& materials) {
    for (std::size_t i = 0; i < step.mix.size(); ++i)
        if (facts(materials.at(step.mix[i].use).kind).bare_liquid) return i;
    for (const auto& part : step.mix) {
        const std::string carrier = carrier_of(part.use, materials);
        if (carrier.empty() || !materials.count(carrier)) continue;
        step.mix.push_back(
            {carrier, step.mix.front().amount == Amount::drops ? Amount::ml : step.mix.front().amount, 0});
        return step.mix.size() - 1;
    }
    return std::nullopt;
}

}  // namespace

double rounded(double v, int digits) {
    if (v == 0 || !std::isfinite(v)) return v;
    const double scale = std::pow(10.0, digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(v)))));
    return std::round(v * scale) / scale;
}

bool is_colorant(const std::string& id, const material::Materials& materials) {
    return facts(materials.at(id).kind).colorant;
}

bool has_colorant(const Step& step, const material::Materials& materials) {
    return std::any_of(step.mix.begin(), step.mix.end(), [&](const Part& p) { return is_colorant(p.use, materials); });
}

bool has_binder(const Step& step, const material::Materials& materials) {
    return std::any_of(step.mix.begin(), step.mix.end(), [&](const Part& p) { return is_binder(materials.at(p.use)); });
}

bool takes_cut(const Step& step, const material::Materials& materials) {
    return std::any_of(step.mix.begin(), step.mix.end(), [&](const Part& p) {
        const auto* b = std::get_if<material::Binder>(&materials.at(p.use).data);
        return b && b->resin_density_g_per_ml;
    });
}

bool wiped_oil(const Step& step, const material::Materials& materials) {
    return std::any_of(step.mix.begin(), step.mix.end(),
                       [&](const Part& p) { return materials.at(p.use).kind == material::Kind::oil; }) &&
           schedule::deposit(step, materials).wiped;
}

std::optional<Step> at_strength(const Step& step, const material::Materials& materials, double factor) {
    Step out = step;
    if (all_by_volume(step, materials) && !has_binder(step, materials)) {
        const auto liquid = thinner(out, materials);
        if (!liquid) return std::nullopt;
        double whole = 0, dye = 0;
        for (std::size_t i = 0; i < out.mix.size(); ++i) {
            whole += in_parts(out.mix[i]);
            if (i != *liquid) dye += in_parts(out.mix[i]);
        }
        const double left = rounded(whole / factor - dye, 3);
        if (left < 0) return std::nullopt;
        if (left == 0)
            out.mix.erase(out.mix.begin() + static_cast<std::ptrdiff_t>(*liquid));
        else
            out.mix[*liquid].value = out.mix[*liquid].amount == Amount::drops ? left / 0.05 : left;
        if (out.mix.size() == 1) out.mix.front() = {out.mix.front().use, Amount::parts, 1};
        return out;
    }
    const bool rest =
        std::any_of(step.mix.begin(), step.mix.end(), [](const Part& p) { return p.amount == Amount::rest; });
    double percent = 0;
    for (auto& part : out.mix) {
        if (is_colorant(part.use, materials) && part.amount != Amount::rest)
            part.value = rounded(part.value * factor, 3);
        if (part.amount == Amount::percent_volume || part.amount == Amount::percent_weight) percent += part.value;
    }
    if (percent > 0 && (!rest || percent >= 100)) return std::nullopt;
    return out;
}

std::optional<Step> with_touch(const Step& step, const material::Materials& materials, const std::string& id,
                               double amount) {
    Step out = step;
    if (facts(materials.at(id).kind).powder) {
        out.mix.push_back({id, Amount::g_per_l, rounded(amount, 2)});
        return out;
    }
    if (!all_by_volume(step, materials)) return std::nullopt;
    double whole = 0;
    for (const auto& p : step.mix) whole += in_parts(p);
    const bool parts = step.mix.front().amount == Amount::parts;
    out.mix.push_back({id, parts ? Amount::parts : Amount::ml, rounded(amount * whole / (1 - amount), 2)});
    return out;
}

Step at_film(const Step& step, const material::Materials& materials, double factor) {
    Step out = step;
    out.wet_um = std::clamp(std::round(schedule::deposit(step, materials).wet_um * factor), 1.0, 500.0);
    out.wet_g_per_m2 = out.coverage_m2_per_l = std::nullopt;
    return out;
}

}  // namespace foretone::search
