// Each rule is one function over two layers. A rule that needs a fact the materials do not state stays silent, and
// `order-unknown` says so once a material.

#include "foretone/schedule/order_rules.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "foretone/base/number.hpp"
#include "foretone/schedule/measure.hpp"
#include "foretone/schedule/pot.hpp"
#include "foretone/schedule/uptake.hpp"
#include "coat_facts.hpp"
#include "order_ready.hpp"

namespace foretone::schedule {
namespace {
using material::Method;
using material::Materials;
using material::Sure;

bool yes(const std::optional<material::YesNo>& fact) { return fact && fact->value; }

// A disputed fact never makes a failure.
Severity at_most(Severity severity, Sure sure) {
    return sure == Sure::conflicting ? std::min(severity, Severity::warning) : severity;
}

std::string shared_solvent(const CoatFacts& under, const CoatFacts& over) {
    for (const auto& c : over.carriers)
        if (under.lifted_by.count(c)) return c;
    return "";
}

struct Pair {
    int step;
    const CoatFacts& under;
    const CoatFacts& over;
    std::optional<double> days;
    bool scuffed;
    const Materials& materials;
    std::vector<Finding>& out;
    double goes_in = 1;        ///< share of the upper layer's color that the wood below still takes
    bool coated_over = false;  ///< a later step binds it

    const material::Order* below() const { return under.order(); }
    const material::Order* above() const { return over.order(); }

