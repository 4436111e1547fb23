#pragma once
/// `board SCENE --photo IMG`: the finishes on a photograph of the user's own board.

#include <string>
#include <vector>

#include "common.hpp"

namespace foretone::cli {

struct BoardPhotoOptions {
    std::string photo;                ///< empty: the option was not given, and the board is a drawn one
    std::vector<std::string> cards;   ///< "X,Y,W,H" as written, checked
    std::vector<std::string> boards;  ///< "X,Y,W,H" or "X,Y X,Y X,Y …" as written, checked
    std::string corners, corners_mm;  ///< four corners as written, and "WxH" of what lies between; empty: none
    bool light_even = false;
    double card_reflectance = 0.90;
    bool no_card = false;
    std::string photo_light, second_light;  ///< empty: not said
};

/// Adds --photo and what goes with it (--card, --board, --light-even …) to the verb; what only a drawn board has (cut,
/// size, seed, view) is refused beside --photo. To be called after those were added.
void add_board_photo(CLI::App& verb, BoardPhotoOptions& options);

/// Runs it; `mm_per_px` 0: not said; `finishes` empty: all of the scene; `lights`: none (the look's first) or one.
/// Returns the exit status.
int board_photo(const Common& common, const std::string& scene, const std::vector<std::string>& finishes,
                const std::vector<std::string>& lights, const BoardPhotoOptions& options, double mm_per_px);

}  // namespace foretone::cli
