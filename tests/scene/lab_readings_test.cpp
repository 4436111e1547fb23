/// Readings that hold a color and no curve, as wood and as target; and woods nobody has named.
#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>

#include "foretone/color/lab.hpp"
#include "foretone/scene/scene.hpp"
#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::filesystem::path instrument_files = std::filesystem::path(FORETONE_TEST_DATA) / "instruments";
const std::string tung_finish = "[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"tung\"\n";

scene::Scene with_instruments(const std::string& wood, const std::string& more = "") {
    return scene::read_scene_text("format = 1\n[wood]\n" + wood + tung_finish + more, "s.toml", instrument_files,
                                  library());
}

std::string told_of(const scene::Scene& s, const std::string& id) {
    for (const auto& w : s.warnings)
        if (w.id == id) return w.text;
    return "";
}

std::string fault_id_of(const std::string& wood, const std::string& more = "") {
    try {
        with_instruments(wood, more);
    } catch (const scene::InputError& e) {
        return e.problems.at(0).id;
    }
    return "";
}

color::Lab lab_of(const material::Wood& wood, const char* light, const char* observer) {
    const auto w = color::make_weights(library().illuminant(light), library().observer(observer));
    return color::to_lab(color::xyz(wood.reflectance.values, w), w.white);
}

}  // namespace

TEST_CASE("a Lab-only reading is a wood of that color, and what the color leaves open is carried as spread") {
    const auto s = with_instruments("reflectance = \"cxf-lab.cxf\"\nlike = \"hard-maple\"\n");
    const auto& wood = std::get<material::Wood>(s.materials.at("board").data);
    const auto lab = lab_of(wood, "D50", "2deg");
    CHECK(color::delta_e_ab(lab, {81.5, 3.2, 18.4}) < 1e-3);  // the file's own value
    CHECK(wood.geometry == optics::Geometry::g45_0);
    CHECK(wood.reflectance.sd > 0.05);  // a read curve's, one board along itself
    CHECK(wood.reflectance.sd < 0.2);
    CHECK(told_of(s, "reflectance-from-lab").find("carried as spread") != std::string::npos);
    CHECK(wood.reflectance.from.mark == material::Mark::stated);
    const auto curve = with_instruments("reflectance = \"cxf-both.cxf\"\nlike = \"hard-maple\"\n");
    CHECK(std::get<material::Wood>(curve.materials.at("board").data).reflectance.sd == 0.05);
}

TEST_CASE("a reading that does not say its wood is generic: nearest in color, twice as unsure, and told so") {
    const auto s = with_instruments("reflectance = \"cxf-lab.cxf\"\n");
    const auto text = told_of(s, "wood-like-assumed");
    REQUIRE(text.find("generic: the figures of ") != std::string::npos);
    const auto from = text.find("figures of ") + 11;
    const auto id = text.substr(from, text.find(',', from) - from);
    const auto like = std::get<material::Wood>(library().material(id).data);
    const auto& wood = std::get<material::Wood>(s.materials.at("board").data);
    CHECK(wood.porosity.value == like.porosity.value);
    CHECK_THAT(wood.porosity.sd, Near(2 * like.porosity.sd, closed_form));
    CHECK_THAT(wood.absorbency.sd, Near(2 * like.absorbency.sd, closed_form));
    // No other wood of the library is nearer.
    const double de = color::delta_e_ab(lab_of(like, "D50", "2deg"), {81.5, 3.2, 18.4});
    for (const auto& other : library().ids(material::Kind::wood))
        CHECK(color::delta_e_ab(lab_of(std::get<material::Wood>(library().material(other).data), "D50", "2deg"),
                                {81.5, 3.2, 18.4}) >= de - 1e-9);
    CHECK(told_of(with_instruments("reflectance = \"cxf-lab.cxf\"\nlike = \"generic\"\n"), "wood-like-assumed")
              .find("does not say") == std::string::npos);
    CHECK(told_of(with_instruments("reflectance = \"cxf-lab.cxf\"\nlike = \"ash\"\n"), "wood-like-assumed").empty());
}

TEST_CASE("a Lab-only reading is a target under its own light") {
    const auto s = with_instruments("use = \"ash\"\n",
                                    "[target]\nreflectance = \"source-observerangle.txt\"\nsample = \"one coat\"\n");
    REQUIRE(s.target);
    REQUIRE(s.target->lab);
    CHECK(*s.target->lab == color::Lab{77, 4.4, 24.9});
    CHECK(s.target->light == "D65");
    CHECK(s.target->observer == "10deg");
    CHECK_FALSE(s.target->reflectance);
}

TEST_CASE("a difference to a standard is a target once the standard is said, and no wood") {
    const std::string file = "[target]\nreflectance = \"difference-to-standard.csv\"\n";
    const auto s = with_instruments("use = \"ash\"\n", file + "standard = [60, 10, 30]\n");
    REQUIRE(s.target->lab);
    CHECK_THAT(s.target->lab->l, Near(60 - 2.1, closed_form));
    CHECK_THAT(s.target->lab->a, Near(10 + 0.8, closed_form));
    CHECK_THAT(s.target->lab->b, Near(30 + 1.5, closed_form));
    CHECK(fault_id_of("use = \"ash\"\n", file) == "standard-missing");
    CHECK(fault_id_of("use = \"ash\"\n", file + "standard = [1, 10, 30]\n") == "value-range");
    CHECK(fault_id_of("use = \"ash\"\n", "[target]\nfinish = \"x\"\nstandard = [60, 10, 30]\n") == "key-conflict");
    CHECK(fault_id_of("reflectance = \"difference-to-standard.csv\"\ngeometry = \"45/0\"\n") ==
          "reading-without-color");
}

TEST_CASE("cherry that is fresh says that it will darken, and maple does not") {
    CHECK(told_of(with_instruments("use = \"cherry\"\n"), "wood-fresh").find("darkens") != std::string::npos);
    CHECK(told_of(with_instruments("use = \"hard-maple\"\n"), "wood-fresh").empty());
}

TEST_CASE("the units of a scene are those that it says, else those it is written in") {
    const auto units = [](const std::string& more) {
        return scene::read_scene_text("format = 1\n" + more, "s.toml", ".", library());
    };
    const std::string wood =
        "[wood]\nuse = \"ash\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\n";
    CHECK_FALSE(units(wood).written_in);
    CHECK(units(wood + "wet_mil = 3\n").written_in == schedule::UnitSystem::us);
    CHECK(units(wood + "wet_um = 80\n").written_in == schedule::UnitSystem::metric);
    CHECK(units(wood + "coverage_ft2_per_gal = 400\n").written_in == schedule::UnitSystem::us);
    CHECK(units("[look]\nunits = \"us\"\n" + wood).look.units == schedule::UnitSystem::us);
    CHECK_THROWS_AS(units("[look]\nunits = \"imperial\"\n" + wood), scene::InputError);
}