    Finding& say(std::string id, Severity severity, Sure sure, std::string what, std::string why) const {
        out.push_back({std::move(id),
                       at_most(severity, sure),
                       step,
                       under.name,
                       over.name,
                       std::move(what),
                       std::move(why),
                       sure,
                       {}});
        return out.back();
    }
};

const material::Material* tie_on(const Materials& materials) {
    for (const auto& [id, m] : materials)
        if (yes(m.order.ties)) return &m;
    return nullptr;
}

// A sealing coat is sprayed, so that it does not itself lift what it seals.
void seal(const Pair& p, Finding& f) {
    const auto* tie = tie_on(p.materials);
    f.mends.push_back({Mend::Kind::seal, 0, tie ? tie->id : "",
                       "spray a thin coat of " + (tie ? tie->name : "a dewaxed shellac") + " between"});
}

void rule_shared_solvent(const Pair& p) {
    const std::string solvent = shared_solvent(p.under, p.over);
    if (solvent.empty() || !p.under.colored) return;
    if (p.over.ready && p.over.ready->kind == material::Kind::treatment) return;  // it is there to lift
    const bool sprayed = p.over.method == Method::spray;
    const std::string how(material::method_words[static_cast<std::size_t>(p.over.method)]);
    auto& f = p.say("bleeds", sprayed ? Severity::note : Severity::warning, p.under.lifted_sure,
                    p.over.name + " lifts color out of " + p.under.name +
                        (sprayed ? ": a little, sprayed in light coats" : ": a " + how + " drags it about"),
                    "both dissolve in " + solvent +
                        "; the color below lets go while the coat is wet, the more the longer it is worked");
    if (!sprayed) f.mends.push_back({Mend::Kind::spray, 0, "", "spray it, the first coat light"});
    const auto* tie = tie_on(p.materials);
    const auto* b = tie ? std::get_if<material::Binder>(&tie->data) : nullptr;
    if (!b || !p.under.lifted_by.count(b->carrier)) seal(p, f);
}

void rule_wax(const Pair& p) {
    if (!p.below() || !p.above() || !yes(p.below()->holds_wax)) return;
    const auto no = p.above()->sticks_not_to.find(p.under.wax() ? "wax" : "waxed-film");
    if (no == p.above()->sticks_not_to.end() || !no->second.value) return;
    auto& f = p.say("wax-below", p.under.wax() ? Severity::failure : Severity::warning,
                    material::weaker(p.below()->holds_wax->sure, no->second.sure),
                    p.over.name + (p.under.wax() ? " does not hold on " : " may let go of ") + p.under.name,
                    no->second.source);
    if (p.under.wax()) {
        f.mends.push_back(
            {Mend::Kind::leave_out, 0, "", "wash the wax off with spirits, or keep it for the very last"});
        return;
    }
    const auto* tie = tie_on(p.materials);
    f.mends.push_back({Mend::Kind::swap, 0, tie ? tie->id : "",
                       "use it dewaxed: " + (tie ? tie->name : "a dewaxed shellac") +
                           ", or let the wax settle and pour off the clear"});
}

void rule_uncured_oil(const Pair& p) {
    if (!p.under.oil() || !p.above() || !p.below()->cure_days) return;
    const auto no = p.above()->sticks_not_to.find("uncured-oil");
    if (no == p.above()->sticks_not_to.end() || !no->second.value) return;
    const double cure = p.below()->cure_days->value;
    if (p.days && *p.days >= cure) return;
    const Sure sure = material::weaker(no->second.sure, material::sure_of(p.below()->cure_days->from.mark));
    const std::string wait = "wait until " + p.under.name + " has cured: about " + base::at_most(cure, 1) +
                             " days at 20 C, longer when cold or thick";
    auto& f = p.say(
        "uncured-below", p.days ? Severity::failure : Severity::note, sure,
        p.days ? p.over.name + " over " + p.under.name + " of " + base::at_most(*p.days, 2) + " days does not hold"
               : wait,
        no->second.source);
    f.mends.push_back({Mend::Kind::wait, cure, "", wait});
    seal(p, f);
}

void rule_window(const Pair& p) {
    if (p.days && p.under.early_h && *p.days * 24 < *p.under.early_h - 1e-9) {
        auto& f = p.say("too-early", Severity::warning, Sure::practice,
                        p.over.name + " goes on before " + p.under.name + " is dry",
                        "solvent or water caught below comes out later as bubbles, dullness or soft film");
        f.mends.push_back({Mend::Kind::wait, *p.under.early_h / 24, "",
                           "wait at least " + base::at_most(*p.under.early_h, 1) + " h at 20 C"});
    }
    if (!p.below() || !p.above() || p.scuffed || p.under.wax() || p.over.wax() || !yes(p.below()->needs_scuff)) return;
    if (!shared_solvent(p.under, p.over).empty()) return;  // re-melts: no scratch needed
    const bool another = p.under.binder != p.over.binder;
    const bool late = p.days && p.under.late_h && *p.days * 24 > *p.under.late_h;
    if (!late && !(another && !p.days)) return;
    auto& f = p.say("needs-scratch", late ? Severity::warning : Severity::note, p.below()->needs_scuff->sure,
                    p.over.name + (late ? " goes on after the window of " : " wants a scratch to hold on ") +
                        p.under.name + (late ? " has shut" : ""),
                    p.below()->needs_scuff->source);
    f.mends.push_back(
        {Mend::Kind::scuff, 0, "", "scuff with 320 paper or a grey pad until dull, and wipe off the dust"});
}

void rule_hot_solvent(const Pair& p) {
    if (!p.below() || !p.above() || !yes(p.above()->hot_solvent) || !yes(p.below()->wrinkles)) return;
    // A stain, a gel or a glaze is thin: once it has cured through, it takes strong thinner.
    const auto& cure = p.below()->cure_days;
    const bool cures = p.under.ready && cure;
    if (cures && p.days && *p.days >= cure->value) return;
    auto& f =
        p.say("wrinkles", cures && !p.days ? Severity::note : Severity::failure,
              material::weaker(p.above()->hot_solvent->sure, p.below()->wrinkles->sure),
              p.over.name + " swells " + p.under.name + " and wrinkles it" + (cures ? " unless it has cured" : ""),
              p.below()->wrinkles->source);
    if (cures)
        f.mends.push_back(
            {Mend::Kind::wait, cure->value, "",
             "wait until " + p.under.name + " has cured: about " + base::at_most(cure->value, 1) + " days at 20 C"});
    seal(p, f);
}

void rule_tie(const Pair& p) {
    if (!p.below() || !p.above() || !yes(p.below()->ties) || !yes(p.above()->two_component)) return;
    auto& f = p.say(
        "tie-two-component", Severity::warning, p.above()->two_component->sure,
        p.under.name + " is a weak floor for " + p.over.name,
        "films that cure by a hardener shrink and pull harder than shellac holds; their makers name their own sealers");
    f.mends.push_back({Mend::Kind::leave_out, 0, "", "leave it out and use the sealer that the topcoat's maker names"});
}

// What so little of goes in is a matter of the surface: a 1-lb wash coat lets a fifth of a dye in, a 2-lb one a tenth.
constexpr double closed_below = 0.15;

void rule_dye_over_film(const Pair& p) {
    if (p.over.binder || !p.over.colored || !p.under.binder || p.goes_in >= closed_below) return;
    const std::string why =
        "the wood below is closed: only " + base::at_most(100 * p.goes_in, 0) + " % of the color still goes in";
    if (p.over.method == Method::wipe) {
        auto& f = p.say("dye-wiped-off", Severity::warning, Sure::practice,
                        p.over.name + " wiped over " + p.under.name + " leaves next to nothing", why);
        f.mends.push_back({Mend::Kind::spray, 0, "", "spray it, and coat it: it dries on top"});
        f.mends.push_back({Mend::Kind::leave_out, 0, "",
                           "put it on the bare wood, or over a thin wash coat: leave out " + p.under.name});
        return;
    }
    if (p.coated_over) return;
    auto& f =
        p.say("dye-rubs-off", Severity::warning, Sure::practice,
              p.over.name + " dries on top of " + p.under.name + ": weak, and it rubs off until it is coated", why);
    const auto* tie = tie_on(p.materials);
    f.mends.push_back({Mend::Kind::coat, 0, tie ? tie->id : "",
                       "spray a thin coat of " + (tie ? tie->name : "a dewaxed shellac") + " over it"});
}

// How much of each step's color still goes in, on a middling wood: absorbency 1, level 4 µm, porosity 0.6.
std::vector<double> shares_in(const Finish& finish, const Materials& materials) {
    std::vector<double> out;
    Ground ground;
    ground.porosity = 0.6;
    for (const auto& step : finish.steps) {
        out.push_back(1);
        try {
            const Deposit d = deposit(step, materials);
            for (int coat = 0; coat < step.coats; ++coat) {
                const Uptake u = uptake(d, ground, {});
                if (coat == 0) out.back() = u.dye_in;
                ground.film_um += u.film_um;
                if (u.binder_in_um > 0)
                    ground.filled.push_back(
                        {u.binder_depth_um, u.binder_in_um / (ground.porosity * u.binder_depth_um)});
            }
        } catch (const Fault&) {  // an amount that cannot be worked out is told elsewhere
        }
    }
    return out;
}

void rule_wet_place(int step, const CoatFacts& l, std::vector<Finding>& out) {
    const auto* order = l.order();
    if (!order || !order->suits_wet_places || order->suits_wet_places->value) return;
    out.push_back({"tie-wet-place",
                   Severity::warning,
                   step,
                   "",
                   l.name,
                   l.name + " does not stand in a wet place",
                   order->suits_wet_places->source,
                   order->suits_wet_places->sure,
                   {{Mend::Kind::leave_out, 0, "", "leave it out, and build with a film that stands wet"}}});
}

void say_unknown(int step, const CoatFacts& l, std::vector<Finding>& out) {
    if (!l.binder || l.binder->order.known()) return;
    const bool said = std::any_of(
        out.begin(), out.end(), [&](const Finding& f) { return f.id == "order-unknown" && f.over == l.binder->name; });
    if (said) return;
    out.push_back({"order-unknown",
                   Severity::note,
                   step,
                   "",
                   l.binder->name,
                   "nothing is known of what " + l.binder->name + " holds on to or lets go",
                   "its material states no [order]; the rules are silent about it",
                   Sure::stated,
                   {}});
}

}  // namespace

std::string_view word(Severity severity) {
    constexpr std::array<std::string_view, 3> words = {"note", "warning", "failure"};
    return words[static_cast<std::size_t>(severity)];
}

std::vector<Finding> check_order(const Finish& finish, const Materials& materials, const material::Wood* wood) {
    std::vector<Finding> out;
    std::optional<CoatFacts> under;
    const auto goes_in = shares_in(finish, materials);
    for (std::size_t s = 0; s < finish.steps.size(); ++s) {
        const auto& step = finish.steps[s];
        const int number = static_cast<int>(s);
        const CoatFacts over = coat_facts(step, materials);
        if (under) {
            const bool coated =
                std::any_of(finish.steps.begin() + number + 1, finish.steps.end(),
                            [&](const Step& later) { return coat_facts(later, materials).binder != nullptr; });
            const Pair p{number,    *under, over,       step.after_days, step.scuff || step.sand,
                         materials, out,    goes_in[s], coated};
            for (const auto rule : {rule_shared_solvent, rule_wax, rule_uncured_oil, rule_window, rule_hot_solvent,
                                    rule_tie, rule_dye_over_film})
                rule(p);
        }
        if (step.coats > 1 && over.binder) {  // the second coat over the first
            const Pair p{number, over, over, std::nullopt, true, materials, out};
            rule_shared_solvent(p);
        }
        if (finish.wet_place) rule_wet_place(number, over, out);
        say_unknown(number, over, out);
        under = over;
    }
    check_ready(finish, materials, wood, out);
    std::stable_sort(out.begin(), out.end(), [](const Finding& a, const Finding& b) {
        return a.step != b.step ? a.step < b.step : a.severity > b.severity;
    });
    return out;
}

bool fails(const std::vector<Finding>& findings) {
    return std::any_of(findings.begin(), findings.end(),
                       [](const Finding& f) { return f.severity == Severity::failure; });
}

Finish mended(const Finish& finish, const Finding& finding, const Mend& mend, const Materials& materials) {
    Finish out = finish;
    const auto at = static_cast<std::size_t>(finding.step);
    if (at >= out.steps.size()) throw std::invalid_argument("mended: there is no step " + std::to_string(finding.step));
    if ((mend.kind == Mend::Kind::seal || mend.kind == Mend::Kind::swap || mend.kind == Mend::Kind::coat) &&
        !materials.count(mend.material))
        throw std::invalid_argument("mended: '" + mend.material + "' is not among the materials");
    auto& over = out.steps[at];
    switch (mend.kind) {
        case Mend::Kind::spray:
            over.method = Method::spray;
            break;
        case Mend::Kind::wait:
            over.after_days = mend.days;
            break;
        case Mend::Kind::scuff:
            over.scuff = true;
            break;
        case Mend::Kind::leave_out:
            out.steps.erase(out.steps.begin() + (finding.under.empty() ? finding.step : finding.step - 1));
            break;
        case Mend::Kind::swap: {
            auto& under = out.steps[at - 1];
            const auto was_resin = [&](const Part& p) {
                const auto& m = materials.at(p.use);
                return yes(m.order.holds_wax);
            };
            for (auto& part : under.mix)
                if (was_resin(part)) part.use = mend.material;
            break;
        }
        case Mend::Kind::seal: {
            Step tie;
            tie.mix = {{mend.material, Amount::parts, 1}};
            tie.method = Method::spray;
            tie.after_days = over.after_days;
            over.after_days.reset();
            out.steps.insert(out.steps.begin() + finding.step, tie);
            break;
        }
        case Mend::Kind::coat: {
            Step cover;
            cover.mix = {{mend.material, Amount::parts, 1}};
            cover.method = Method::spray;
            out.steps.insert(out.steps.begin() + finding.step + 1, cover);
            break;
        }
    }
    return out;
}

}  // namespace foretone::schedule
