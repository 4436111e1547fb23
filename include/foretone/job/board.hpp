#pragma once
/// A scene's finishes on a board with grain, lit.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "foretone/light/board.hpp"
#include "foretone/grain/contrast.hpp"
#include "foretone/scene/scene.hpp"
#include "foretone/schedule/order_rules.hpp"

namespace foretone::job {

/// Most pixels of one board.
inline constexpr double most_board_pixels = 30e6;

/// What to show.
struct BoardRequest {
    std::vector<std::string> finishes;  ///< by name; "bare" is the wood alone; empty: bare and all
    std::vector<std::string> lights;    ///< ids; empty: the look's
    grain::Cut cut = grain::Cut::flat;
    double width_mm = 300, height_mm = 200;
    double mm_per_px = 0.25;
    std::uint64_t seed = 0;
    light::View view = light::View::window;
    bool tilt = false;                       ///< also the strip under a passing light
    std::optional<scene::Duration> after{};  ///< boards as old as that, where the look says they stand; none: new
    bool shade_edges = false;                ///< toners are sprayed towards the edges alone (board_shade.hpp)

    int width() const;  ///< pixels
    int height() const;
};

/// Seeds end at 2^53 − 1: JSON readers that hold numbers as doubles keep them all.
inline constexpr std::uint64_t largest_seed = (std::uint64_t{1} << 53) - 1;

/// A seed from a scene's title: the same title, the same board.
std::uint64_t seed_of(const std::string& title);

/// Of a board with toned edges: readings without the toner's color and with all of it.
struct Shade {
    color::Lab middle, edge;
    double de00 = 0;  ///< between the two
};

/// One finish under one light.
struct SeenBoard {
    std::string finish, light;  ///< finish "bare" for the wood alone
    light::Image image;
    light::Image strip;    ///< empty if not asked for
    color::Lab mean;       ///< reading (45/0) of the whole board
    color::Lab predicted;  ///< reading of the mean wood at mean uptake: what `preview` says in that geometry
    double de00 = 0;       ///< between the two
    /// What was settled (appearance/mean_matched.hpp): the mean of unsettled spots from `predicted`. None with toned
    /// edges, nor a contrast: they would be those of the board toned all over.
    std::optional<double> uneven_de00;
    std::optional<grain::Contrast> contrast;
    double reduced_share = 0;  ///< of pixels, chroma reduced to fit the screen
    double white_share = 0;    ///< of pixels, lighter than the screen's white
    std::optional<Shade> shade;
};

/// What there is to say of a finish's schedule.
struct CheckedFinish {
    std::string name;
    std::vector<schedule::Finding> findings;
};

struct Boards {
    std::string title, wood, wood_name, observer;
    BoardRequest request;
    std::vector<SeenBoard> boards;  ///< finishes in order, lights within
    std::vector<scene::Problem> warnings;
    std::vector<CheckedFinish> finishes;  ///< of the scene, those shown, in its order
    std::vector<std::string> cautions;    ///< words of material::caution_words for the scene
};

/// Throws InputError: an unknown finish or light, a board too large or too small, a step that cannot be worked out.
Boards boards(const scene::Scene& scene, const scene::Library& library, const BoardRequest& request);

}  // namespace foretone::job
