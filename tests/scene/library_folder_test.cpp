/// A library as a folder, and what its check finds.

#include <algorithm>

#include "foretone/material/figures.hpp"
#include "foretone/scene/library_check.hpp"
#include "scene/faults.hpp"
#include "support/folder.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string plain_liquid =
    "format = 1\nkind = \"liquid\"\nname = \"x\"\n"
    "n = { value = 1.36, sd = 0.01, mark = \"published\", source = \"x\" }\n"
    "density_g_per_ml = { value = 0.79, sd = 0.01, mark = \"published\", source = \"x\" }\n"
    "depth_um = { value = 50, sd = 20, mark = \"memory\", source = \"x\" }\n"
    "fill = { value = 0.5, sd = 0.1, mark = \"practice\", source = \"x\" }\n";

std::string stock_in(const std::string& carrier, const std::string& powder) {
    return "format = 1\nkind = \"stock\"\nname = \"x\"\ncarrier = \"" + carrier + "\"\nmix = [ { use = \"" + powder +
           "\", g_per_l = 5 } ]\nstrength = { value = 1, sd = 0.1, mark = \"practice\", source = \"x\" }\n";
}

}  // namespace

TEST_CASE("the folder that the library is compiled from holds the same files, to the byte") {
    const scene::Library folder{std::filesystem::path(FORETONE_SPECTRA)};
    REQUIRE(folder.entries().size() == library().entries().size());
    for (const auto& e : library().entries()) {
        INFO(e.path);
        const auto* same = folder.find(e.id);
        REQUIRE(same);
        CHECK(same->kind == e.kind);
        CHECK(folder.text(*same) == library().text(e));
        CHECK(library().where(e) == "spectra/" + e.path);
    }
}

TEST_CASE("a folder's entries are told by the folder they lie in and their ending") {
    const Folder f("library-folder");
    f.write("liquids/spirit.toml", plain_liquid);
    f.write("liquids/notes.txt", "x");
    f.write("liquids/table.csv", "x");
    f.write("other/thing.toml", "x");
    f.write("top.toml", "x");
    f.write("illuminants/lamp.csv", "# a lamp\nwavelength_nm,power\n380,1\n780,2\n");
    f.write("illuminants/lamp.toml", "x");
    const scene::Library lib{f / ""};
    REQUIRE(lib.entries().size() == 2);
    CHECK(lib.ids() == std::vector<std::string>{"spirit"});  // lights are no materials
    CHECK(lib.lights() == std::vector<std::string>{"lamp"});
    CHECK(lib.ids(material::Kind::wood).empty());
    CHECK(lib.find("spirit")->path == "liquids/spirit.toml");
    CHECK(lib.find("notes") == nullptr);
    CHECK(lib.where(*lib.find("spirit")) == (f / "liquids/spirit.toml").string());
    CHECK(std::get<material::Liquid>(lib.material("spirit").data).n.value == 1.36);
    CHECK(lib.illuminant("lamp").power.value == std::vector<double>{1, 2});
    CHECK(lib.comments("lamp") == std::vector<std::string>{"a lamp"});
    CHECK(lib.comments("spirit").empty());
    CHECK(lib.comments("none").empty());
}

TEST_CASE("a folder that is none, or holds no material, is refused") {
    const Folder f("library-none");
    f.write("file", "x");
    const auto refused = [](const std::filesystem::path& path) {
        return faults_of([&] { const scene::Library lib(path); });
    };
    holds_fault(refused(f / "none"), "library-folder", 0, 0, "woods/");
    holds_fault(refused(f / "file"), "library-folder", 0, 0, "not a folder");
    holds_fault(refused(f / ""), "library-empty", 0, 0, "no material file");
    f.write("illuminants/lamp.csv", "x");
    holds_fault(refused(f / ""), "library-empty", 0, 0, "no material file");  // a light alone is no library
}

TEST_CASE("asking for what is not there names the nearest of its sort") {
    holds_fault(faults_of([] { library().material("hard-mapel"); }), "material-unknown", 0, 0, "hard-maple");
    holds_fault(faults_of([] { library().material("D65"); }), "material-unknown", 0, 0, "'D65'");
    holds_fault(faults_of([] { library().illuminant("D56"); }), "light-unknown", 0, 0, "D65");
    holds_fault(faults_of([] { library().illuminant("ash"); }), "light-unknown", 0, 0, "'ash'");
    holds_fault(faults_of([] { library().observer("2degree"); }), "observer-unknown", 0, 0, "10deg or 2deg");
}

