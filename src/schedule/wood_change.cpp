// Changes of the wood itself.
//
// Symbols: T tannin, % by weight · h tannin at which half of the color is made · p share of the wood's own absorption
// that is left · f the floor · t share taken by a coat · s share of a coat that goes in
//   made = T/(T + h)                  the reagent is the scarce one on tannin-rich wood, tannin on poor wood
//   p′ = f + (p − f)(1 − t s)         each coat takes its share of what it can reach; no coat passes the floor
// Both are smooth, have their limits at 0 and 1, and a trace of a coat is a trace of a change.

#include "foretone/schedule/wood_change.hpp"

#include <algorithm>

namespace foretone::schedule {
namespace {

double value_or_nothing(const std::optional<material::Figure>& f) { return f ? f->value : 0; }

}  // namespace

double WoodChange::made(double tannin_percent) const {
    if (half_tannin_percent <= 0) return 1;
    const double tannin = std::max(0.0, tannin_percent);
    return tannin / (tannin + half_tannin_percent);
}

double WoodChange::left_after(double left, double share) const {
    const double taken = std::clamp(takes_wood * share, 0.0, 1.0);
    return std::min(left, floor + (left - floor) * (1 - taken));
}

WoodChange wood_change(const material::Treatment& t) {
    WoodChange out;
    out.needs = t.needs;
    out.leaves_iron = t.leaves_iron;
    out.takes_wood = value_or_nothing(t.takes_wood);
    out.floor = value_or_nothing(t.floor);
    out.takes_dye = value_or_nothing(t.takes_dye);
    out.takes_iron = value_or_nothing(t.takes_iron);
    out.gives_tannin_percent = value_or_nothing(t.gives_tannin_percent);
    out.half_tannin_percent = value_or_nothing(t.half_tannin_percent);
    if (t.adds_absorbance) out.adds_absorbance = t.adds_absorbance->values;
    out.depth_um = t.depth_um.value;
    return out;
}

double tannin_percent(const material::Wood& wood) {
    return wood.tannin_percent ? wood.tannin_percent->value : material::usual_tannin_percent;
}

}  // namespace foretone::schedule
