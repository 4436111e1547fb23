#pragma once
/// The materials of a finish. Every figure carries its provenance; units are in the names.

#include <array>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "foretone/material/colored.hpp"
#include "foretone/material/figure.hpp"
#include "foretone/material/grain.hpp"
#include "foretone/material/kind.hpp"
#include "foretone/material/order.hpp"
#include "foretone/optics/stack.hpp"

namespace foretone::material {

/// How a coat is put on.
enum class Method { wipe, brush, spray, roll };
inline constexpr std::array<std::string_view, 4> method_words = {"wipe", "brush", "spray", "roll"};

/// Tannin of a wood whose file states none, % by weight (a typical pale wood, not checked).
inline constexpr double usual_tannin_percent = 0.5;

/// Bare wood, planed and sanded.
struct Wood {
    SpectrumFigure reflectance;                                 ///< as read, 0–1
    optics::Geometry geometry = optics::Geometry::d8_included;  ///< of that reading
    Figure surface_k1;                                          ///< outer reflection of the dry surface, 0–1
    Figure surface_k2;                                          ///< inner reflection of the dry surface, 0–1
    Figure scattering_per_mm;                                   ///< Kubelka–Munk S at 550 nm
    Figure scattering_exponent;                                 ///< S ∝ (λ/550)^−x
    Figure n;                                                   ///< cell wall
    Figure porosity;                                            ///< 0–1
    Figure density_g_per_cm3;
    Figure level_um;                       ///< film that levels the sanded surface by 1 − 1/e
    Figure absorbency;                     ///< penetration depth relative to hard maple
    std::optional<Figure> tannin_percent;  ///< by weight, what reagents find; `usual_tannin_percent` if not given
    std::optional<Grain> grain;            ///< what its face looks like
    double grit = 220;                     ///< last paper on it; the figures above are for 220
    std::string ages_as;                   ///< class of material/ageing.hpp; empty: none is named
};

/// A powder dye.
struct Dye {
    SpectrumFigure molar_absorptivity;  ///< L/(mol·cm), decadic
    Figure molar_mass_g_per_mol;
    Figure purity;  ///< mass share of colorant in the powder as sold
    Figure density_g_per_cm3;
    std::optional<Figure> lightfastness;  ///< blue-wool scale, 1–8
    std::vector<std::string> carriers;    ///< liquids that dissolve it
};

/// A ready liquid: powders in a carrier.
struct Stock {
    std::vector<Load> mix;
    std::string carrier;
    Figure strength;  ///< 1, with the relative spread of its strength
};

/// Width of the grains of a pigment whose file states none, µm (a typical value, not checked).
inline constexpr double usual_particle_um = 2;

/// A powder that scatters and absorbs.
struct Pigment {
    SpectrumFigure absorption_m2_per_g;  ///< natural log
    SpectrumFigure scattering_m2_per_g;  ///< reduced scattering
    Figure density_g_per_cm3;
    std::optional<Figure> particle_um;  ///< width of its grains as they stand in a stain, clumps as they come
};

/// What stays when the carrier has left or the oil has cured: oils, film formers, waxes.
struct Binder {
    std::optional<Figure> gardner;                        ///< ASTM D1544 number of the test liquid, 1–18
    std::optional<Figure> gardner_solids_volume_percent;  ///< binder share of that liquid
    std::optional<SpectrumFigure> absorption_per_mm;      ///< of the dry binder, natural log; in place of `gardner`
    Figure n;                                             ///< dry
    std::optional<Figure> density_g_per_ml;               ///< as supplied
    std::optional<Figure> solids_volume_percent;          ///< as supplied
    std::optional<Figure> resin_density_g_per_ml;         ///< dry resin dissolved to a cut; in place of the two above
    std::optional<Figure> cut_lb;                         ///< usual cut, lb per US gal of alcohol
    Figure haze_per_mm;                                   ///< µs′ of the dry film at 550 nm
    Figure haze_exponent;                                 ///< µs′ ∝ (λ/550)^−x
    std::optional<Figure> contact;  ///< 0–1: share of its film that fills the cut cells below; 1 if not given
    Figure stay;                    ///< 0–1: share of a coat's solids that stays on open wood's surface
    Figure depth_um;                ///< how deep the rest soaks, at absorbency 1
    Figure sheen_gu60;              ///< 60° gloss units as supplied
    std::array<std::optional<Figure>, 4> wet_um;  ///< wet film of one coat, by `Method`
    Figure coverage_m2_per_l;
    std::optional<Figure> uv_absorbed;  ///< 0–1: share of the ultraviolet that 50 µm of it keep back
    std::string carrier;
};

/// Wets, carries, and leaves.
struct Liquid {
    Figure n;
    Figure density_g_per_ml;
    Figure depth_um;  ///< how deep it carries a dissolved dye, at absorbency 1
    Figure fill;      ///< 0–1: share of the pores it fills while the wood is damp
};

/// What the figures of a kind are read into; oils, films and waxes are all binders.
using Data = std::variant<Wood, Dye, Stock, Pigment, Binder, Liquid, Colored, Treatment>;

/// One entry of the library or of a scene.
struct Material {
    std::string id;
    Kind kind = Kind::wood;
    std::string name;
    std::string note;
    Data data;
    Order order{};  ///< what a schedule and the bench must know of it
};

/// Materials by id. A schedule is worked out from one such set, so that a figure moved in it moves everything that
/// uses it.
using Materials = std::map<std::string, Material>;

/// Data of a kind with nothing in it yet.
Data blank(Kind kind);

inline bool is_binder(const Material& m) { return std::holds_alternative<Binder>(m.data); }

}  // namespace foretone::material
