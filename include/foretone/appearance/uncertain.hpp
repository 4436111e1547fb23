#pragma once
/// The joint account of what is not known about a set of finishes on one wood: every uncertain figure once, whatever
/// uses it.

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "foretone/appearance/ageing_laws.hpp"
#include "foretone/appearance/joint.hpp"
#include "foretone/appearance/wood_shapes.hpp"
#include "foretone/material/figures.hpp"
#include "foretone/schedule/step.hpp"
#include "foretone/schedule/suction.hpp"

namespace foretone::appearance {

/// One standard deviation of the wet film of a coat put on by hand, as a share of it (common practice).
inline constexpr double wet_film_spread = 0.15;

/// Share of that variance which all coats of a step have in common: the correlation of two of them (a choice: as much
/// the hand as the coat).
inline constexpr double wet_film_common = 0.5;

/// Why something is not known.
enum class Origin {
    materials,  ///< what this shop's wood, cans and powders are: the same on every board, learned from step boards
    boards      ///< what differs from board to board and from coat to coat: it stays
};

/// "materials", "boards".
std::string_view word(Origin origin);

/// How far, in standard deviations, a figure of how coats go in has moved for a fit that took it as usual: what was
/// read is a product of that figure with others, so they make up for it by its logarithm, and only for what it truly
/// moved. 0 where `usual` or `sd` is not positive.
double made_up_for(double usual, double sd, double now);

/// What is known besides the figures' own spreads.
struct Knowledge {
    double hand = wet_film_spread;    ///< one standard deviation of a coat's wet film, as a share, ≥ 0
    double board_de = wood_board_de;  ///< of one board of the wood from the next, ΔE*ab, ≥ 0
    double uptake = 1;                ///< of the spreads of schedule::uptake_figures: 0 takes them as sure
    bool same_board = false;          ///< all boards are cut from the wood that was read: no board to board
    std::vector<JointTable> fits;     ///< what step boards taught, of materials as they stand among those in question
    std::vector<material::AgeSpan> after{};  ///< finished boards are seen after these times; none: new
    /// What each finish has been through before that, by finish; those beyond the list: nothing.
    std::vector<std::vector<material::AgeSpan>> past{};

    bool ages() const;                                               ///< is any finish seen otherwise than new?
    std::vector<material::AgeSpan> times(std::size_t finish) const;  ///< of one finish: its past, then `after`
};

/// One independent standard normal number of a world.
struct Coordinate {
    std::string name;  ///< "hard-maple/surface_k2", "hard-maple/reflectance/board/1", "oil-varnish, brush: hand/1"
    std::string what;  ///< what a finisher knows it as: coordinates of one `what` are one contributor
    Origin origin = Origin::materials;
};

/// How a finish's coats depart from its schedule.
struct Departure {
    std::vector<std::vector<double>> wet;    ///< wet film as a share of what the schedule says, [step][coat]; empty: 1
    std::vector<bool> soaks;                 ///< by step: seen damp and dry, or as a film; empty: as each deposit says
    std::optional<schedule::UptakeLaw> law;  ///< figures of how coats go in, as this world has them
};

/// A world is one draw of all coordinates: one wood, one can of each material, one board, one hand. It is the same
/// world for every finish.
///
/// Figures of a material are normal about their value, kept inside their valid range; a wood's reflectance is moved by
/// `wood_shapes`; figures of a fit's table move together as it says; so are the figures of how coats go into wood
/// (schedule::uptake_figures), which belong to no material. The wet film of one coat is, relative to what is
/// meant, 1 + sd(√ρ h + √(1−ρ) c): h the hand, tool and thinning, the same for the coats of a step and for the same
/// materials laid the same way in another finish; c the coat's own, the same only for the same mix of the same amount:
/// on one board it is laid over both in one pass. Colors are those of a board as a whole: place to place is no part.
class UncertainFigures {
public:
    /// Copies what the finishes use of the materials. `weights` scale how boards of a wood differ. Throws
    /// schedule::Fault for a finish that cannot be worked out.
    UncertainFigures(const material::Materials& materials, const std::string& wood,
                     const std::vector<schedule::Finish>& finishes, const color::Weights& weights,
                     const Knowledge& knowledge);
    UncertainFigures(const UncertainFigures&) = delete;  // the figures point into the materials
    UncertainFigures& operator=(const UncertainFigures&) = delete;

