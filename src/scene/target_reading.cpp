#include "target_reading.hpp"

#include "foretone/base/number.hpp"

namespace foretone::scene {

void target_from(const Keys& target, const OneReading& one, Target& out) {
    if (one.reflectance) {
        out.reflectance = spectral::to_grid(*one.reflectance).spectrum;
        return;
    }
    out.light = one.light;
    out.observer = one.observer;
    out.lab = one.lab;
    if (one.lab || !one.delta) return;
    const auto standard = target.numbers("standard");
    if (!standard || standard->size() != 3)
        throw InputError("standard-missing", target.here(),
                         "the reading '" + one.name +
                             "' is a difference to a standard: add standard = [L, a, b], its color under " + one.light +
                             " for " + one.observer);
    out.lab = color::Lab{(*standard)[0] + one.delta->l, (*standard)[1] + one.delta->a, (*standard)[2] + one.delta->b};
    if (out.lab->l < 0 || out.lab->l > 100)
        throw InputError("value-range", target.place_of("standard"),
                         "standard and difference together are no color: L is " + base::at_most(out.lab->l, 1));
}

}  // namespace foretone::scene
