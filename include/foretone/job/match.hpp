#pragma once
/// What should I do to get there? A scene's search, worked out.

#include <functional>
#include <memory>

#include "foretone/color/metamerism.hpp"
#include "foretone/job/preview.hpp"
#include "foretone/schedule/order_rules.hpp"
#include "foretone/search/engine.hpp"

namespace foretone::job {

/// The target as it is judged: under the look's lights, or under its own alone.
struct TargetView {
    std::string name;  ///< "oil varnish", "sample.csv", "Lab 60, 12, 34"
    std::vector<std::string> lights;
    std::vector<color::Weights> weights;
    std::string observer;
    std::optional<spectral::Spectrum> reflectance;  ///< not known for a Lab or sRGB target
    search::Aim aim;
    std::vector<SeenColor> colors;  ///< one a light
};

/// The scene's target. A finish is worked out by `solver`. Throws InputError: `target-missing`, a step that cannot be.
TargetView view_target(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver);

/// The target's warnings: what a target of one light cannot tell.
std::vector<scene::Problem> target_warnings(const scene::Scene& scene);

/// Runs a job for each number below `count`, in any order, perhaps at once.
using ForEach = std::function<void(std::size_t count, const std::function<void(std::size_t)>& job)>;

/// One recipe against the target.
struct Candidate {
    std::uint64_t number = 0;
    schedule::Finish finish;
    std::string line;  ///< the mixing line
    search::Effort effort;
    std::vector<SeenColor> colors;        ///< one a light, with spread
    std::vector<double> de00;             ///< one a light
    std::vector<double> special_index;    ///< one a light; empty for a target of one light
    std::vector<std::string> words;       ///< one a light: what the recipe is, seen from the target
    double worst = 0;                     ///< of de00
    double spread = 0;                    ///< largest over the lights
    double chance = 0;                    ///< that a client sees a difference, worst light, on one board
    double chance_other_board = 0;        ///< and on two boards
    std::optional<double> chance_within;  ///< to be within the target's tolerance, where it says one
    double angular_worst = 0;             ///< worst ΔE00 by the angular solver
    std::size_t place = 0;                ///< among all recipes by the fast solver; 0 if below the judged
    std::size_t angular_place = 0;        ///< among the judged by the angular solver, from 1
    bool best_of_kind = false;            ///< none is as close with as few steps and as few colorants
    double uneven_de00 = 0;               ///< palest against darkest tenth of the board, first light
    appearance::Spread rests_on;
    std::vector<schedule::Finding> findings;  ///< of the order rules; none is a failure
};

struct Match {
    TargetView target;
    std::vector<Candidate> candidates;  ///< the recommended first
    std::uint64_t recipes = 0, examined = 0;
    std::string not_examined;      ///< in words, empty if all were
    std::string left_out;          ///< what the order rules forbid, in words; empty if nothing
    std::size_t solved_again = 0;  ///< recipes the angular solver was asked about
    int streams = 0;
    std::string unreachable;         ///< why, if even the nearest is visibly off
    std::vector<std::string> edges;  ///< limits that the recommended recipe lies on, unless it is as good as there
    std::vector<scene::Problem> warnings;
};

/// A search ready to run: the space of a scene, without what the order rules say cannot hold, and the engine over it.
/// Throws InputError for what is wrong with [search] or [target].
class Search {
public:
    Search(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver);

    const search::Space& space() const { return space_; }
    const search::Engine& engine() const { return *engine_; }

    static constexpr std::size_t keep = 100;   ///< recipes of each kind kept, and judged by the angular solver
    static constexpr std::size_t shown = 12;   ///< candidates in the result at most
    static constexpr int streams = 8;          ///< of the angular solver: within 3e-4 in reflectance under clear films
    static constexpr double as_good = 0.2;     ///< ΔE00 that nobody can tell: in such steps closeness is ranked
    static constexpr double same_risk = 0.02;  ///< chances to be within the tolerance are ranked in such steps
    static constexpr double unreachable_de00 = 2;  ///< a nearest recipe above this is said not to reach the target

    /// The ways in order, while `go_on` says so (asked by several threads at once): each thread takes the next, and one
    /// that was begun is ended, so that those examined are the first so many whatever the threads did. `progress` is
    /// told the share done, now and then, by one thread at a time.
    struct Examined {
        search::Best best{keep};
        std::size_t ways = 0;
    };
    /// Of the ways first, first + stride, … alone, if so asked.
    Examined examine(unsigned threads, const std::function<bool()>& go_on, const std::function<void(double)>& progress,
                     std::size_t first = 0, std::size_t stride = 1) const;

    /// What was found, `examined_ways` ways having been judged, and the hundred closest solved again by the angular
    /// solver.
    Match conclude(const search::Best& best, std::size_t examined_ways, const ForEach& for_each) const;

private:
    struct Picked {
        std::vector<search::Found> found;  ///< the closest, then those of the front that are not among them
        std::size_t ranked = 0;            ///< how many are the closest
        std::vector<search::Found> front;
    };
    Picked pick(const search::Best& best) const;
    std::vector<std::size_t> shown_of(const Picked& picked, const std::vector<std::size_t>& angular_places) const;
    std::string unreachable(const std::vector<Candidate>& candidates) const;
    Candidate candidate(const search::Found& found) const;
    void solve_again(std::vector<search::Found>& found, std::vector<double>& solved_again,
                     const ForEach& for_each) const;

    const scene::Scene& scene_;
    const scene::Library& library_;
    const appearance::Solver& solver_;
    search::Setting setting(const appearance::Solver& solver) const;

    TargetView target_;
    std::string left_out_;
    search::Space space_;
    material::Materials aged_;  ///< of the scene, as old as recipes are judged at; empty: new
    std::unique_ptr<search::Engine> engine_;
};

}  // namespace foretone::job
