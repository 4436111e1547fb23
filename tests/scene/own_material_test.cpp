/// A scene's own materials: what is stated, what is taken from a like one, and that it is told.

#include "foretone/material/figures.hpp"
#include "scene/faults.hpp"
#include "support/folder.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::string with_own(const std::string& lines) {
    return "format = 1\n[wood]\nuse = \"ash\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"tung\"\n"
           "[material.mine]\n" +
           lines;
}
material::Material own(const std::string& lines, const std::filesystem::path& folder = ".") {
    return scene_from(with_own(lines), folder).materials.at("mine");
}
material::Binder own_film(const std::string& lines) {
    return std::get<material::Binder>(own("kind = \"film\"\n" + lines).data);
}
std::string filled(const std::string& lines) {
    for (const auto& w : scene_from(with_own(lines)).warnings)
        if (w.id == "material-filled") return w.text;
    return "";
}

}  // namespace

TEST_CASE("a bare number is stated in the scene, without a spread; one with its provenance keeps it") {
    const auto b = own_film("n = 1.47\nstay = { value = 0.5, sd = 0.2, mark = \"measured\", source = \"a gauge\" }\n");
    CHECK(b.n.value == 1.47);
    CHECK(b.n.sd == 0);
    CHECK(b.n.from.mark == material::Mark::stated);
    CHECK(b.n.from.source == "stated in the scene");
    CHECK(b.stay.value == 0.5);
    CHECK(b.stay.sd == 0.2);
    CHECK(b.stay.from.mark == material::Mark::measured);
    CHECK(b.stay.from.source == "a gauge");
    const auto half = own_film("stay = { value = 0.5 }\n").stay;
    CHECK(half.sd == 0);
    CHECK(half.from.source == "stated in the scene");
}

TEST_CASE("what a material of one's own does not state is that of the one it is like, or the usual of its kind") {
    const auto like = std::get<material::Binder>(library().material("waterborne-acrylic").data);
    const auto usual = std::get<material::Binder>(library().material("oil-varnish").data);
    const auto named = own_film("like = \"waterborne-acrylic\"\nn = 1.4\n"), unnamed = own_film("n = 1.4\n");
    CHECK(named.haze_per_mm.value == like.haze_per_mm.value);
    CHECK(named.haze_per_mm.from.source == like.haze_per_mm.from.source);
    CHECK(named.carrier == like.carrier);
    CHECK(unnamed.depth_um.value == usual.depth_um.value);
    CHECK(unnamed.wet_um[1]->value == usual.wet_um[1]->value);
    CHECK(named.n.value == 1.4);
    const std::pair<const char*, const char*> kinds[] = {
        {"wood", "hard-maple"}, {"oil", "boiled-linseed"}, {"wax", "paste-wax"}, {"liquid", "water"}};
    for (const auto& [kind, due] : kinds) {
        INFO(kind);
        auto m = own("kind = \"" + std::string(kind) + "\"\n"), from = library().material(due);
        const auto a = material::figures(m), b = material::figures(from);
        REQUIRE(a.size() == b.size());
        for (std::size_t i = 0; i < a.size(); ++i)
            if (a[i].figure) CHECK(a[i].figure->value == b[i].figure->value);
        CHECK(m.id == "mine");
    }
}

TEST_CASE("what was taken from another is told by name, figure by figure, and only what a color depends on") {
    const auto said = filled("kind = \"film\"\nlike = \"oil-varnish\"\nn = 1.5\n");
    CHECK(said.find("mine: taken from oil-varnish: ") != std::string::npos);
    CHECK(said.find("haze_per_mm") != std::string::npos);
    CHECK(said.find("stay") != std::string::npos);
    CHECK(said.find("coverage_m2_per_l") == std::string::npos);
    CHECK(said.find(" n,") == std::string::npos);
    const auto liquid = "kind = \"liquid\"\nn = 1.36\ndensity_g_per_ml = 0.79\ndepth_um = 50\nfill = 0.5\n";
    CHECK(filled(liquid).empty());
}

TEST_CASE("a color given one way takes the place of one known the other way, and so does a build") {
    const auto varnish = own_film("gardner = 5\n");
    CHECK(varnish.gardner->value == 5);
    CHECK_FALSE(varnish.absorption_per_mm);
    // A data sheet's number is of the liquid as supplied.
    CHECK(varnish.gardner_solids_volume_percent->value == varnish.solids_volume_percent->value);
    const auto clear = own_film(
        "absorption_per_mm = { start_nm = 380, step_nm = 20, values = [1, 1, 1, 1, 1, 1, 1, 1, 1, "
        "1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1] }\n");
    CHECK_FALSE(clear.gardner);
    CHECK_FALSE(clear.gardner_solids_volume_percent);
    CHECK(clear.absorption_per_mm->values[7] == 1);
    const auto ready = own_film("like = \"orange-shellac\"\nsolids_volume_percent = 20\ndensity_g_per_ml = 0.85\n");
    CHECK(ready.solids_volume_percent->value == 20);
    CHECK_FALSE(ready.resin_density_g_per_ml);
    CHECK_FALSE(ready.cut_lb);
    const auto flakes = own_film("resin_density_g_per_ml = 1.1\ncut_lb = 2\n");
    CHECK_FALSE(flakes.solids_volume_percent);
    CHECK_FALSE(flakes.density_g_per_ml);
    CHECK(flakes.cut_lb->value == 2);
}

TEST_CASE("one method's wet film is stated, the others stay those of the like material") {
    const auto usual = std::get<material::Binder>(library().material("oil-varnish").data);
    const auto b = own_film("wet_um = { brush = 55 }\n");
    CHECK(b.wet_um[1]->value == 55);
    CHECK(b.wet_um[0]->value == usual.wet_um[0]->value);
    CHECK(b.wet_um[2]->value == usual.wet_um[2]->value);
    refuses(with_own("kind = \"film\"\nwet_um = { brush = 501 }\n"), "value-range", "501", "1 to 500 um");
}