TEST_CASE("observers and lights keep their columns apart") {
    const auto o = library().observer("2deg");
    // CIE 15: the 2 degree luminosity peaks at 555 nm with 1; x at 599 nm and z at 446 nm are larger than y there.
    const auto at = [](const spectral::Sampled& s, double nm) {
        for (std::size_t i = 0; i < s.wavelength_nm.size(); ++i)
            if (s.wavelength_nm[i] == nm) return s.value[i];
        FAIL("no " << nm << " nm");
        return 0.0;
    };
    CHECK(at(o.y, 555) == Approx(1).margin(1e-4));
    CHECK(at(o.x, 599) > at(o.y, 599));
    CHECK(at(o.z, 446) > 1.7);
    CHECK(at(o.x, 446) < at(o.z, 446));
    CHECK(library().illuminant("A").id == "A");
    CHECK(at(library().illuminant("A").power, 560) == Approx(100).margin(1e-3));  // CIE 15: A is 100 at 560 nm
}

TEST_CASE("the check tells a material in the wrong folder, names that lead nowhere, and a light without its source") {
    const Folder f("library-check");
    f.write("liquids/water.toml", plain_liquid);
    CHECK(scene::check_library(scene::Library{f / ""}).problems.empty());
    f.write("films/water2.toml", plain_liquid);
    f.write("stocks/brew.toml", stock_in("wine", "powder"));
    f.write("illuminants/lamp.csv", "wavelength_nm,power\n380,1\n780,2\n");
    f.write("illuminants/dark.csv", "# x\nwavelength_nm,power\n380,1\n380,2\n");
    f.write("observers/eye.csv", "wavelength_nm,x,y\n380,1,1\n");
    const auto check = scene::check_library(scene::Library{f / ""});
    CHECK(check.files == 6);
    holds_fault(check.problems, "material-kind", 0, 0, "kind = \"liquid\" does not belong in the folder of a film");
    holds_fault(check.problems, "material-unknown", 0, 0, "there is no liquid 'wine'");
    holds_fault(check.problems, "material-unknown", 0, 0, "there is no dye 'powder'");
    holds_fault(check.problems, "provenance-missing", 1, 1, "a light says in its comments where it comes from");
    holds_fault(check.problems, "spectrum-order", 4, 1, "does not rise");
    holds_fault(check.problems, "spectrum-header", 1, 1, "wavelength_nm,x,y,z");
    for (const auto& p : check.problems) CHECK(p.place.file.find("foretone-library-check") != std::string::npos);
}

TEST_CASE("the check counts every figure once, under its mark") {
    const Folder f("library-count");
    f.write("liquids/water.toml", plain_liquid);
    const auto check = scene::check_library(scene::Library{f / ""});
    CHECK(check.files == 1);
    CHECK(check.figures == 4);
    CHECK(check.marks.at(material::Mark::published) == 2);
    CHECK(check.marks.at(material::Mark::practice) == 1);
    CHECK(check.marks.at(material::Mark::memory) == 1);
    const auto whole = scene::check_library(library());
    std::size_t sum = 0;
    for (const auto& [mark, count] : whole.marks) sum += count;
    CHECK(sum == whole.figures);
    CHECK(whole.marks.count(material::Mark::stated) == 0);  // a library states nothing without a source
}

TEST_CASE("every figure of the library lies in its range with a source, every spread is one") {
    for (const auto& id : library().ids()) {
        auto m = library().material(id);
        CHECK(m.id == id);
        CHECK_FALSE(m.name.empty());
        for (const auto& f : material::figures(m)) {
            INFO(id << " " << f.key);
            CHECK_FALSE(f.from().source.empty());
            CHECK((f.sd() >= 0 && f.sd() < 1e6));
            if (f.figure) {
                CHECK((f.figure->value >= f.low && f.figure->value <= f.high));
            } else {
                const auto [low, high] = std::minmax_element(f.spectrum->values.begin(), f.spectrum->values.end());
                CHECK((*low >= f.low && *high <= f.high));
            }
        }
    }
}
