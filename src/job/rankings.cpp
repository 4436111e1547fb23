#include "foretone/job/rankings.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "film_differences.hpp"
#include "foretone/base/number.hpp"

namespace foretone::job {
namespace {

std::string one_decimal(double v) { return base::fixed(v, 1); }

// Mean difference by finish over some woods, as text too.
struct Field {
    std::map<std::string, double> mean;
    std::string text;
};

Field over(const FilmDifferences& d, const std::vector<std::string>& woods, const std::vector<std::string>& finishes) {
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

// Chance that `less` changes wood less than `more` does, by the stated spreads of both, and what makes the difference.
void decide(const FilmDifferences& d, const std::vector<std::string>& woods, const std::string& less,
            const std::string& more, Ranking& to) {
    const auto parts = d.between(woods, less, more);
    to.chance = 0.5 * std::erfc(-parts.whole / (parts.sd * std::sqrt(2.0)));
    to.decides = more + " less " + less + ": " + one_decimal(parts.whole) + " ± " + one_decimal(parts.sd) +
                 "; with its figures one by one: " + parts_text(parts);
}

// The finish that changes wood least, or most, but for `use`.
std::string next_to(const Field& f, const std::string& use, bool least) {
    std::string out;
    for (const auto& [id, mean] : f.mean)
        if (id != use && (out.empty() || (least ? mean < f.mean.at(out) : mean > f.mean.at(out)))) out = id;
    return out;
}

void four_varnishes(const FilmDifferences& d, std::vector<Ranking>& out) {
    const std::string source =
        "Pelit 2017, Forestist 67, 262-274 (abstract; on heat-treated beech and Scots pine, here on untreated)";
    const std::vector<std::string> woods = {"beech", "pine"};
    const auto f =
        over(d, woods, {"nitrocellulose-lacquer", "oil-varnish", "two-component-urethane", "waterborne-acrylic"});
    out.push_back({"of cellulosic, synthetic (alkyd), polyurethane and waterborne varnish, alkyd changes color most",
                   source, most(f, "oil-varnish"), f.text});
    decide(d, woods, next_to(f, "oil-varnish", false), "oil-varnish", out.back());
    out.push_back({"of the same four, waterborne changes color least", source, least(f, "waterborne-acrylic"), f.text});
    decide(d, woods, "waterborne-acrylic", next_to(f, "waterborne-acrylic", true), out.back());
}

void beech(const FilmDifferences& d, std::vector<Ranking>& out) {
    const auto f = over(d, {"beech"}, {"oil-varnish", "two-component-urethane", "waterborne-acrylic"});
    out.push_back(
        {"of synthetic, parquet and waterborne varnish, waterborne changes color least and alkyd most",
         "Atar, Yalinkilic & Keskin 2019, Politeknik 22(2), 407-413 (abstract; five woods, the change by heat "
         "and varnish together); here beech, parquet varnish taken as two-component urethane",
         most(f, "oil-varnish") && least(f, "waterborne-acrylic"), f.text});
    decide(d, {"beech"}, "waterborne-acrylic", next_to(f, "waterborne-acrylic", true), out.back());
}

void urethane_under_waterborne(const FilmDifferences& d, std::vector<Ranking>& out) {
    const std::vector<std::string> woods = {"white-oak", "chestnut", "pine"};
    const auto f = over(d, woods, {"two-component-urethane", "waterborne-acrylic"});
    out.push_back({"polyurethane changes color less than waterborne",
                   "Kilic & Sogutlu 2024, Kastamonu Univ. J. Forestry, 59-73 (abstract; oak, chestnut, Scots pine; the "
                   "two papers above print the opposite)",
                   f.mean.at("two-component-urethane") < f.mean.at("waterborne-acrylic"), f.text});
    decide(d, woods, "two-component-urethane", "waterborne-acrylic", out.back());
}

void lacquer_least_oils_most(const FilmDifferences& d, std::vector<Ranking>& out) {
    const auto f = over(d, {"beech", "white-oak", "hard-maple", "walnut"},
                        {"nitrocellulose-lacquer", "waterborne-acrylic", "oil-varnish", "boiled-linseed", "tung"});
    const bool oils = std::min(f.mean.at("boiled-linseed"), f.mean.at("tung")) >
                      std::max(f.mean.at("nitrocellulose-lacquer"), f.mean.at("waterborne-acrylic"));
    out.push_back({"nitrocellulose and acrylic change color least, oxidizing oils most",
                   "as reported by others; the paper itself was not found",
                   oils && (most(f, "tung") || most(f, "boiled-linseed")), f.text});
    const bool lacquer = f.mean.at("nitrocellulose-lacquer") > f.mean.at("waterborne-acrylic");
    decide(d, {"beech", "white-oak", "hard-maple", "walnut"}, lacquer ? "nitrocellulose-lacquer" : "waterborne-acrylic",
           f.mean.at("tung") < f.mean.at("boiled-linseed") ? "tung" : "boiled-linseed", out.back());
}

void dark_woods(const FilmDifferences& d, const scene::Library& library, std::vector<Ranking>& out) {
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

std::vector<Ranking> check_rankings(const scene::Library& library) {
    const FilmDifferences d(
        library, {"nitrocellulose-lacquer", "oil-varnish", "two-component-urethane", "waterborne-acrylic",
                  "boiled-linseed", "tung", "water", "beech", "white-oak", "chestnut", "pine", "hard-maple", "walnut"});
    std::vector<Ranking> out;
    four_varnishes(d, out);
    beech(d, out);
    urethane_under_waterborne(d, out);
    lacquer_least_oils_most(d, out);
    dark_woods(d, library, out);
    return out;
}

}  // namespace foretone::job