    const std::vector<Coordinate>& coordinates() const { return coordinates_; }

    /// What `coordinate` is for that finish: as `what`, but a hand by its step, "step 2 wet film".
    std::string what(std::size_t coordinate, std::size_t finish) const;

    /// Can `coordinate` change anything of that finish? Where not, its colors are to the bit what they are without.
    bool moves(std::size_t coordinate, std::size_t finish) const;

    /// Moves everything to a world; one number a coordinate, in standard deviations. All 0: as the materials say.
    void set(std::span<const double> world);

    /// Ids of all that a finish uses, the wood's and what the others are made of among them, in order.
    const std::vector<std::string>& used(std::size_t finish) const { return used_[finish]; }

    const material::Materials& materials() const { return materials_; }
    /// Another number whenever `set` has moved any material but the wood: what follows from them has to be worked out
    /// again.
    std::size_t materials_set() const { return materials_set_; }
    const material::Wood& wood() const { return *wood_; }
    /// The hand in the world that was set. Which steps are seen damp is the same in all worlds.
    const Departure& departure(std::size_t finish) const { return hands_[finish].departure; }
    /// How materials age in the world that was set: as their files say where no time goes by.
    const AgeingLaws& ageing() const { return ageing_; }

private:
    struct Moved {  // a figure and how it is moved
        std::string material;
        material::FigureAt at;
        double* load = nullptr;  // what a ready dye holds of a powder
        JointFigure::Acts acts = JointFigure::Acts::value;
        double value = 0;             // before any move
        spectral::Spectrum values{};  // before any move
        std::vector<spectral::Spectrum> shapes;
        std::vector<double> amounts;  // one a shape, or one
        std::vector<double> applied;  // the amounts that the figure stands at
        bool share = false;           // a spectrum scaled by 1 + amount
        bool wet = false;             // ln of the wet film of every coat laid so
        bool wood = false;            // of the wood: no deposit rests on it
    };
    struct Effect {
        std::size_t moved, amount;
        double size;
    };
    struct Hand {  // of one finish
        std::vector<std::size_t> step;
        std::vector<std::vector<std::size_t>> coat;
        std::vector<std::size_t> build;  // Moved of the material and method of a step
        Departure departure;
    };
    void add_fit(const JointTable& table);
    void add_figures();
    void add_law(const std::vector<schedule::Finish>& finishes, const Knowledge& knowledge);
    void add_to_law(const std::string& figure, std::vector<Effect> effects);
    void add_wood(const std::string& id, const color::Weights& weights, const Knowledge& knowledge);
    void add_hand(const schedule::Finish& finish, double hand);
    void add_ageing(const std::string& wood, const Knowledge& knowledge);
    std::size_t coordinate(Coordinate c, std::vector<Effect> effects);
    std::size_t moved(const JointFigure& figure);
    void apply(Moved& m) const;

    material::Materials materials_;
    const material::Wood* wood_ = nullptr;
    double hand_ = 0;
    std::vector<Coordinate> coordinates_;
    std::vector<std::vector<Effect>> effects_;  // by coordinate
    std::vector<Moved> moved_;
    std::map<std::pair<std::string, std::string>, std::size_t> fitted_;  // (material, figure) of a fit
    std::map<std::string, std::size_t> named_;                           // hands by name
    std::vector<Hand> hands_;
    std::vector<std::vector<std::string>> used_;
    std::size_t materials_set_ = 0;
    AgeingLaws ageing_, ageing_as_filed_;
    std::size_t first_ageing_ = 0;  // coordinate of the first of ages_
    std::vector<AgeingCoordinate> ages_;
    double law_share_ = 1;
    std::size_t first_law_ = 0;     // coordinate of the first of law_
    std::vector<std::size_t> law_;  // which of uptake_figures tell in any of the finishes
};

}  // namespace foretone::appearance
