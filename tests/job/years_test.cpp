/// Decisions beside an old piece, and about how two will look in some years.

#include <catch2/catch.hpp>

#include "foretone/job/aged.hpp"
#include "foretone/job/coats.hpp"
#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string two_finishes =
    "format = 1\n[look]\nexposure = \"window\"\n[wood]\nuse = \"cherry\"\n[[finish]]\nname = \"old piece\"\n"
    "[[finish.step]]\nuse = \"oil-varnish\"\ncoats = 2\n[[finish]]\nname = \"new piece\"\n[[finish.step]]\nuse = "
    "\"orange-shellac\"\ncut_lb = 1.5\ncoats = 2\nmethod = \"spray\"\n";

scene::Scene beside_old(const std::string& target) {
    return scene::read_scene_text(two_finishes + "[target]\nfinish = \"old piece\"\n" + target, "t.toml", ".",
                                  library());
}

job::Coats counted_years(const scene::Scene& s) {
    return job::coats(s, library(), appearance::two_flux_solver(), {"new piece", 1, 2});
}

color::Lab lab_of_age(const scene::Scene& s, std::size_t finish, double years) {
    const auto old = job::aged_finish(s, finish, {"", years * material::days_a_year});
    const auto r =
        appearance::stages(old.materials, old.wood, old.finish, s.look.geometry, appearance::two_flux_solver())
            .stages.back()
            .reading.total();
    const auto w = color::make_weights(library().illuminant("D65"), library().observer("2deg"));
    return color::to_lab(color::xyz(r, w), w.white);
}

}  // namespace

TEST_CASE("coats beside an old piece are new coats, held against the piece as old as it is") {
    const auto s = beside_old("aged = \"30 years\"\n");
    const auto c = counted_years(s), fresh = counted_years(beside_old(""));
    CHECK(c.target->name == "old piece, 30 years old");
    CHECK(color::delta_e_00(c.target->colors[0].lab, lab_of_age(s, 0, 30)) < 1e-9);
    for (std::size_t n = 0; n < c.counts.size(); ++n) {
        CHECK(c.counts[n].colors[0].lab.l == fresh.counts[n].colors[0].lab.l);
        CHECK_THAT(c.counts[n].to_target[0],
                   Near(color::delta_e_00(c.target->colors[0].lab, c.counts[n].colors[0].lab), identity));
        // Thirty years by a window take cherry further than coats differ: everyone sees it (common practice).
        CHECK(c.counts[n].chance > 0.9);
        CHECK(c.counts[n].off_target > fresh.counts[n].off_target);
    }
}

TEST_CASE("coats judged later are as old as the target is then") {
    const auto s = beside_old("judge_at = \"5 years\"\n");
    const auto c = counted_years(s);
    CHECK(c.target->name == "old piece, after 5 years");
    CHECK(color::delta_e_00(c.target->colors[0].lab, lab_of_age(s, 0, 5)) < 1e-9);
    CHECK(color::delta_e_00(c.counts[2].colors[0].lab, lab_of_age(s, 1, 5)) < 1e-9);
    CHECK(c.counts[2].to_target[0] < 0.5 * counted_years(beside_old("aged = \"5 years\"\n")).counts[2].to_target[0]);
    const auto both = counted_years(beside_old("aged = \"30 years\"\njudge_at = \"5 years\"\n"));
    CHECK(both.target->name == "old piece, 30 years old, after 5 years");
    CHECK(color::delta_e_00(both.target->colors[0].lab, lab_of_age(s, 0, 35)) < 1e-9);
}
