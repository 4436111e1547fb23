/// Fields of cans and data sheets as they are printed.
#include <catch2/catch.hpp>

#include "foretone/scene/scene.hpp"
#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string can =
    "format = 1\n[wood]\nuse = \"ash\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"can\"\n"
    "[material.can]\nkind = \"film\"\nlike = \"oil-varnish\"\n";

scene::Scene scene_with_can(const std::string& fields) {
    return scene::read_scene_text(can + fields, "s.toml", ".", library());
}

std::string can_refused(const std::string& fields) {
    try {
        scene_with_can(fields);
    } catch (const scene::InputError& e) {
        return e.what();
    }
    return "";
}

const material::Binder& binder_of_can(const scene::Scene& s) {
    return std::get<material::Binder>(s.materials.at("can").data);
}

}  // namespace

// 7.6 lb/gal x 0.1198264 = 0.91068 g/mL (NIST SP 811); 530 ft2/gal at 1 mil / 1604.17 = 33.04 % (231 cubic inches a
// gallon).
TEST_CASE("weight of a gallon, specific gravity and coverage at a mil are read as density and volume solids") {
    const auto s = scene_with_can("lb_per_gal = 7.6\ncoverage_ft2_per_gal_1_mil_dry = 530\n");
    CHECK_THAT(binder_of_can(s).density_g_per_ml->value, Near(0.91068, 1e-5));
    CHECK_THAT(binder_of_can(s).solids_volume_percent->value, Near(33.04, 0.01));
    int told = 0;
    for (const auto& w : s.warnings) told += w.id == "sheet-converted" && w.place.line > 10;
    CHECK(told == 2);
    CHECK_THAT(binder_of_can(scene_with_can("specific_gravity = 0.92\n")).density_g_per_ml->value, Near(0.91834, 1e-5));
}

TEST_CASE("what is known and cannot be used is kept and said, never unknown") {
    const auto s = scene_with_can(
        "dry_to_touch_hours = 4\napha = 60\nviscosity_cup_seconds = 22\nshelf_life_months = 24\n"
        "solids_weight_percent = 48\n");
    int told = 0;
    for (const auto& w : s.warnings)
        if (w.id == "sheet-unused") {
            ++told;
            CHECK(w.text.find("kept in the file") != std::string::npos);
            CHECK(w.place.line > 10);
        }
    CHECK(told == 5);
    CHECK(can_refused("voc = 450\n").find("key-unknown") != std::string::npos);
}

TEST_CASE("a field said twice or out of range is refused where it stands, once") {
    CHECK(can_refused("lb_per_gal = 7.6\ndensity_g_per_ml = 0.9\n")
              .find("s.toml:11:1: lb_per_gal says density_g_per_ml") == 0);
    CHECK(can_refused("lb_per_gal = 76\n").find("s.toml:11:14: lb_per_gal = 76 is outside 5 to 16 lb/gal") == 0);
    CHECK(can_refused("specific_gravity = \"0.9\"\n").find("a plain number is due") != std::string::npos);
}
