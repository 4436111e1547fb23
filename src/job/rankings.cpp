#include "foretone/job/rankings.hpp"
#include "required.hpp"

#include <algorithm>
#include <map>

#include "foretone/appearance/render.hpp"
#include "foretone/base/number.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/color/xyz.hpp"
#include "foretone/schedule/deposit.hpp"

namespace foretone::job {
namespace {
using color::Lab;
using optics::Geometry;

std::string one_decimal(double v) { return base::fixed(v, 1); }

class Differences {
public:
    explicit Differences(const scene::Library& library)
        : weights_(color::make_weights(library.illuminant("D65"), library.observer("10deg"))),
          solver_(appearance::two_flux_solver()) {
        require_materials(library,
                          {"nitrocellulose-lacquer", "oil-varnish", "two-component-urethane", "waterborne-acrylic",
                           "boiled-linseed", "tung", "water", "beech", "white-oak", "pine", "hard-maple", "walnut"},
                          "the table of published orders");
        shelf_ = library.materials();
    }

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
        step.mix = {{"water", schedule::Amount::parts, 1}};
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

    material::Shelf shelf_;
    color::Weights weights_;
    appearance::Solver solver_;
};

// Mean difference by finish over some woods, as text too.
struct Field {
    std::map<std::string, double> mean;
    std::string text;
};

Field over(const Differences& d, const std::vector<std::string>& woods, const std::vector<std::string>& finishes) {
    Field out;
    for (const auto& use : finishes) {
        double sum = 0;
        for (const auto& wood : woods) sum += d.of(wood, use);
        out.mean[use] = sum / static_cast<double>(woods.size());
        out.text += (out.text.empty() ? "" : ", ") + use + " " + one_decimal(out.mean[use]);
    }
    return out;
}

bool least(const Field& f, const std::string& use) {
    return std::all_of(f.mean.begin(), f.mean.end(), [&](const auto& m) { return m.second >= f.mean.at(use); });
}
bool most(const Field& f, const std::string& use) {
    return std::all_of(f.mean.begin(), f.mean.end(), [&](const auto& m) { return m.second <= f.mean.at(use); });
}

void four_varnishes(const Differences& d, std::vector<Ranking>& out) {
    const std::string source = "Pelit 2017, Forestist 67, 262-274 (abstract; heat-treated beech and Scots pine)";
    const auto f = over(d, {"beech", "pine"},
                        {"nitrocellulose-lacquer", "oil-varnish", "two-component-urethane", "waterborne-acrylic"});
    out.push_back({"of cellulosic, synthetic (alkyd), polyurethane and waterborne varnish, alkyd changes color most",
                   source, most(f, "oil-varnish"), f.text});
    out.push_back({"of the same four, waterborne changes color least", source, least(f, "waterborne-acrylic"), f.text});
}

void beech(const Differences& d, std::vector<Ranking>& out) {
    const auto f = over(d, {"beech"}, {"oil-varnish", "two-component-urethane", "waterborne-acrylic"});
    out.push_back({"of synthetic, parquet and waterborne varnish, waterborne changes color least and alkyd most",
                   "Atar, Yalinkilic & Keskin 2019, Politeknik 22(2), 407-413 (abstract; heat-treated woods); here "
                   "beech, parquet varnish taken as two-component urethane",
                   most(f, "oil-varnish") && least(f, "waterborne-acrylic"), f.text});
}

void urethane_under_waterborne(const Differences& d, std::vector<Ranking>& out) {
    const auto f = over(d, {"white-oak", "pine"}, {"two-component-urethane", "waterborne-acrylic"});
    out.push_back({"polyurethane changes color less than waterborne",
                   "Kilic & Sogutlu 2024, Kastamonu Univ. J. Forestry, 59-73 (abstract; oak, chestnut, Scots pine)",
                   f.mean.at("two-component-urethane") < f.mean.at("waterborne-acrylic"), f.text});
}

void lacquer_least_oils_most(const Differences& d, std::vector<Ranking>& out) {
    const auto f = over(d, {"beech", "white-oak", "hard-maple", "walnut"},
                        {"nitrocellulose-lacquer", "waterborne-acrylic", "oil-varnish", "boiled-linseed", "tung"});
    const bool oils = std::min(f.mean.at("boiled-linseed"), f.mean.at("tung")) >
                      std::max(f.mean.at("nitrocellulose-lacquer"), f.mean.at("waterborne-acrylic"));
    out.push_back({"nitrocellulose and acrylic change color least, oxidizing oils most",
                   "told as published; the paper itself was not found",
                   oils && (most(f, "tung") || most(f, "boiled-linseed")), f.text});
}

void dark_woods(const Differences& d, const scene::Library& library, std::vector<Ranking>& out) {
    auto woods = library.ids(material::Kind::wood);
    std::stable_sort(woods.begin(), woods.end(),
                     [&](const auto& a, const auto& b) { return d.lightness(a) < d.lightness(b); });
    const std::size_t third = woods.size() / 3;
    double dark = 0, pale = 0;
    for (std::size_t i = 0; i < third; ++i) {
        dark += d.wetted(woods[i]) / static_cast<double>(third);
        pale += d.wetted(woods[woods.size() - 1 - i]) / static_cast<double>(third);
    }
    out.push_back(
        {"wetted, dark woods change color most",
         "Wood colour of central European wood species, Eur. J. Wood Prod. 2016, doi 10.1007/s00107-016-1108-0 "
         "(abstract)",
         dark > pale, "darkest third " + one_decimal(dark) + ", palest third " + one_decimal(pale)});
}

}  // namespace

std::vector<Ranking> judge_rankings(const scene::Library& library) {
    const Differences d(library);
    std::vector<Ranking> out;
    four_varnishes(d, out);
    beech(d, out);
    urethane_under_waterborne(d, out);
    lacquer_least_oils_most(d, out);
    dark_woods(d, library, out);
    return out;
}

}  // namespace foretone::job
