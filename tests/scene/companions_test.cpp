#include <catch2/catch.hpp>
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>

#include "foretone/base/number.hpp"
#include "foretone/material/companions.hpp"
#include "foretone/material/figures.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/scene/library.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/scene.hpp"
#include "support/demo.hpp"

using namespace foretone;
using foretone::test::library;

namespace {

// A scene whose own material `x` has these lines.
scene::Scene scene_of_own(const std::string& material) {
    const auto path = std::filesystem::temp_directory_path() / "foretone-companions-test.toml";
    std::ofstream(path) << "format = 1\ntitle = \"t\"\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"one\"\n"
                           "[[finish.step]]\nuse = \"oil-varnish\"\n[material.x]\n"
                        << material;
    auto out = scene::read_scene(path.string(), library());
    std::filesystem::remove(path);
    return out;
}

// What is told of figures that go together.
std::vector<std::string> companion_notes(const std::string& material) {
    std::vector<std::string> out;
    for (const auto& w : scene_of_own(material).warnings)
        if (w.id == "figure-companion") out.push_back(w.text);
    return out;
}

bool says(const std::vector<std::string>& texts, const std::string& key, const std::string& with) {
    for (const auto& t : texts)
        if (t.find(key) != std::string::npos && t.find(with) != std::string::npos) return true;
    return false;
}

const material::Binder& binder(const scene::Scene& s) { return std::get<material::Binder>(s.materials.at("x").data); }

}  // namespace

TEST_CASE("a shellac like orange with its own Gardner number restated is orange, and the solids taken are told") {
    const auto s = scene_of_own("kind = \"film\"\nlike = \"orange-shellac\"\ngardner = 15\n");
    const auto orange = library().material("orange-shellac");
    CHECK(material::absorption_per_mm(binder(s)) ==
          material::absorption_per_mm(std::get<material::Binder>(orange.data)));
    CHECK(says(companion_notes("kind = \"film\"\nlike = \"orange-shellac\"\ngardner = 15\n"), "gardner",
               "gardner_solids_volume_percent"));
}

TEST_CASE("a varnish with its own number and solids is read as supplied, and a wax as it is melted") {
    const auto varnish =
        scene_of_own("kind = \"film\"\nlike = \"oil-varnish\"\ngardner = 11\nsolids_volume_percent = 50\n");
    CHECK(binder(varnish).gardner_solids_volume_percent->value == 50);
    const auto wax = scene_of_own("kind = \"wax\"\nlike = \"paste-wax\"\ngardner = 6\n");
    CHECK(binder(wax).gardner_solids_volume_percent->value == 100);
}

TEST_CASE("a color number with its solids is told nothing, and one at another wavelength is refused") {
    CHECK(companion_notes("kind = \"film\"\nlike = \"oil-varnish\"\ngardner = 9\ngardner_solids_volume_percent = 45\n")
              .empty());
    // A figure has no key for a wavelength: the index is that at 589 nm, haze and scattering those at 550 nm.
    CHECK_THROWS_AS(scene_of_own("kind = \"film\"\nlike = \"oil-varnish\"\nn = { value = 1.5, at_nm = 450 }\n"),
                    scene::InputError);
}

TEST_CASE("of each pair stated by halves the other half is told, with where it comes from") {
    struct Case {
        const char *material, *key, *with;
    };
    for (const auto& c : {
             Case{"kind = \"film\"\nlike = \"oil-varnish\"\nsolids_volume_percent = 60\n", "solids_volume_percent",
                  "density_g_per_ml"},
             Case{"kind = \"film\"\nlike = \"oil-varnish\"\ndensity_g_per_ml = 1\n", "density_g_per_ml",
                  "solids_volume_percent"},
             Case{"kind = \"film\"\nlike = \"oil-varnish\"\ngardner_solids_volume_percent = 40\n",
                  "gardner_solids_volume_percent", "gardner is that of oil-varnish"},
             Case{"kind = \"film\"\nlike = \"orange-shellac\"\nresin_density_g_per_ml = 1.1\n",
                  "resin_density_g_per_ml", "cut_lb"},
             Case{"kind = \"film\"\nlike = \"waterborne-acrylic\"\nhaze_per_mm = 0.5\n", "haze_per_mm",
                  "haze_exponent"},
             Case{"kind = \"film\"\nlike = \"oil-varnish\"\nstay = 0.9\n", "stay", "depth_um"},
             Case{"kind = \"film\"\nlike = \"oil-varnish\"\nwet_um = { brush = 120 }\n", "wet_um", "coverage_m2_per_l"},
             Case{"kind = \"film\"\nlike = \"oil-varnish\"\ncoverage_m2_per_l = 8\n", "coverage_m2_per_l", "wet_um"},
             Case{"kind = \"wood\"\nlike = \"cherry\"\nscattering_per_mm = 9\n", "scattering_per_mm",
                  "scattering_exponent"},
             Case{"kind = \"wood\"\nlike = \"cherry\"\nsurface_k1 = 0.05\n", "surface_k1", "surface_k2"},
             Case{"kind = \"wood\"\nlike = \"cherry\"\ndensity_g_per_cm3 = 0.7\n", "density_g_per_cm3", "porosity"},
             Case{"kind = \"dye\"\nlike = \"acid-red-1\"\nmolar_mass_g_per_mol = 500\n", "molar_mass_g_per_mol",
                  "molar_absorptivity"},
             Case{"kind = \"liquid\"\nlike = \"water\"\ndepth_um = 90\n", "depth_um", "fill"},
         }) {
        INFO(c.material);
        CHECK(says(companion_notes(c.material), c.key, c.with));
    }
}

