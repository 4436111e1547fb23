#pragma once
/// A scene's finishes on a photograph of the user's own board.

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "foretone/appearance/render.hpp"
#include "foretone/photo/photo.hpp"
#include "foretone/photo/photo_file.hpp"
#include "foretone/job/preview.hpp"

namespace foretone::job {

/// What is asked.
struct BoardPhotoQuestion {
    std::string photo;                   ///< the file
    std::vector<photo::Card> cards;      ///< the first takes out exposure and cast, all of them tell of uneven light
    std::vector<photo::Polygon> boards;  ///< what to finish; none: wherever it looks like the wood
    std::vector<std::optional<double>> grains;  ///< of each board: degrees its grain stands up from lying; none: found
    std::optional<photo::Corners> corners;      ///< of a rectangle that is to be squared up
    std::array<double, 2> corners_mm{};         ///< its width and height; 0: nobody said
    bool light_even = false;                    ///< known to be: none is taken out
    double mm_per_px = 0;                       ///< width of a pixel on the board; 0: nobody said
    bool no_card = false;                       ///< go on without; colors are relative then
    std::string photo_light = "D65";            ///< under which the photograph was taken
    bool light_assumed = false;                 ///< nobody said so
    std::string second_light;           ///< a second lamp's, where two of different color light it; empty: nobody said
    std::string light;                  ///< in which the board is shown; empty: the look's first
    std::vector<std::string> finishes;  ///< by name ("bare" is always shown); empty: all of the scene
    int threads = 0;
};

/// One finish on the board. Colors under the light it is shown in.
struct PhotoFinish {
    std::string name;
    SeenColor board;           ///< mean of the board in the picture, without highlights
    SeenColor prediction;      ///< the library's wood with this finish, without the photograph
    double to_prediction = 0;  ///< ΔE00 between the two
    double from_bare = 0;      ///< ΔE00 of the board finished against the board bare
    color::Lab difference;     ///< the same, finished less bare
    std::string words;         ///< the same in words
    double out_of_gamut = 0;   ///< share of the board's pixels whose chroma the screen cannot show
    std::vector<schedule::Finding> findings;
};

struct BoardPhoto {
    std::string scene, wood, light, observer;
    optics::Geometry geometry = optics::Geometry::g45_0;
    BoardPhotoQuestion question;
    photo::PhotoHead head;
    photo::Correction correction;
    std::array<int, 2> squared_px{};  ///< width and height of the picture squared up; 0: it was not
    photo::FoundLight found_light;
    double mm_per_px = 0;
    double shade = 0, chroma_offset = 0, wood_share = 0, highlight_share = 0, limited_share = 0;
    PhotoFinish bare;  ///< `prediction` is the library's bare wood
    std::vector<PhotoFinish> finishes;
    std::vector<scene::Problem> warnings;

    /// So far from the library's bare wood (over ΔE00 15, a choice) that it may not be the board at all; told first.
    bool doubtful() const { return correction.promise && bare.to_prediction > 15; }
};

/// A finished picture as soon as it is made; `index` −1 is the bare board. The picture may be taken.
using PhotoSink = std::function<void(int index, photo::FinishedPhoto& photo, const PhotoFinish& what)>;

/// The bytes of a picture file. Throws InputError: picture-missing, picture-directory, picture-size (over 1 GB),
/// picture-unreadable.
std::vector<std::uint8_t> read_picture(const std::string& file);

/// Works out the bare board and every finish, one after the other. Throws InputError: what `picture::read_photo`,
/// `by_card` and `PhotoBoard` refuse, with the photograph's name; `card-missing`; `finish-unknown`; a step's fault with
/// its place.
BoardPhoto board_photo(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver,
                       const BoardPhotoQuestion& question, const PhotoSink& sink);

}  // namespace foretone::job
