#include "foretone/search/edge.hpp"

#include <catch2/catch.hpp>

#include "search/small_space.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

bool says(const std::vector<std::string>& list, const std::string& part) {
    return std::any_of(list.begin(), list.end(), [&](const auto& s) { return s.find(part) != std::string::npos; });
}

// The first recipe for which `is` holds.
template <class Is>
std::uint64_t recipe_where(const search::Space& space, Is&& is) {
    for (std::uint64_t n = 0; n < space.size(); ++n)
        if (is(search::recipe(space, n), space.mixes[n % space.mixes.size()])) return n;
    throw std::out_of_range("no such recipe");
}

}  // namespace

TEST_CASE("a mix at either end of the dilutions is told with the way out, one between is not") {
    const auto choices = small_choices();
    const auto space = search::make_space(choices, materials_for("ash"));
    for (const int water : {4, 9, 19, 39}) {
        const auto n = recipe_where(space, [&](const auto&, const auto& mix) { return mix && mix->water == water; });
        const auto edges = search::on_the_edge(choices, space, n);
        INFO(water);
        CHECK(says(edges, "allow less water") == (water == 4));
        CHECK(says(edges, "allow more water") == (water == 39));
    }
}

TEST_CASE("undiluted dye cannot be made stronger by less water") {
    auto choices = small_choices();
    choices.dye->water = {0, 4};
    const auto space = search::make_space(choices, materials_for("ash"));
    const auto n = recipe_where(space, [](const auto&, const auto& mix) { return mix && mix->water == 0; });
    CHECK_FALSE(says(search::on_the_edge(choices, space, n), "less water"));
}

TEST_CASE("coats and cuts at their ends are told by role and material") {
    const auto choices = small_choices();
    const auto space = search::make_space(choices, materials_for("ash"));
    const auto with = [&](int coats, double cut) {
        return search::on_the_edge(choices, space, recipe_where(space, [&](const auto& f, const auto& mix) {
                                       return !mix && f.steps.size() == 2 && f.steps[0].cut_lb == cut &&
                                              f.steps[0].coats == coats;
                                   }));
    };
    const auto most = with(2, 2), fewest = with(1, 1);
    CHECK(says(most, "2 coats of sealer orange-shellac is the most allowed"));
    CHECK(says(most, "2-lb cut is the strongest allowed"));
    CHECK_FALSE(says(most, "weakest"));
    CHECK(says(fewest, "1-lb cut is the weakest allowed"));
    CHECK_FALSE(says(fewest, "sealer orange-shellac is the fewest"));  // one coat is the fewest there can be
    CHECK_FALSE(says(fewest, "sealer orange-shellac is the most"));
}

TEST_CASE("without a dye in the recipe no dye's limit is told") {
    const auto choices = small_choices();
    const auto space = search::make_space(choices, materials_for("ash"));
    const auto n = recipe_where(space, [](const auto&, const auto& mix) { return !mix; });
    CHECK_FALSE(says(search::on_the_edge(choices, space, n), "dye"));
    CHECK_THROWS_AS(search::on_the_edge(choices, space, space.ways.size() * space.mixes.size()), std::out_of_range);
}
