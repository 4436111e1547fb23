#pragma once
/// `board SCENE --photo IMG`: the finishes on a photograph of the user's own board.

#include <string>
#include <vector>

#include "common.hpp"

namespace foretone::cli {

struct BoardPhotoOptions {
    std::string photo;  ///< empty: the option was not given, and the board is a drawn one
    std::string card;   ///< "X,Y,W,H" as written, checked
    double card_reflectance = 0.90;
    bool no_card = false;
    std::string photo_light;  ///< empty: not said
};

/// Adds --photo, --card, --card-reflectance, --no-card and --photo-light to the verb; what only a drawn board has (cut,
/// size, seed, view) is refused beside --photo. To be called after those were added.
void add_board_photo(CLI::App& verb, BoardPhotoOptions& options);

/// Runs it; `finishes` empty: all of the scene; `lights`: none (the look's first) or one. Returns the exit status.
int board_photo(const Common& common, const std::string& scene, const std::vector<std::string>& finishes,
                const std::vector<std::string>& lights, const BoardPhotoOptions& options);

}  // namespace foretone::cli
