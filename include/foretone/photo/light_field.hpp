#pragma once
/// The light over a photograph, place by place, over the light at its card: found from what the wood itself shows and
/// from cards, so that it can be taken out before a board is finished and put back after.

#include <array>
#include <span>
#include <vector>

namespace foretone::photo {

/// What one patch of the picture shows, in ln of its cone responses (CAT16).
struct LightSample {
    double u = 0, v = 0;         ///< its middle, 0–1 across and down the picture
    std::array<double, 3> ln{};  ///< wood: as it looks; a card: as it looks, less the same of the first card
};

/// How wood varies beside the light on it, in ln of cone responses.
struct WoodVariation {
    std::array<double, 3> along{};  ///< what a unit of shade adds to each: which way wood changes color as it darkens
    std::array<double, 3> bend{};   ///< how that changes with shade
    /// What its responses change by beside a white card's, for each unit that the light's color (ln blue less ln red)
    /// changes: wood is not grey, and two lamps part it and the card.
    std::array<double, 3> by_lamp{};
    double patch = 0.1;  ///< one standard deviation of shade from patch to patch
    double slow = 0.06;  ///< of what changes slowly over a board
};

/// Gains of the three cone responses over a grid, straight between its nodes. Without nodes: the same light everywhere.
class LightField {
public:
    LightField() = default;

    bool even() const { return gain_.empty(); }
    /// Gains at a place 0–1 across and down; held beyond.
    std::array<float, 3> at(float u, float v) const;
    /// The nodes of one row of places, for `at_column`: straight between the grid's rows.
    std::vector<std::array<float, 3>> row(float v) const;
    static std::array<float, 3> at_column(const std::vector<std::array<float, 3>>& row, float u);

    /// What cards alone tell: straight in ln over the picture, level where they do not tell of a direction. Even for
    /// fewer than two.
    static LightField by_cards(std::span<const LightSample> cards);

    static constexpr int nodes = 65;  ///< a side

private:
    friend struct LightFit fit_light(std::span<const LightSample>, std::span<const LightSample>, const WoodVariation&,
                                     bool);
    std::vector<std::array<float, 3>> gain_;  // rows from the top
};

/// A field with what it left over.
struct LightFit {
    LightField field;
    std::array<double, 3> wood{};             ///< ln of cone responses of the wood in the light at the card
    std::vector<std::array<double, 3>> rest;  ///< of each wood sample: what neither light nor slow wood explains
    std::vector<double> trust;                ///< of each wood sample, 0–1: how much it counted
    double darkest = 0, brightest = 0;        ///< ln of the light over the wood samples that counted
    double color_range = 0;                   ///< of the light's color there: largest change of ln, blue less red
    double sharp = 0;                         ///< light that changes faster than the field: 95 of 100 patches below
};

/// The field from patches of wood and the cards (the first of them at ln 0; without any, the middle of the picture is
/// taken for one). `draft`: quickly and roughly, while it is still looked for what is wood. Throws
/// std::invalid_argument for fewer than 12 patches.
LightFit fit_light(std::span<const LightSample> wood, std::span<const LightSample> cards, const WoodVariation& varies,
                   bool draft = false);

}  // namespace foretone::photo