namespace {

// One figure of `like`, stated again as it is.
std::string restated(const material::FigureAt& at) {
    const auto number = [](double v) { return base::shortest(v); };
    if (at.figure) {
        const auto dot = at.key.find('.');
        if (dot == std::string::npos) return at.key + " = " + number(at.figure->value) + "\n";
        return at.key.substr(0, dot) + " = { " + at.key.substr(dot + 1) + " = " + number(at.figure->value) + " }\n";
    }
    std::string values;
    for (const double v : at.spectrum->values) values += (values.empty() ? "" : ", ") + number(v);
    return at.key + " = { start_nm = 380, step_nm = 5, values = [" + values + "] }\n";
}

// The library's materials that lend their figures, by kind.
const std::pair<material::Kind, const char*> lenders[] = {
    {material::Kind::wood, "cherry"},      {material::Kind::dye, "acid-red-1"},
    {material::Kind::film, "oil-varnish"}, {material::Kind::film, "orange-shellac"},
    {material::Kind::oil, "tung"},         {material::Kind::wax, "paste-wax"},
    {material::Kind::liquid, "water"},     {material::Kind::pigment, "red-iron-oxide"},
};

}  // namespace

TEST_CASE("every pair there is, stated by half on top of every kind of material, is told") {
    std::set<std::string> seen;
    for (const auto& [kind, like] : lenders) {
        auto lender = library().material(like);
        const auto figures = material::figures(lender);
        const auto find = [&](std::string_view key) {
            return std::find_if(figures.begin(), figures.end(),
                                [&](const auto& f) { return f.key.substr(0, f.key.find('.')) == key; });
        };
        for (const auto& pair : material::companions(lender.data)) {
            const auto at = find(pair.key);
            if (at == figures.end() || find(pair.with) == figures.end()) continue;  // shellac has no solids of its own
            const std::string text =
                "kind = \"" + std::string(material::word(kind)) + "\"\nlike = \"" + like + "\"\n" + restated(*at);
            INFO(text);
            CHECK(says(companion_notes(text), std::string(pair.key), std::string(pair.with) + " is that of " + like));
            seen.insert(std::string(pair.key) + "+" + std::string(pair.with));
        }
    }
    std::size_t all = 0;
    for (const auto& kind : {material::Kind::wood, material::Kind::dye, material::Kind::pigment, material::Kind::film,
                             material::Kind::liquid})
        all += material::companions(material::blank(kind)).size();
    CHECK(seen.size() == all);
}

TEST_CASE("a reflectance stated without its geometry says whose geometry is taken") {
    std::string values = "[";
    for (int i = 0; i < 21; ++i) values += "0.4, ";
    const std::string curve = "[material.x.reflectance]\nstart_nm = 380\nstep_nm = 20\nvalues = " + values + "]\n";
    CHECK(says(companion_notes("kind = \"wood\"\nlike = \"cherry\"\n" + curve), "geometry", "cherry"));
    const auto whole = companion_notes("kind = \"wood\"\nlike = \"cherry\"\n" + curve + "geometry = \"45/0\"\n");
    CHECK_FALSE(says(whole, "without its geometry", ""));
}

TEST_CASE("a material that states both halves, or neither, is told nothing of pairs") {
    CHECK(companion_notes("kind = \"film\"\nlike = \"oil-varnish\"\nn = 1.52\n").empty());
    CHECK(companion_notes(
              "kind = \"film\"\nlike = \"oil-varnish\"\nsolids_volume_percent = 60\ndensity_g_per_ml = 0.95\n")
              .empty());
    CHECK(companion_notes("kind = \"film\"\nlike = \"waterborne-acrylic\"\nhaze_per_mm = 0.5\nhaze_exponent = 2\n")
              .empty());
}
