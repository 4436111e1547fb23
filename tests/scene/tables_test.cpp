/// The tables of a scene besides its steps: look, wood, finishes, target, prices.

#include <cmath>

#include "scene/faults.hpp"
#include "support/folder.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string varnished = "[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\n";
std::string maple(const std::string& more = "") {
    return "format = 1\n[wood]\nuse = \"hard-maple\"\n" + varnished + more;
}
std::string on_wood(const std::string& lines, const std::string& more = "") {
    return "format = 1\n[wood]\n" + lines + varnished + more;
}
const std::string lab_wood = "lab = [70, 8, 22]\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n";

bool tables_warn_of(const scene::Scene& s, const std::string& id) {
    return std::any_of(s.warnings.begin(), s.warnings.end(), [&](const auto& w) { return w.id == id; });
}

}  // namespace

TEST_CASE("a scene says its format, and is named by its title or else by its file") {
    CHECK(scene_from(maple()).title == "test");
    CHECK(scene_from("title = \"Hall bench\"\n" + maple()).title == "Hall bench");
    CHECK(scene_from(maple()).file == "test.toml");
    refuses(maple().substr(11), "key-missing", "[wood]", "format = 1 is missing");
    refuses("format = 2\n" + maple().substr(11), "value-range", "2\n[wood]", "must be 1");
    refuses("format = \"1\"\n" + maple().substr(11), "value-unit", "\"1\"", "a plain number is due");
    refuses("title = 5\n" + maple(), "value-type", "5\n", "title is a number");
}

TEST_CASE("without a look a scene is seen under daylight, by the 2 degree observer, at 45/0") {
    const auto look = scene_from(maple()).look;
    CHECK(look.lights == std::vector<std::string>{"D65"});
    CHECK(look.observer == "2deg");
    CHECK(look.geometry == optics::Geometry::g45_0);
}

TEST_CASE("a look's lights keep their order, each once") {
    const auto look = scene_from(maple("[look]\nlights = [\"A\", \"D65\", \"A\", \"LED-2700\"]\nobserver = \"10deg\"\n"
                                       "geometry = \"d/8-excluded\"\n"))
                          .look;
    CHECK(look.lights == std::vector<std::string>{"A", "D65", "LED-2700"});
    CHECK(look.observer == "10deg");
    CHECK(look.geometry == optics::Geometry::d8_excluded);
    CHECK(scene_from(maple("[look]\ngeometry = \"d/8-included\"\n")).look.geometry == optics::Geometry::d8_included);
}

TEST_CASE("a look that cannot be is told with what can") {
    refuses(maple("[look]\nlights = []\n"), "value-empty", "lights", "name at least one");
    refuses(maple("[look]\nlights = [\"D65\", \"Z\"]\n"), "light-unknown", "\"Z\"", "there is no light 'Z'");
    refuses(maple("[look]\nlights = [\"2deg\"]\n"), "light-unknown", "\"2deg\"", "no light '2deg'");
    refuses(maple("[look]\nlights = \"D65\"\n"), "value-type", "\"D65\"", "a list of texts is due");
    refuses(maple("[look]\nlights = [5]\n"), "value-type", "5]", "a text is due");
    refuses(maple("look = 5\n").insert(0, ""), "key-unknown", "look = 5", "look");
    refuses("look = 5\n" + maple(), "value-type", "5\n", "look is a number; a table is due");
    refuses("look = 2026-03-02\n" + maple(), "value-type", "2026", "look is a date");
    refuses("look = true\n" + maple(), "value-type", "true", "look is true or false");
    refuses(maple("[look]\nobserver = \"2 deg\"\n"), "value-choice", "\"2 deg\"", "10deg or 2deg");
}

TEST_CASE("a wood is said in exactly one way") {
    const std::string ways[] = {"use = \"ash\"\n", "reflectance = \"b.csv\"\n", "lab = [70, 8, 22]\n"};
    for (const auto& one : ways)
        for (const auto& other : ways)
            if (&one < &other) refuses(on_wood(one + other), "key-conflict", "[wood]", "exactly one way");
    refuses(on_wood("like = \"ash\"\n"), "key-missing", "[wood]", "exactly one way");
    refuses("format = 1\n" + varnished, "key-missing", "format", "[wood] is missing");
    refuses("wood = 5\nformat = 1\n" + varnished, "value-type", "5\n", "a table is due");
    refuses(on_wood("use = \"ash\"\ngeometry = \"45/0\"\n"), "key-unknown", "geometry", "in [wood]");
    refuses(on_wood("use = \"D65\"\n"), "material-unknown", "\"D65\"", "no material 'D65'");
}

