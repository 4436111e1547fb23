#pragma once
/// The main job: a scene into every stage's color under every light, with spread, provenance and warnings.

#include <optional>
#include <string>
#include <vector>

#include "foretone/appearance/spread.hpp"
#include "foretone/color/ciecam16.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/job/aged.hpp"
#include "foretone/job/published.hpp"
#include "foretone/scene/scene.hpp"
#include "foretone/schedule/order_rules.hpp"
#include "foretone/search/next_reading.hpp"

namespace foretone::job {

struct SeenStage {
    appearance::Stage stage;
    spectral::Spectrum reflectance{};
    std::vector<SeenColor> colors;  ///< one a light of the look
    double uneven_de00 = 0;         ///< palest against darkest tenth by the wood's blotch, under the first light
};

struct SeenFinish {
    std::string name;
    std::vector<SeenStage> stages;
    std::optional<SeenStage> end_grain;  ///< the finished end of the board, where asked for
    PublishedFooting footing;            ///< what published boards say of its kinds of finish
    appearance::Spread spread;
    std::vector<std::vector<color::Display>> plausible;  ///< [light]: finished colors (90 % of them), pale to dark
    std::vector<std::string> readings;  ///< what could be read on a step board of this finish: "bare wood"
    search::NextReadings next;          ///< which of them would narrow the finished color most, first light
    std::vector<scene::Problem> warnings;
    std::vector<schedule::Finding> findings;  ///< will it hold together?
    std::vector<SeenAge> aged;                ///< the finished board after the look's times
};

/// One finished board under two lights, each seen by an eye adapted to it (CIECAM16).
struct AcrossLights {
    std::string finish, from, to;  ///< the first light of the look, and another
    double de_ucs = 0;             ///< in CAM16-UCS
    std::string words;             ///< how it looks under `to` beside how it looks under `from`
};

/// Two finished states under one light.
struct Difference {
    std::string from, to, light;
    double de00 = 0;
    appearance::DifferenceSpread spread;  ///< on one board
    double chance_seen = 0;               ///< 0–1, that it is above search::client_sees_de00, on one board
    double chance_seen_other_board = 0;   ///< and of two pieces, one finished so and one so
    std::string words;                    ///< what `to` is, seen from `from`: "darker, redder"
    std::string reverse_words;            ///< what `from` is, seen from `to`
};

struct Preview {
    scene::Scene scene;
    std::string solver;
    std::string wood_name;
    std::vector<SeenFinish> finishes;
    std::vector<Difference> differences;   ///< every pair of finishes, every light
    std::vector<AcrossLights> across;      ///< every finish, the first light with every other
    std::vector<scene::Problem> warnings;  ///< the scene's own
    std::string reference;                 ///< the finish others are compared with: the target's, or the first
};

/// Works out all finishes. Throws InputError for a step that cannot be worked out, with its place.
Preview preview(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver);

}  // namespace foretone::job
