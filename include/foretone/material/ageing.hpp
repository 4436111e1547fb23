#pragma once
/// How woods, binders and dyes change with light and time: figures of a class each, with source and spread.

#include <span>
#include <string>
#include <string_view>

#include "foretone/material/exposure.hpp"
#include "foretone/material/material.hpp"

namespace foretone::material {

/// What a watt-hour of violet does to wood and films beside one of ultraviolet (a choice, not checked: glass and coats
/// that keep the ultraviolet back slow the browning of wood, but do not stop it).
inline constexpr double violet_weight = 0.5;

/// Ultraviolet, and violet by its weight, W·h/m²: what woods and films count.
double actinic_wh(const Dose& dose);

/// Absorption that light makes in wood, in K/S of its body, at full height 1.
const spectral::Spectrum& brown_band();   ///< to about 580 nm: quinones and their like
const spectral::Spectrum& yellow_band();  ///< from the violet down, e-fold in 45 nm; 1 at 450 nm

/// A wood's K/S after an actinic dose D and t days, K0 the fresh wood's:
///
///     K/S = K0 (1 − b (1 − e^(−D/Db))) + (B brown + Y yellow) (f (1 − e^(−D/D1)) + (1 − f) (1 − e^(−D/D2)))
///           + Q yellow (1 − e^(−t/T))
struct WoodAgeing {
    std::string_view word;          ///< of the class, as in `ages_as`
    std::string_view meaning;       ///< which woods, and what they do
    bool published = false;         ///< a wood of this class has a published curve or difference
    Figure brown, yellow;           ///< B, Y
    Figure fast_share;              ///< f
    Figure fast_wh, slow_wh;        ///< D1, D2
    Figure bleached;                ///< b, 0–1
    Figure bleach_wh;               ///< Db
    Figure dark_yellow, dark_days;  ///< Q, T
};

/// All classes; the last is for woods that no one has put into any.
std::span<const WoodAgeing> wood_classes();

/// The class that a wood's `ages_as` names; the last for a word that names none.
const WoodAgeing& ageing_of(const Wood& wood);

/// How far a wood has gone, each 0–1.
struct WoodAged {
    double formed = 0, bleached = 0, darkened = 0;
};
WoodAged aged(const WoodAgeing& law, double actinic, double days);

/// The same wood with its body's K/S changed; the very same where nothing is.
Wood aged_wood(const Wood& fresh, const WoodAgeing& law, const WoodAged& state);

/// A dry binder: y the absorption it gains at 450 nm, per mm, by time; p by light; o the share of its own color lost.
///
///     y′ = (Yd − y)/Td − y E/Db      E actinic dose a day: it yellows in the dark and bleaches in light
///     p = Yp (1 − e^(−D/Dp)),  o = O (1 − e^(−D/Do));  α = α0 (1 − o) + (y + p) e^(−(λ − 450)/w)
struct FilmAgeing {
    std::string_view word;  ///< of the class: as `binder_kind`
    std::string_view meaning;
    Figure dark_per_mm, dark_days, bleach_wh;  ///< Yd, Td, Db
    Figure light_per_mm, light_wh;             ///< Yp, Dp
    Figure own_bleached, own_wh;               ///< O, Do
    Figure width_nm;                           ///< w
    Figure uv_absorbed;                        ///< share of the ultraviolet that 50 µm of it keep back besides
};

std::span<const FilmAgeing> film_classes();

/// What a binder is, told from its facts: "wax", "oil", "oil varnish", "waterborne", "shellac", "polyurethane" or
/// "lacquer". Empty for what is no binder.
std::string binder_kind(const Material& binder);

const FilmAgeing& ageing_of(const Material& binder);

/// How far a film has gone: per mm at 450 nm, per mm, 0–1.
struct FilmAged {
    double dark_per_mm = 0, light_wh = 0;
};

/// So many days further at an actinic dose a day. Steps add: two of a year are one of two.
FilmAged after(FilmAged state, const FilmAgeing& law, double actinic_a_day, double days);

/// Absorption of the dry binder, 1/mm, natural log.
spectral::Spectrum aged_absorption(const spectral::Spectrum& fresh, const FilmAgeing& law, const FilmAged& state);

/// Film that `uv_absorbed` is said of, µm.
inline constexpr double uv_film_um = 50;

/// Absorption of a dry film for ultraviolet, 1/mm: its own, carried on from 380 nm to 350 nm by its slope there, and
/// that of a share kept back by `uv_film_um`.
double ultraviolet_per_mm(const spectral::Spectrum& absorption_per_mm, double uv_absorbed);

/// Lightfastness of a dye whose file states none, on the blue-wool scale.
Figure usual_lightfastness();

/// Share of a dye that is left, 0–1, first order in dose. `lightfastness` 1 (fleeting) – 8.
double dye_left(double lightfastness, const Dose& dose);

}  // namespace foretone::material