TEST_CASE("a wood by its color has that color, its own name, and the other figures of the wood it is like") {
    const auto s = scene_from(on_wood(lab_wood + "like = \"ash\"\nname = \"Grandfather's board\"\n"));
    CHECK(s.wood == "board");
    const auto& m = s.materials.at("board");
    CHECK(m.name == "Grandfather's board");
    const auto& wood = std::get<material::Wood>(m.data);
    const auto ash = std::get<material::Wood>(library().material("ash").data);
    CHECK(wood.scattering_per_mm.value == ash.scattering_per_mm.value);
    CHECK(wood.porosity.value == ash.porosity.value);
    CHECK(wood.geometry == optics::Geometry::g45_0);
    CHECK(wood.reflectance.from.mark == material::Mark::stated);
    const auto weights = color::make_weights(library().illuminant("D65"), library().observer("2deg"));
    const auto lab = color::to_lab(color::xyz(wood.reflectance.values, weights), weights.white);
    CHECK_THAT(color::delta_e_ab(lab, {70, 8, 22}), Near(0, quadrature));
    CHECK(tables_warn_of(s, "reflectance-from-lab"));
    CHECK_FALSE(tables_warn_of(s, "wood-like-assumed"));
    const auto assumed = scene_from(on_wood(lab_wood));
    CHECK(tables_warn_of(assumed, "wood-like-assumed"));
    CHECK(assumed.materials.at("board").name == "the board");
}

TEST_CASE("a wood by its color says the light, the observer and the geometry, of the choices there are") {
    refuses(on_wood("lab = [70, 8]\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"), "value-range", "[70",
            "[L, a, b]");
    refuses(on_wood("lab = [-1, 8, 2]\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"), "value-range",
            "[-1", "L from 0 to 100");
    refuses(on_wood("lab = [50, 8, -151]\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"), "value-range",
            "[50", "within 150");
    refuses(on_wood("lab = \"70 8 22\"\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"), "value-type",
            "\"70", "a list of numbers is due");
    refuses(on_wood("lab = [70, \"8\", 2]\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"), "value-unit",
            "\"8\"", "a plain number is due");
    refuses(on_wood("lab = [70, 8, 22]\nlight = \"D66\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"), "light-unknown",
            "\"D66\"", "D65");
    refuses(on_wood("lab = [70, 8, 22]\nlight = \"D65\"\nobserver = \"3deg\"\ngeometry = \"45/0\"\n"), "value-choice",
            "\"3deg\"", "10deg or 2deg");
    refuses(on_wood("lab = [70, 8, 22]\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"8/d\"\n"), "value-choice",
            "\"8/d\"", "45/0, d/8-included or d/8-excluded");
    refuses(on_wood(lab_wood + "like = \"water\"\n"), "material-kind", "\"water\"", "is a liquid, not a wood");
    refuses(on_wood(lab_wood + "like = \"oke\"\n"), "material-unknown", "\"oke\"", "no material 'oke'");
    refuses(on_wood(lab_wood + "sample = \"bare\"\n"), "key-conflict", "sample", "goes with reflectance");
}

TEST_CASE("a wood from a file is resampled and held at its ends, and both are told") {
    const Folder f("scene-wood-file");
    std::string rows = "wavelength_nm,reflectance\n";
    for (int nm = 400; nm <= 700; nm += 10) rows += std::to_string(nm) + "," + base::shortest(0.2 + nm / 2000.0) + "\n";
    f.write("b.csv", rows);
    const auto s =
        scene_from(on_wood("reflectance = \"b.csv\"\ngeometry = \"d/8-excluded\"\nlike = \"ash\"\n"), f / "");
    const auto& wood = std::get<material::Wood>(s.materials.at("board").data);
    CHECK(wood.geometry == optics::Geometry::d8_excluded);
    CHECK(wood.reflectance.from.mark == material::Mark::measured);
    CHECK(wood.reflectance.resampled);
    CHECK(wood.reflectance.held_below);
    CHECK(wood.reflectance.held_above);
    CHECK_THAT(wood.reflectance.values[0], Near(0.4, closed_form));     // held from 400 nm
    CHECK_THAT(wood.reflectance.values[80], Near(0.55, closed_form));   // held from 700 nm
    CHECK_THAT(wood.reflectance.values[34], Near(0.475, closed_form));  // 550 nm
    CHECK(tables_warn_of(s, "spectrum-resampled"));
    CHECK(tables_warn_of(s, "spectrum-extended"));
    const auto text = on_wood("reflectance = \"b.csv\"\nlike = \"ash\"\n");
    const auto at = place_in(text, "[wood]");
    holds_fault(scene_faults(text, f / ""), "key-missing", at.line, at.column, "a reading needs its geometry");
}

