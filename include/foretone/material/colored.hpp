#pragma once
/// What colors wood ready-made, and what changes the wood itself. Both name what they are made of; what a coat of them
/// leaves is worked out from those.

#include <optional>
#include <string>
#include <vector>

#include "foretone/material/figure.hpp"

namespace foretone::material {

/// So much of a powder in one litre of a ready liquid.
struct Load {
    std::string use;
    double g_per_l = 0;
};

/// A ready colored coat: dyes and pigments, a binder to hold them, a liquid to thin it. Stains, gel stains, glazes,
/// toners, grain fillers, liming pastes.
struct Colored {
    std::vector<Load> mix;
    std::string binder;               ///< the oil, film former or wax in it
    std::string carrier;              ///< the liquid in it
    Figure binder_volume_percent;     ///< dry binder, of the whole as supplied
    Figure strength;                  ///< 1, with the relative spread of its strength
    Figure remainder;                 ///< 0–1: of what does not go in when it is wiped, the share that the rag leaves
    std::optional<Figure> pore_fill;  ///< 0–1: share of the open pores' room that it fills
    Figure wet_um;                    ///< wet film of one coat, as it is usually put on
};

/// What a treatment needs to find on the wood, or it does nothing.
enum class Needs { nothing, tannin, dye, iron };

/// Changes the wood: bleaches, reagents, flame. `carrier` is empty for a gas or a flame.
struct Treatment {
    std::string carrier;
    Needs needs = Needs::nothing;
    bool leaves_iron = false;                       ///< the color it makes is an iron stain
    std::string neutralize;                         ///< what is done before anything goes over it; empty: nothing
    std::optional<Figure> takes_wood;               ///< 0–1: share of the wood's own absorption that a coat takes out
    std::optional<Figure> floor;                    ///< 0–1: share of it that no coat takes
    std::optional<Figure> takes_dye;                ///< 0–1: share of the dye in the wood
    std::optional<Figure> takes_iron;               ///< 0–1: share of an iron stain
    std::optional<Figure> gives_tannin_percent;     ///< what it adds to the wood's tannin
    std::optional<Figure> half_tannin_percent;      ///< tannin at which it makes half of all the color it can
    std::optional<SpectrumFigure> adds_absorbance;  ///< all the color it can make: natural log, one pass of its depth
    Figure depth_um;                                ///< at absorbency 1
    Figure wet_um;                                  ///< wet film of one coat; of no matter without a carrier
};

}  // namespace foretone::material
