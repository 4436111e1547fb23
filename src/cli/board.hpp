#pragma once
/// Options of the verb `board`, shared with what else it can put a finish on.

#include "board_photo.hpp"
#include "common.hpp"
#include "foretone/job/board.hpp"

namespace foretone::cli {

struct BoardOptions : Common {
    std::string scene;
    std::vector<std::string> finishes;
    std::vector<std::string> lights;
    std::string cut = "flat";
    std::string size_mm, px;  ///< "WxH", empty if not said
    double mm_per_px = 0;     ///< 0: not said
    std::string seed;         ///< as written, empty if not said
    std::string view = "window";
    bool tilt = false;
    std::string after;        ///< as written, empty: new
    std::string shade;        ///< "edges", or empty: alike all over
    BoardPhotoOptions photo;  ///< a photograph in place of a drawn board
};

}  // namespace foretone::cli
