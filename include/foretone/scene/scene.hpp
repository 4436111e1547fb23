#pragma once
/// A scene: one wood, a look, one or more finishes, and the materials they need.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "foretone/appearance/uncertain.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/material/exposure.hpp"
#include "foretone/material/material.hpp"
#include "foretone/scene/cans.hpp"
#include "foretone/scene/duration.hpp"
#include "foretone/scene/library.hpp"
#include "foretone/scene/prices.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/schedule/step.hpp"
#include "foretone/schedule/system.hpp"
#include "foretone/search/space.hpp"

namespace foretone::scene {

/// Under which lights, with which eyes, in which geometry.
struct Look {
    std::vector<std::string> lights = {"D65"};
    std::string observer = "2deg";
    optics::Geometry geometry = optics::Geometry::g45_0;
    std::optional<schedule::UnitSystem> units;           ///< of printed results, if said
    std::vector<Duration> after;                         ///< the finished boards are shown then too, soonest first
    material::Stands exposure = material::Stands::room;  ///< where the piece stands meanwhile
};

/// What a finish should reach; exactly one is set.
struct Target {
    std::string finish;
    std::optional<color::Lab> lab;  ///< under `light`, by `observer`
    std::string light, observer;
    std::optional<spectral::Spectrum> reflectance;
    std::string srgb;                      ///< "#rrggbb" as written, where `lab` was worked out from it
    std::string file;                      ///< the reflectance's file as written
    bool same_board = true;                ///< a control on the board itself; else another piece
    std::optional<double> tolerance_de00;  ///< within this ΔE00 a recipe will do
    std::optional<Duration> aged;          ///< the target, a finish, is that old already
    std::optional<Duration> judge_at;      ///< both are looked at so much later
    Place place;                           ///< of [target]
};

/// What `match` may use, and where each part of it stands in the file.
struct SearchTable {
    search::Choices choices;
    Place place, dye;
    std::array<Place, search::rooms> rooms;  ///< by search::Room
    std::vector<std::string> on_hand;        ///< what the shop owns; empty: not said
    std::optional<double> most_uneven;       ///< ΔE00 between the palest and the darkest tenth of the board
};

inline constexpr std::size_t longest_notes = 2000;  ///< characters

struct Scene {
    std::string file, title;
    std::string notes;  ///< what its maker keeps for the job, in lines; empty: nothing
    Look look;
    std::string wood;  ///< id among the materials
    material::Materials materials;
    std::vector<schedule::Finish> finishes;
    std::optional<Target> target;
    std::optional<SearchTable> search;
    Prices prices;
    std::optional<std::string> lesson;         ///< [lesson]: what it asks; empty: what it asks by itself
    Cans cans;                                 ///< what labels say beside the figures of materials
    std::vector<appearance::JointTable> fits;  ///< what step boards taught of the materials together
    bool same_board = false;                   ///< the job is cut from the board whose wood was read
    std::vector<Problem> warnings;
    std::optional<schedule::UnitSystem> written_in;  ///< whose units' keys it is written with

    /// Where each step, and each part of it, stands in the file: [finish][step].
    struct StepPlace {
        Place step;
        std::vector<Place> parts;
    };
    std::vector<std::vector<StepPlace>> places;

    /// The wood that is finished.
    const material::Wood& wood_data() const { return std::get<material::Wood>(materials.at(wood).data); }

    /// What is known besides the materials' own spreads.
    appearance::Knowledge knowledge() const;

    /// A step's fault with its place in the file.
    InputError at(const schedule::Fault& fault, std::size_t finish, std::size_t step) const;
};

/// Reads a scene file and the materials it names. Throws InputError with everything found wrong in it.
Scene read_scene(const std::filesystem::path& file, const Library& library);

/// The same from text; relative paths in it start at `folder`.
Scene read_scene_text(const std::string& text, const std::string& file, const std::filesystem::path& folder,
                      const Library& library);

/// What each finish is called in file names, by its name: its own word, and none that another result bears. "bare" is
/// the wood alone.
std::map<std::string, std::string> finish_words(const Scene& scene);

/// The three geometries as they are written.
std::string geometry_text(optics::Geometry geometry);

}  // namespace foretone::scene
