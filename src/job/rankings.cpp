#include "foretone/job/rankings.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "foretone/appearance/render.hpp"
#include "foretone/base/number.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/color/xyz.hpp"
#include "foretone/schedule/deposit.hpp"
#include "required.hpp"

namespace foretone::job {
namespace {
using color::Lab;
using optics::Geometry;

const std::string alkyd = "oil-varnish", urethane = "two-component-urethane", waterborne = "waterborne-acrylic",
                  lacquer = "nitrocellulose-lacquer", linseed = "boiled-linseed", tung = "tung", water = "water";

std::string one_decimal(double v) { return base::fixed(v, 1); }

class Differences {
public:
    explicit Differences(const scene::Library& library)
        : weights_(color::make_weights(library.illuminant("D65"), library.observer("10deg"))),
          solver_(appearance::two_flux_solver()),
          shelf_(library.materials()) {}

    /// ΔE*ab of two coats of `use` on `wood`, by the mean of both d/8 geometries.
    double of(const std::string& wood_id, const std::string& use) const {
        schedule::Step step;
        step.mix = {{use, schedule::Amount::parts, 1}};
        const auto deposit = schedule::deposit(step, shelf_);
        const auto& wood = wood_of(wood_id);
        return color::delta_e_ab(seen(appearance::after_coats({}, deposit, 2, wood), wood), seen({}, wood));
    }

    /// The same under a film of water.
    double wetted(const std::string& wood_id) const {
        const auto& wood = wood_of(wood_id);
        schedule::Step step;
        step.mix = {{water, schedule::Amount::parts, 1}};
        step.wet_g_per_m2 = 70;
        return color::delta_e_ab(seen(appearance::while_wet({}, schedule::deposit(step, shelf_), wood), wood),
                                 seen({}, wood));
    }

    double lightness(const std::string& wood_id) const { return seen({}, wood_of(wood_id)).l; }

private:
    const material::Wood& wood_of(const std::string& id) const { return std::get<material::Wood>(shelf_.at(id).data); }
    Lab seen(const appearance::Board& board, const material::Wood& wood) const {
        auto sum = appearance::render(board, wood, Geometry::d8_included, solver_).total();
        const auto other = appearance::render(board, wood, Geometry::d8_excluded, solver_).total();
        for (std::size_t i = 0; i < sum.size(); ++i) sum[i] = 0.5 * (sum[i] + other[i]);
        return color::to_lab(color::xyz(sum, weights_), weights_.white);
    }

    color::Weights weights_;
    appearance::Solver solver_;
    material::Shelf shelf_;
};

// Mean difference by finish over some woods.
using Means = std::map<std::string, double>;

bool least(const Means& m, const std::string& use) {
    return std::all_of(m.begin(), m.end(), [&](const auto& other) { return other.second >= m.at(use); });
}
bool most(const Means& m, const std::string& use) {
    return std::all_of(m.begin(), m.end(), [&](const auto& other) { return other.second <= m.at(use); });
}

// An order that a paper states of some finishes, and the woods it is looked for on.
struct Order {
    std::string claim, source;
    std::vector<std::string> woods, finishes;
    bool (*holds)(const Means&);
};

const std::vector<Order>& orders() {
    static const std::string four = "Pelit 2017, Forestist 67, 262-274 (abstract; heat-treated beech and Scots pine)";
    static const std::vector<Order> all = {
        {"of cellulosic, synthetic (alkyd), polyurethane and waterborne varnish, alkyd changes color most",
         four,
         {"beech", "pine"},
         {lacquer, alkyd, urethane, waterborne},
         [](const Means& m) { return most(m, alkyd); }},
        {"of the same four, waterborne changes color least",
         four,
         {"beech", "pine"},
         {lacquer, alkyd, urethane, waterborne},
         [](const Means& m) { return least(m, waterborne); }},
        {"of synthetic, parquet and waterborne varnish, waterborne changes color least and alkyd most",
         "Atar, Yalinkilic & Keskin 2019, Politeknik 22(2), 407-413 (abstract; heat-treated woods); here beech, "
         "parquet "
         "varnish taken as two-component urethane",
         {"beech"},
         {alkyd, urethane, waterborne},
         [](const Means& m) { return most(m, alkyd) && least(m, waterborne); }},
        {"polyurethane changes color less than waterborne",
         "Kilic & Sogutlu 2024, Kastamonu Univ. J. Forestry, 59-73 (abstract; oak, chestnut, Scots pine)",
         {"white-oak", "pine"},
         {urethane, waterborne},
         [](const Means& m) { return m.at(urethane) < m.at(waterborne); }},
        {"nitrocellulose and acrylic change color least, oxidizing oils most",
         "told as published; the paper itself was not found",
         {"beech", "white-oak", "hard-maple", "walnut"},
         {lacquer, waterborne, alkyd, linseed, tung},
         [](const Means& m) {
             return std::min(m.at(linseed), m.at(tung)) > std::max(m.at(lacquer), m.at(waterborne)) &&
                    (most(m, tung) || most(m, linseed));
         }},
    };
    return all;
}

std::set<std::string> named_by_orders() {
    std::set<std::string> named = {water};
    for (const auto& order : orders()) {
        named.insert(order.woods.begin(), order.woods.end());
        named.insert(order.finishes.begin(), order.finishes.end());
    }
    return named;
}

Ranking ranking(const Differences& d, const Order& order) {
    Means means;
    std::string text;
    for (const auto& use : order.finishes) {
        double sum = 0;
        for (const auto& wood : order.woods) sum += d.of(wood, use);
        means[use] = sum / static_cast<double>(order.woods.size());
        text += (text.empty() ? "" : ", ") + use + " " + one_decimal(means[use]);
    }
    return {order.claim, order.source, order.holds(means), text};
}

Ranking dark_woods(const Differences& d, const scene::Library& library) {
    auto woods = library.ids(material::Kind::wood);
    std::stable_sort(woods.begin(), woods.end(),
                     [&](const auto& a, const auto& b) { return d.lightness(a) < d.lightness(b); });
    const std::size_t third = woods.size() / 3;
    double dark = 0, pale = 0;
    for (std::size_t i = 0; i < third; ++i) {
        dark += d.wetted(woods[i]) / static_cast<double>(third);
        pale += d.wetted(woods[woods.size() - 1 - i]) / static_cast<double>(third);
    }
    return {"wetted, dark woods change color most",
            "Wood colour of central European wood species, Eur. J. Wood Prod. 2016, doi 10.1007/s00107-016-1108-0 "
            "(abstract)",
            dark > pale, "darkest third " + one_decimal(dark) + ", palest third " + one_decimal(pale)};
}

}  // namespace

std::vector<Ranking> judge_rankings(const scene::Library& library) {
    require_materials(library, named_by_orders(), "the table of published orders");
    const Differences d(library);
    std::vector<Ranking> out;
    for (const auto& order : orders()) out.push_back(ranking(d, order));
    out.push_back(dark_woods(d, library));
    return out;
}

}  // namespace foretone::job
