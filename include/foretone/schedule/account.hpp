#pragma once
/// Where one coat went: its books per square metre, told apart by what it is made of.

namespace foretone::schedule {

/// Where one substance of a coat went, g/m². What was laid on is in the wood, on it, on the rag or in the air:
/// laid = in + on + wiped + gone, and none is negative.
struct Fate {
    double laid = 0;
    double in = 0;     ///< below the wood's surface; of a liquid, what the wood drew in (it leaves as the wood dries)
    double on = 0;     ///< stays as film, or as what dried on top
    double wiped = 0;  ///< taken off again by rag or brush
    double gone = 0;   ///< left as vapour from the surface

    double sum() const { return in + on + wiped + gone; }
};

struct Account {
    Fate liquid;  ///< what evaporates: carriers and thinners
    Fate binder;  ///< what stays when they have left: resin, oil, wax
    Fate dye;
    Fate pigment;
};

}  // namespace foretone::schedule