TEST_CASE("finishes are tables with a name of their own and at least one step") {
    const std::string wood = "format = 1\n[wood]\nuse = \"ash\"\n";
    refuses("finish = 5\n" + wood, "finish-empty", "5\n", "there is no finish");
    refuses("finish = []\n" + wood, "finish-empty", "[]", "add [[finish]]");
    refuses("finish = [ 5 ]\n" + wood, "value-type", "5 ]", "a finish is a table");
    refuses(wood + "[[finish]]\n[[finish.step]]\nuse = \"tung\"\n", "key-missing", "[[finish]]", "needs a name");
    refuses(wood + "[[finish]]\nname = \"x\"\nstep = []\n", "finish-empty", "[[finish]]", "\"x\" has no step");
    refuses(wood + "[[finish]]\nname = \"x\"\nstep = [ 5 ]\n", "value-type", "5 ]", "a step is a table");
    refuses(wood + "[[finish]]\nname = \"x\"\nwet_place = \"yes\"\n[[finish.step]]\nuse = \"tung\"\n", "value-type",
            "\"yes\"", "wet_place is true or false");
    refuses(maple(varnished), "finish-twice", "name", "two finishes named \"x\"");
    CHECK(scene_from(wood + "[[finish]]\nname = \"x\"\nwet_place = true\n[[finish.step]]\nuse = \"tung\"\n")
              .finishes[0]
              .wet_place);
    CHECK_FALSE(scene_from(maple()).finishes[0].wet_place);
}

TEST_CASE("finishes and steps keep the order of the file, and the materials hold all that they need") {
    const auto s = scene_from(
        maple("[[finish]]\nname = \"a\"\n[[finish.step]]\nmix = [ { use = \"honey-dye\", parts = 1 }, { use = "
              "\"water\", rest = true } ]\n[[finish.step]]\nuse = \"orange-shellac\"\n"));
    REQUIRE(s.finishes.size() == 2);
    CHECK(s.finishes[0].name == "x");
    CHECK(s.finishes[1].name == "a");
    CHECK(s.finishes[1].steps[0].mix[0].use == "honey-dye");
    CHECK(s.finishes[1].steps[1].mix[0].use == "orange-shellac");
    const auto stock = std::get<material::Stock>(s.materials.at("honey-dye").data);
    for (const auto& load : stock.mix) CHECK(s.materials.count(load.use) == 1);
    for (const char* id : {"hard-maple", "oil-varnish", "mineral-spirits", "water", "alcohol", "orange-shellac"})
        CHECK(s.materials.count(id) == 1);
    CHECK(s.materials.count("tung") == 0);
}

TEST_CASE("a target is said in exactly one way, with what belongs to it and nothing else") {
    const auto with = [](const std::string& lines) { return maple("[target]\n" + lines); };
    const std::string ways[] = {"finish = \"x\"\n", "lab = [50, 5, 20]\n", "srgb = \"#b5651d\"\n",
                                "reflectance = \"t.csv\"\n"};
    for (const auto& one : ways)
        for (const auto& other : ways)
            if (&one < &other) refuses(with(one + other), "key-conflict", "[target]", "exactly one way");
    refuses(with("finish = \"x\"\nlight = \"A\"\n"), "key-conflict", "light", "light goes with lab");
    refuses(with("srgb = \"#b5651d\"\nobserver = \"2deg\"\n"), "key-conflict", "observer", "observer goes with lab");
    refuses(with("finish = \"x\"\nsample = \"s\"\n"), "key-conflict", "sample", "goes with reflectance");
    refuses(with("lab = [50, 5, 20]\nlight = \"D65\"\n"), "key-missing", "[target]", "needs its observer");
    refuses(with("lab = [50, 5, 20]\nobserver = \"2deg\"\n"), "key-missing", "[target]", "needs its light");
    refuses(with("finish = \"y\"\n"), "finish-unknown", "finish = \"y\"", "Valid: x.");
    refuses(with("lab = [101, 5, 20]\nlight = \"D65\"\nobserver = \"2deg\"\n"), "value-range", "[101", "0 to 100");
}

