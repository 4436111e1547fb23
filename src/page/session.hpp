#pragma once
/// What the page asks of the core: one request in, one answer out, both JSON. See session.cpp for the requests.

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "foretone/appearance/ageing.hpp"
#include "foretone/appearance/stages.hpp"
#include "foretone/appearance/tones.hpp"
#include "foretone/light/board.hpp"
#include "foretone/photo/pixels.hpp"
#include "foretone/job/match.hpp"
#include "foretone/scene/edit.hpp"
#include "foretone/scene/scene.hpp"

namespace foretone::page {
using Json = nlohmann::ordered_json;

/// More than this is no schedule of a shop; it keeps a hostile file from holding up the page.
struct Limits {
    std::size_t bytes = 1'000'000, finishes = 24, steps = 24, parts = 24;
    int coats = 60;  ///< of one finish
};

/// A finish worked out, kept until it changes.
struct Worked {
    appearance::Stages stages;
};

/// The same after some time.
struct WorkedAge {
    appearance::AgedFinish finish;
    appearance::Board board;
    spectral::Spectrum reflectance{};
};

class Session {
public:
    Session();

    /// The answer to a request; what is wrong with the scene is told as {"problems": [...]}. Never throws.
    std::string answer(const std::string& request);

    /// Pixels of the last answer that promised some: RGBA, rows from the top.
    const std::vector<std::uint8_t>& pixels() const { return pixels_; }

    /// A photograph for `photo` requests: RGBA, rows from the top. Throws std::invalid_argument if `size` is not its
    /// size.
    void hold_photo(int width, int height, const std::uint8_t* rgba, std::size_t size);

    /// Told the share done of long work.
    std::function<void(double)> progress = [](double) {};

private:
    struct Search;     ///< a match under way
    struct HeldBoard;  ///< a board found in the photograph

    Json dispatch(const Json& request);
    Json change(const Json& request);
    Json allow(const Json& request) const;
    Json look(const Json& request);
    Json details(const Json& request);
    Json board(const Json& request);
    Json photo(const Json& request);
    Json sheet(const Json& request);
    Json coats(const Json& request);
    Json plan(const Json& request);
    Json sort(const Json& request) const;
    Json years(const Json& request);
    Json match(const Json& request);
    Json correct(const Json& request);
    Json fit(const Json& request);
    Json readings(const Json& request) const;
    Json step_board(const Json& request) const;

    scene::Scene read(const Json& request) const;
    const color::Weights& weights(const std::string& light, const std::string& observer);
    std::string all_but_words(std::string text_without_finishes, const std::string& file);
    const Worked& worked(const scene::Scene& scene, std::size_t finish);
    const WorkedAge& worked_age(const scene::Scene& scene, std::size_t finish, const scene::Duration& after);
    Json aged_json(const scene::Scene& scene, std::size_t finish, const scene::Duration& after,
                   const spectral::Spectrum& fresh, const std::vector<std::string>& lights);
    std::size_t stage_wanted(const appearance::Stages& stages, const Json& request);
    std::pair<const grain::Maps*, std::string> maps(const scene::Scene& scene, const Json& request);
    const std::vector<appearance::Board>& boards(const scene::Scene& scene, std::size_t finish);
    const appearance::ToneTable* solved(const std::string& key, const std::string& light) const;
    const appearance::ToneTable& tones(const scene::Scene& scene, const appearance::Board& board,
                                       const material::Wood& wood, const std::string& light, const grain::Maps& maps,
                                       const std::string& key, bool at_once);

    void show(const light::Image& image);

    scene::Library library_;
    appearance::Solver solver_;
    std::map<std::string, color::Weights> weights_;
    std::map<std::string, Worked> worked_;
    std::map<std::string, WorkedAge> aged_;
    std::string told_, bare_;  ///< the last scene's text without finishes, and that without title and notes
    std::string common_;       ///< what lies outside the finishes: while it stays, a finish of the same key is the same
    std::map<std::string, grain::Maps> maps_;
    std::map<std::string, std::vector<appearance::Board>> boards_;
    photo::Pixels photo_;
    std::shared_ptr<const HeldBoard> held_board_;
    std::map<std::string, appearance::ToneSpectra> spectra_;
    std::map<std::string, appearance::ToneTable> tables_;
    std::optional<scene::Scene> last_;  ///< the scene of the last look
    std::vector<std::string> keys_;  ///< of the finishes of the scene looked at: all that is told of each but its name
    std::string last_text_;
    std::optional<job::TargetView> target_;  ///< the last look's
    std::string target_key_;
    std::unique_ptr<Search> search_;
    std::vector<std::uint8_t> pixels_;

public:
    ~Session();
};

/// The scene as the page draws and edits it.
Json scene_json(const scene::Scene& scene);

/// One finish: its steps from the wood up, each with what can be turned on it and its tint on white paper under
/// `light`.
Json finish_model(const schedule::Finish& finish, const material::Materials& materials, const color::Weights& light);

/// What the page offers to choose from: woods, colors, oils, films, waxes, liquids, lights.
Json materials_json(const scene::Library& library);

/// The same of the scene's own materials, by kind.
Json own_json(const scene::Scene& scene, const scene::Library& library);

/// The time that a request names under "after"; none: the piece as it is new. Throws InputError: duration-unknown.
std::optional<scene::Duration> after_of(const Json& request, const std::string& file);

/// Times the page offers, the scene's own among them, and the places a piece may stand in.
Json times_json(const scene::Scene& scene);

/// How the amount of a part is written: "parts", "percent_weight", ...
const char* amount_key(schedule::Amount amount);

/// The job's [search] as it stands in the text, and a table to be written, as JSON; null if there is none.
Json search_json(const std::string& text);
Json written_json(const scene::Written& written);

/// Makes the changes that the page asks for, in order.
std::string edited(const std::string& text, const std::string& file, const Json& edits);

}  // namespace foretone::page
