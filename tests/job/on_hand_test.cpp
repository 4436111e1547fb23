/// What a shop owns: correct touches up with nothing else unless asked; coats count glazes and toners as they count
/// films.

#include <algorithm>
#include <catch2/catch.hpp>

#include "foretone/job/coats.hpp"
#include "foretone/job/correct.hpp"
#include "support/demo.hpp"
#include "support/folder.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string dyed_head =
    "format = 1\n[look]\nlights = [\"D65\"]\nobserver = \"10deg\"\ngeometry = \"d/8-included\"\n[wood]\nuse = "
    "\"hard-maple\"\n[[finish]]\nname = \"dyed\"\n[[finish.step]]\n";
const std::string dyed_tail = "wet_g_per_m2 = 65\n[[finish.step]]\nuse = \"waterborne-acrylic\"\ncoats = 2\n";
const std::string honey = "mix = [ { use = \"honey-dye\", parts = 12 }, { use = \"water\", parts = 60 } ]\n",
                  reddened =
                      "mix = [ { use = \"honey-dye\", parts = 12 }, { use = \"russet-dye\", parts = 4 }, { use "
                      "= \"water\", parts = 60 } ]\n";

scene::Scene dyed_scene(const std::string& mix, const std::string& more = "") {
    return scene::read_scene_text(dyed_head + mix + dyed_tail + more, "t.toml", ".", library());
}

color::Lab color_in_the_end(const scene::Scene& s) {
    return job::preview(s, library(), appearance::two_flux_solver()).finishes[0].stages.back().colors[0].lab;
}

std::string lab_in_text(const color::Lab& c, const char* between) {
    return std::to_string(c.l) + between + std::to_string(c.a) + between + std::to_string(c.b);
}

// The colors that the proposals for a redder target touch the mix up with.
std::vector<std::string> proposed_touches(const std::string& more, bool buy) {
    const Folder f("on-hand");
    const auto s = dyed_scene(honey, "[target]\nlab = [" + lab_in_text(color_in_the_end(dyed_scene(reddened)), ", ") +
                                         "]\nlight = \"D65\"\nobserver = \"10deg\"\n" + more);
    job::CorrectQuestion q{f.write("r.txt", "light: D65\nobserver: 10deg\ngeometry: d/8-included\nboard\t" +
                                                lab_in_text(color_in_the_end(s), "\t") + "\n"),
                           "", "", ""};
    q.buy = buy;
    std::vector<std::string> out;
    const auto c = job::correct(s, library(), q);
    CHECK_FALSE(c.done);
    for (const auto& p : c.proposals)
        if (p.change.kind == search::Change::Kind::touch) out.push_back(p.change.material);
    return out;
}

job::Coats middle_coats(const std::string& middle, int upto) {
    return job::coats(scene::read_scene_text(
                          "format = 1\n[wood]\nuse = \"white-oak\"\n[[finish]]\nname = \"f\"\n[[finish.step]]\nuse "
                          "= \"vinyl-sealer\"\nmethod = \"spray\"\n[[finish.step]]\n" +
                              middle + "[[finish.step]]\nuse = \"nitrocellulose-lacquer\"\nmethod = \"spray\"\n",
                          "t.toml", ".", library()),
                      library(), appearance::two_flux_solver(), {"f", 2, upto});
}

}  // namespace

TEST_CASE("correct touches up with what the job has, with what is on hand, and with a new powder only when asked") {
    CHECK(proposed_touches("", false).empty());  // more of the one dye there is makes nothing redder
    const std::string search = "[search.topcoat]\nuse = [\"waterborne-acrylic\"]\n";
    for (const auto& id : proposed_touches(
             "[search]\non_hand = [\"umber-dye\", \"honey-dye\", \"waterborne-acrylic\"]\n" + search, false))
        CHECK((id == "umber-dye" || id == "honey-dye"));
    const auto owned = proposed_touches(
        "[search]\non_hand = [\"russet-dye\", \"honey-dye\", \"waterborne-acrylic\"]\n" + search, false);
    REQUIRE_FALSE(owned.empty());
    CHECK(owned.front() == "russet-dye");
    bool bought = false;
    for (const auto& id : proposed_touches("", true)) bought = bought || id != "honey-dye";
    CHECK(bought);
}

TEST_CASE("each coat of a glaze or a toner takes the board further, and the next adds less") {
    for (const std::string middle :
         {"use = \"umber-glaze\"\nremainder = 0.05\n", "use = \"brown-toner\"\n", "use = \"black-toner\"\n"}) {
        INFO(middle);
        const auto c = middle_coats(middle, 3);
        REQUIRE(c.counts.size() == 4);
        for (std::size_t n = 1; n < 4; ++n) {
            INFO(n << " coats: L* " << c.counts[n].colors[0].lab.l);
            CHECK(c.counts[n].colors[0].lab.l < c.counts[n - 1].colors[0].lab.l);
            CHECK(c.counts[n].film_um > c.counts[n - 1].film_um);
            if (n > 1) CHECK(c.counts[n].added[0] < c.counts[n - 1].added[0]);
        }
    }
}

TEST_CASE("a board that was read new is held against an old piece as it is today, and that is told") {
    const Folder f("judged-today");
    const std::string old =
        "[[finish]]\nname = \"old\"\n[[finish.step]]\nuse = \"oil-varnish\"\n[target]\nfinish = "
        "\"old\"\naged = \"10 years\"\n";
    const auto corrected = [&](const std::string& more) {
        const auto s = dyed_scene(honey, old + more);
        return job::correct(s, library(),
                            {f.write("r.txt", "light: D65\nobserver: 10deg\ngeometry: d/8-included\nboard\t" +
                                                  lab_in_text(color_in_the_end(s), "\t") + "\n"),
                             "dyed", "", ""});
    };
    const auto today = corrected(""), later = corrected("judge_at = \"5 years\"\n");
    CHECK(today.target == "old, 10 years old");
    CHECK(later.target == today.target);
    CHECK(later.lights[0].to_target == today.lights[0].to_target);
    const auto told = [](const job::Correction& c) {
        return std::count_if(c.warnings.begin(), c.warnings.end(),
                             [](const auto& w) { return w.id == "judged-today"; });
    };
    CHECK(told(today) == 0);
    CHECK(told(later) == 1);
}