TEST_CASE("a wood of one's own may say part of its grain; the rest is that of the wood it is like") {
    const auto m = own("kind = \"wood\"\nlike = \"ash\"\n[material.mine.grain]\nring_mm = 4.5\npores = \"none\"\n");
    const auto& grain = std::get<material::Wood>(m.data).grain.value();
    const auto ash = std::get<material::Wood>(library().material("ash").data).grain.value();
    CHECK(grain.ring_mm.value == 4.5);
    CHECK(grain.pores == material::Pores::none);
    CHECK(grain.pores_from.source == "stated in the scene");
    CHECK(grain.ray_um.value == ash.ray_um.value);
    const std::string wood = "kind = \"wood\"\nlike = \"ash\"\n[material.mine.grain]\n";
    refuses(with_own(wood + "ring_mm = 50\n"), "value-range", "50\n", "0.2 to 20 mm");
    refuses(with_own(wood + "pores = \"ring\"\n"), "value-choice", "\"ring\"", "ring-porous");
    refuses(with_own(wood + "pores = 5\n"), "value-type", "5\n", "pores must say where it comes from");
    refuses(with_own(wood + "pores = { mark = \"memory\" }\n"), "key-missing", "{ mark", "pores has no value");
    refuses(with_own(wood + "ring_um = 5\n"), "unit-unknown", "ring_um", "ring_mm");
    refuses(with_own("kind = \"wood\"\ngrain = 5\n"), "value-type", "5\n", "grain is a number; a table is due");
}

TEST_CASE("a curve of one's own may be a file beside the scene, and its faults are placed in the file") {
    const Folder f("own-curve");
    std::string rows = "wavelength_nm,reflectance\n";
    for (int nm = 400; nm <= 700; nm += 20) rows += std::to_string(nm) + ",0.4\n";
    f.write("board.csv", rows);
    const auto wood = std::get<material::Wood>(own("kind = \"wood\"\nreflectance = \"board.csv\"\n", f / "").data);
    CHECK(wood.reflectance.values[40] == Approx(0.4).margin(1e-12));
    CHECK(wood.reflectance.from.source.find("board.csv") != std::string::npos);
    f.write("board.csv", rows + "800,abc\n");
    const auto found = scene_faults(with_own("kind = \"wood\"\nreflectance = \"board.csv\"\n"), f / "");
    holds_fault(found, "spectrum-number", 18, 5, "'abc'");
    CHECK(found[0].place.file == (f / "board.csv").string());
    const auto none = scene_faults(with_own("kind = \"wood\"\nreflectance = \"none.csv\"\n"), f / "");
    holds_fault(none, "file-missing", 0, 0, "no such file");
    refuses(with_own("kind = \"wood\"\nreflectance = 5\n"), "value-type", "5\n", "must be a table with start_nm");
}

TEST_CASE("materials of one's own are told apart from what is none") {
    refuses(with_own("kind = \"film\"\nlike = \"tung\"\n"), "material-unknown", "\"tung\"", "there is no film 'tung'");
    refuses(with_own("kind = 5\n"), "value-type", "5\n", "kind is a number");
    refuses("material = 5\nformat = 1\n[wood]\nuse = \"ash\"\n", "value-type", "5\nformat", "a table is due");
    refuses(with_own("kind = \"film\"\ncolour = \"amber\"\n"), "key-unknown", "colour", "[material.mine]");
    refuses(with_own("kind = \"film\"\nn = \"1.5\"\n"), "value-unit", "\"1.5\"", "a plain number is due");
    refuses(with_own("kind = \"film\"\nn = { value = 1.5, sdv = 1 }\n"), "key-unknown", "sdv", "the figure n");
    refuses(with_own("kind = \"film\"\nn = { value = 1.5, sd = -1 }\n"), "value-range", "-1 }", "sd = -1");
    refuses(with_own("kind = \"stock\"\n"), "key-missing", "[material.mine]", "strength is missing");
    refuses(with_own("kind = \"film\"\ncarrier = \"watr\"\n"), "material-unknown", "[material.mine]", "water");
}

TEST_CASE("what stands in the scene takes the place of what stands in its file of materials") {
    const Folder f("own-files");
    f.write("shelf/own.toml",
            "format = 1\ntitle = \"x\"\n[material.mine]\nkind = \"liquid\"\nn = 1.4\n[material.other]\n"
            "kind = \"liquid\"\nn = 1.45\n");
    const auto s = scene_from("materials = [\"shelf/own.toml\"]\n" + with_own("kind = \"liquid\"\nn = 1.3\n"), f / "");
    CHECK(std::get<material::Liquid>(s.materials.at("mine").data).n.value == 1.3);
    CHECK(std::get<material::Liquid>(s.materials.at("other").data).n.value == 1.45);
    f.write("shelf/own.toml", "format = 2\n[material.mine]\nkind = \"liquid\"\n");
    const auto found =
        scene_faults("materials = [\"shelf/own.toml\"]\n" + with_own("kind = \"liquid\"\nn = 1.3\n"), f / "");
    holds_fault(found, "value-range", 1, 10, "must be 1");
    CHECK(found[0].place.file.find("own.toml") != std::string::npos);
    f.write("shelf/own.toml", "format = 1\n[material]\nmine = 5\n");
    holds_fault(scene_faults("materials = [\"shelf/own.toml\"]\n" + with_own("kind = \"liquid\"\n"), f / ""),
                "value-type", 3, 8, "[material.mine] must be a table");
}
