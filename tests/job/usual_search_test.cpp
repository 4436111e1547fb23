/// The [search] that a list of materials makes: it is what a scene takes, and allows what was chosen.

#include "foretone/job/usual_search.hpp"

#include <catch2/catch.hpp>

#include "foretone/job/match.hpp"
#include "foretone/scene/problem.hpp"
#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string aimed_scene =
    "format = 1\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = "
    "\"oil-varnish\"\n[target]\nfinish = \"x\"\n";

scene::Scene scene_allowing(const std::vector<std::string>& use) {
    scene::SceneText text(aimed_scene, "test.toml");
    text.replace("search", job::usual_search(library(), use));
    INFO(text.text());
    return scene::read_scene_text(text.text(), "test.toml", ".", library());
}

std::size_t recipes_of(const std::vector<std::string>& use) {
    return job::Search(scene_allowing(use), library(), appearance::two_flux_solver()).space().size();
}

}  // namespace

TEST_CASE("every choice of dyes, oils, resins and films makes a search that a scene takes") {
    const std::vector<std::string> all = {"honey-dye", "russet-dye", "boiled-linseed", "orange-shellac",
                                          "waterborne-acrylic"};
    for (unsigned chosen = 0; chosen < 32; ++chosen) {
        std::vector<std::string> use;
        for (std::size_t i = 0; i < all.size(); ++i)
            if (chosen >> i & 1U) use.push_back(all[i]);
        CAPTURE(chosen);
        if (chosen >> 3U == 0)
            CHECK_THROWS_AS(job::usual_search(library(), use), scene::InputError);
        else
            CHECK(scene_allowing(use).search.has_value());
    }
}

TEST_CASE("what a search allows is counted out") {
    // By hand: a film alone is one recipe; a resin alone 2 cuts of 1 to 4 coats; both together one, and 2 cuts of 1 to
    // 3 coats under it. A dye adds its ten thinnings to each; an oil may lie below each or not.
    const std::size_t film = recipes_of({"oil-varnish"});
    CHECK(film == 1);
    CHECK(recipes_of({"orange-shellac"}) == 8);
    CHECK(recipes_of({"orange-shellac", "oil-varnish"}) == 7);
    CHECK(recipes_of({"honey-dye", "oil-varnish"}) == 11);
    CHECK(recipes_of({"boiled-linseed", "oil-varnish"}) == 2);
}

TEST_CASE("stains, glazes, toners and the job's own materials are searched too") {
    // By hand: a film alone is one recipe, and a stain or a glaze may lie below it or not; a toner in one or two
    // passes.
    CHECK(recipes_of({"walnut-stain", "oil-varnish"}) == 2);
    CHECK(recipes_of({"umber-glaze", "oil-varnish"}) == 2);
    CHECK(recipes_of({"amber-toner", "oil-varnish"}) == 3);
    auto own = library().material("oil-varnish");
    own.id = "house-varnish";
    CHECK_THROWS_AS(job::usual_search(library(), {"house-varnish"}), scene::InputError);
    CHECK_NOTHROW(job::usual_search(library(), {"house-varnish"}, {{"house-varnish", own}}));
}

TEST_CASE("without a film a search is refused in words, and what is no finish is left out") {
    try {
        job::usual_search(library(), {"honey-dye", "paste-wax", "water"});
        FAIL("not refused");
    } catch (const scene::InputError& e) {
        CHECK(e.problems.front().id == "search-topcoat");
    }
    CHECK(recipes_of({"oil-varnish", "paste-wax", "water"}) == 1);
}
