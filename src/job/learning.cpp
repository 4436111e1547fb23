#include "foretone/job/learning.hpp"
#include "required.hpp"

#include <algorithm>
#include <array>
#include <atomic>
#include <set>
#include <map>
#include <tuple>

#include "foretone/base/parallel.hpp"
#include "foretone/learn/learning.hpp"

namespace foretone::job {
namespace {
using schedule::Amount;
using schedule::Finish;
using schedule::Step;

constexpr std::array<const char*, 5> worlds_woods = {"hard-maple", "cherry", "ash", "walnut", "white-oak"};
constexpr std::array<const char*, 3> dyes = {"honey-dye", "russet-dye", "umber-dye"};

Step coat(const std::string& id, int coats, material::Method method) {
    Step s;
    s.mix = {{id, Amount::parts, 1}};
    s.coats = coats;
    s.method = method;
    return s;
}

Finish finish_of(const std::string& dye, double water, int top_coats, const std::string& top) {
    Step color;
    color.mix = {{dye, Amount::parts, 1}, {"water", Amount::parts, water}};
    color.wet_g_per_m2 = 65;
    Step seal = coat("orange-shellac", 1, material::Method::spray);
    seal.cut_lb = 1.5;
    return {"", {color, seal, coat(top, top_coats, material::Method::brush)}};
}

learn::LearningQuestion world(const material::Materials& materials, const color::Weights& weights, std::size_t number) {
    const std::string wood = worlds_woods[number % worlds_woods.size()], dye = dyes[number % dyes.size()];
    const double water = 12;
    const std::string film = "waterborne-acrylic";
    learn::LearningQuestion q{materials,
                              wood,
                              finish_of(dye, water, 2, film),
                              {finish_of(dye, water, 2, film), finish_of(dye, 2 * water + 1, 2, film),
                               finish_of(dye, water, 4, film), finish_of(dye, water, 2, "oil-varnish")},
                              optics::Geometry::d8_included,
                              weights};
    q.seed = 1000 + number;
    return q;
}

// What is predicted after so many boards of such readings.
struct Course {
    int boards;
    bool spectra;
    const char* readings;
};
constexpr std::array<Course, 5> courses = {
    {{0, false, "none"}, {1, false, "Lab"}, {1, true, "spectra"}, {3, false, "Lab"}, {3, true, "spectra"}}};

struct Tally {
    std::vector<double> radius, error;
    std::size_t inside = 0;
    void add(double off, double wide, bool in) {
        error.push_back(off);
        radius.push_back(wide);
        inside += in;
    }
};

double median(std::vector<double> v) {
    std::sort(v.begin(), v.end());
    return v[v.size() / 2];
}

}  // namespace

Learning check_learning(const scene::Library& library, std::size_t worlds, unsigned threads,
                        const std::function<void(double)>& progress) {
    std::set<std::string> named = {"orange-shellac", "waterborne-acrylic", "oil-varnish", "water"};
    named.insert(worlds_woods.begin(), worlds_woods.end());
    named.insert(dyes.begin(), dyes.end());
    require_materials(library, named, "the table of hidden worlds");
    const material::Materials materials = library.materials();
    const auto weights = color::make_weights(library.illuminant("D65"), library.observer("10deg"));
    std::atomic<std::size_t> done{0};
    const auto learned = base::parallel_map(worlds * courses.size(), threads, [&](std::size_t i) {
        auto q = world(materials, weights, i / courses.size());
        const auto& course = courses[i % courses.size()];
        q.boards = course.boards;
        q.spectra = course.spectra;
        auto out = learn::learn(q);
        if (progress) progress(static_cast<double>(++done) / static_cast<double>(worlds * courses.size()));
        return out;
    });
    Learning out;
    out.worlds = worlds;
    for (std::size_t c = 0; c < courses.size(); ++c) {
        std::map<std::pair<int, bool>, Tally> tallies;  // what, on another board
        for (std::size_t w = 0; w < worlds; ++w) {
            const auto& one = learned[w * courses.size() + c];
            out.refused += !one.refused.empty();
            for (const auto& f : one.colors)
                tallies[{f.asked == 0 ? 0 : 1, !f.same_board}].add(f.error_de00, f.radius_de00, f.inside);
            for (const auto& d : one.differences) tallies[{2, true}].add(d.error_de00, d.width_de00, d.inside);
        }
        constexpr std::array<const char*, 3> what = {"the finish that was read", "a neighbour", "a difference"};
        for (const auto& [key, t] : tallies)
            out.rows.push_back({courses[c].boards, courses[c].readings, what[static_cast<std::size_t>(key.first)],
                                key.second ? "another board" : "the same plank", t.error.size(),
                                static_cast<double>(t.inside) / static_cast<double>(t.error.size()), median(t.radius),
                                median(t.error)});
    }
    return out;
}

}  // namespace foretone::job