TEST_CASE("a target's color keeps its light and observer") {
    const auto s = scene_from(maple("[target]\nlab = [50, 5, 20]\nlight = \"A\"\nobserver = \"10deg\"\n"));
    REQUIRE((s.target && s.target->lab));
    CHECK(s.target->lab->l == 50);
    CHECK(s.target->lab->a == 5);
    CHECK(s.target->lab->b == 20);
    CHECK(s.target->light == "A");
    CHECK(s.target->observer == "10deg");
    CHECK(s.target->place.line == 8);
    CHECK_FALSE(scene_from(maple()).target);
}

TEST_CASE("a color off a screen is six hex digits, read as sRGB under daylight") {
    const auto lab_of = [](const std::string& hex) {
        const auto s = scene_from(maple("[target]\nsrgb = \"" + hex + "\"\n"));
        CHECK(s.target->light == "D65");
        CHECK(s.target->observer == "2deg");
        CHECK(s.target->srgb == hex);
        return *s.target->lab;
    };
    CHECK_THAT(lab_of("#ffffff").l, Near(100, table_digits));
    CHECK_THAT(lab_of("#000000").l, Near(0, table_digits));
    // IEC 61966-2-1: 119/255 is linear ((119/255 + 0.055)/1.055)^2.4; L* = 116 Y^(1/3) - 16.
    const double y = std::pow((119 / 255.0 + 0.055) / 1.055, 2.4);
    const auto grey = lab_of("#777777");
    CHECK_THAT(grey.l, Near(116 * std::cbrt(y) - 16, table_digits));
    CHECK_THAT(std::hypot(grey.a, grey.b), Near(0, 0.02));
    CHECK(lab_of("#AB12cd").l == lab_of("#ab12CD").l);
    CHECK(lab_of("#ff0000").a > 50);
    CHECK(lab_of("#0000ff").b < -50);
    for (const std::string bad : {"ff0000", "#ff000", "#ff00000", "#ff00g0", "#", "", "#-10000", "red"})
        refuses(maple("[target]\nsrgb = \"" + bad + "\"\n"), "value-srgb", "\"" + bad + "\"", "six hex digits");
}

TEST_CASE("prices are packs of so much for so much, by material") {
    const auto s =
        scene_from(maple("[prices]\ncurrency = \"EUR\"\noil-varnish = { ml = 946, price = 32.5 }\n"
                         "acid-black-1 = { g = 500, price = 0 }\n"));
    CHECK(s.prices.currency == "EUR");
    REQUIRE(s.prices.packs.size() == 2);
    CHECK(s.prices.packs.at("oil-varnish").ml == 946);
    CHECK(s.prices.packs.at("oil-varnish").g == 0);
    CHECK(s.prices.packs.at("oil-varnish").price == 32.5);
    CHECK(s.prices.packs.at("acid-black-1").g == 500);
    CHECK(scene_from(maple()).prices.packs.empty());
}

TEST_CASE("prices that name no size, two sizes, no price or a price below nothing are refused at their pack") {
    const auto with = [](const std::string& line) { return maple("[prices]\n" + line + "\n"); };
    refuses(with("tung = 5"), "value-type", "5\n", "must be a pack");
    refuses(with("tung = { ml = 5 }"), "key-missing", "{ ml", "has no price");
    refuses(with("tung = { price = 5 }"), "key-conflict", "{ price", "in ml or in g, one of them");
    refuses(with("tung = { ml = 5, g = 5, price = 1 }"), "key-conflict", "{ ml", "one of them");
    refuses(with("tung = { ml = 5, price = -1 }"), "value-range", "-1", "outside 0");
    refuses(with("tung = { ml = 0, price = 1 }"), "value-range", "0, price", "mL");
    refuses(with("tung = { ml = 5, price = 1, shop = \"x\" }"), "key-unknown", "shop", "the pack of tung");
    refuses(with("currency = 5"), "value-type", "5\n", "currency is a number");
}
