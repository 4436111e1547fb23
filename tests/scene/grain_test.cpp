/// The grain of every wood: told, believable, and kept in the mean; and what a file that tells it wrongly is answered.

#include <catch2/catch.hpp>

#include "foretone/color/xyz.hpp"
#include "foretone/material/figures.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/grain/grain.hpp"
#include "foretone/scene/material_file.hpp"
#include "support/demo.hpp"
#include "support/sanitized.hpp"
#include "support/tolerance.hpp"
#include "support/replaced.hpp"

using namespace foretone;
using namespace foretone::test;
using material::Pores;
using grain::Cut;

namespace {

const material::Wood& wood_of(const material::Material& m) { return std::get<material::Wood>(m.data); }

std::string ash_text() { return library().text(*library().find("ash")); }

// The problems of a material file.
std::vector<scene::Problem> problems_of(const std::string& text) {
    scene::Problems problems;
    try {
        scene::read_material_file(text, "ash.toml", "ash", problems);
        problems.raise();
    } catch (const scene::InputError& e) {
        return e.problems;
    }
    return {};
}

void expect_problem(const std::string& text, const std::string& id, const std::string& says) {
    const auto found = problems_of(text);
    INFO(says);
    REQUIRE_FALSE(found.empty());
    UNSCOPED_INFO(found[0].place.text() << ": " << found[0].text << " [" << found[0].id << "]");
    CHECK(found[0].id == id);
    CHECK(found[0].text.find(says) != std::string::npos);
    CHECK(found[0].place.line > 1);
}

}  // namespace

TEST_CASE("every wood of the library tells its grain, with marks and sources") {
    const std::map<std::string, Pores> due = {{"ash", Pores::ring},
                                              {"red-oak", Pores::ring},
                                              {"white-oak", Pores::ring},
                                              {"teak", Pores::ring},
                                              {"walnut", Pores::semi_ring},
                                              {"cherry", Pores::semi_ring},
                                              {"beech", Pores::diffuse},
                                              {"birch", Pores::diffuse},
                                              {"hard-maple", Pores::diffuse},
                                              {"soft-maple", Pores::diffuse},
                                              {"mahogany", Pores::diffuse},
                                              {"pine", Pores::resin},
                                              {"pine-heartwood", Pores::resin},
                                              {"spruce", Pores::resin},
                                              {"silver-fir", Pores::none},
                                              {"alder", Pores::diffuse},
                                              {"poplar", Pores::diffuse},
                                              {"hickory", Pores::ring},
                                              {"douglas-fir", Pores::resin},
                                              {"larch", Pores::resin},
                                              {"sapele", Pores::diffuse},
                                              {"iroko", Pores::diffuse},
                                              {"chestnut", Pores::ring},
                                              {"elm", Pores::ring},
                                              {"walnut-sapwood", Pores::semi_ring},
                                              {"cherry-sapwood", Pores::semi_ring},
                                              {"maritime-pine", Pores::resin},
                                              {"eucalyptus", Pores::diffuse}};
    CHECK(library().ids(material::Kind::wood).size() == due.size());
    for (const auto& id : library().ids(material::Kind::wood)) {
        auto m = library().material(id);
        INFO(id);
        auto& wood = std::get<material::Wood>(m.data);
        REQUIRE(wood.grain.has_value());
        CHECK(wood.grain->pores == due.at(id));
        CHECK_FALSE(wood.grain->pores_from.source.empty());
        int told = 0;
        for (const auto& f : material::figures(m)) told += f.key.starts_with("grain.");
        CHECK(told == 36);
    }
}

TEST_CASE("a grain moves no mean color and no mark of one") {
    auto m = library().material("ash");
    const auto mark = material::weakest(m);
    for (const auto& f : material::figures(m))
        if (f.key.starts_with("grain.")) CHECK_FALSE(f.optical);
    std::get<material::Wood>(m.data).grain.reset();
    CHECK(material::weakest(m) == mark);
}

TEST_CASE("every wood in every cut drinks 1 and reads as its file says, in the mean") {
    const int width = sanitized() ? 120 : 480, height = 2 * width / 3;
    double worst_bright = 0, worst_single = 0, worst_uptake = 0;
    std::string where_bright, where_single, where_uptake;
    for (const auto& id : library().ids(material::Kind::wood)) {
        const auto m = library().material(id);
        const auto& wood = wood_of(m);
        const auto body = material::body_reflectance(wood);
        for (const Cut cut : {Cut::flat, Cut::quarter, Cut::rift}) {
            const auto maps = grain::grain(wood, cut, width, height, 0.25, 9);
            const auto pixels = static_cast<double>(maps.shade.size());
            double drunk = 0;
            for (const float u : maps.uptake) drunk += static_cast<double>(u);
            const std::string where = id + " cut " + std::to_string(static_cast<int>(cut));
            if (worse(std::abs(drunk / pixels - 1), worst_uptake))
                worst_uptake = std::abs(drunk / pixels - 1), where_uptake = where;
            double luminance = 0;
            for (const std::size_t k : {4, 14, 24, 34, 44, 54, 64}) {  // 400 to 700 nm every 50
                const double ks = (1 - body[k]) * (1 - body[k]) / (2 * body[k]);
                double sum = 0;
                for (const float s : maps.shade) {
                    const double a = ks * std::exp(static_cast<double>(s));
                    sum += material::dry_surface(wood.surface_k1.value, wood.surface_k2.value,
                                                 1 / (1 + a + std::sqrt(a * (a + 2))));
                }
                const double off = sum / pixels - wood.reflectance.values[k];
                if (worse(std::abs(off), worst_single))
                    worst_single = std::abs(off), where_single = where + " at " + std::to_string(spectral::grid_nm(k));
                if (k == 34) luminance = off;  // 550 nm, near the middle of what the eye weighs
            }
            if (worse(std::abs(luminance), worst_bright)) worst_bright = std::abs(luminance), where_bright = where;
        }
    }
    INFO("550 nm " << worst_bright << " (" << where_bright << "), any " << worst_single << " (" << where_single
                   << "), uptake " << worst_uptake << " (" << where_uptake << ")");
    CHECK(worst_uptake < 1e-3);
    CHECK(worst_bright < 0.002);
    CHECK(worst_single <
          0.015);  // one number a pixel cannot keep every wavelength: the mean of a curve is not the curve of the mean
}

TEST_CASE("the mean luminance of a board is its wood's") {
    const auto weights = color::make_weights(library().illuminant("D65"), library().observer("2deg"));
    double worst = 0;
    std::string where;
    for (const auto& id : library().ids(material::Kind::wood)) {
        const auto m = library().material(id);
        const auto& wood = wood_of(m);
        const auto body = material::body_reflectance(wood);
        std::vector<double> luminance;  // at shade −2.5, −2.49, … 4
        for (int n = 0; n <= 650; ++n) {
            auto r = body;
            for (double& b : r) {
                const double a = (1 - b) * (1 - b) / (2 * b) * std::exp(-2.5 + 0.01 * n);
                b = material::dry_surface(wood.surface_k1.value, wood.surface_k2.value,
                                          1 / (1 + a + std::sqrt(a * (a + 2))));
            }
            luminance.push_back(color::xyz(r, weights).y);
        }
        for (const Cut cut : {Cut::flat, Cut::quarter, Cut::rift}) {
            const auto maps = grain::grain(wood, cut, 120, 90, 0.4, 2);
            double sum = 0;
            for (const float s : maps.shade) {
                const double u = (static_cast<double>(s) + 2.5) * 100;
                const auto n = std::min<std::size_t>(static_cast<std::size_t>(u), 649);
                sum += luminance[n] + (u - static_cast<double>(n)) * (luminance[n + 1] - luminance[n]);
            }
            const double off =
                std::abs(sum / static_cast<double>(maps.shade.size()) - color::xyz(wood.reflectance.values, weights).y);
            if (worse(off, worst)) worst = off, where = id;
        }
    }
    INFO("worst " << worst << " of 100: " << where);
    CHECK(worst < 0.1);  // about 0.05 in L*, on these woods
}

TEST_CASE("earlywood of softwoods and ring-porous woods drinks more than latewood") {
    for (const char* id : {"pine", "pine-heartwood", "spruce", "silver-fir", "ash", "red-oak", "white-oak"}) {
        INFO(id);
        CHECK(wood_of(library().material(id)).grain->late_uptake.value < 0.75);
    }
    // On the board: where bare pine is dark it takes less.
    const auto maps = grain::grain(wood_of(library().material("pine")), Cut::quarter, 400, 300, 0.2, 1);
    double dark = 0, pale = 0, darks = 0, pales = 0;
    for (std::size_t i = 0; i < maps.shade.size(); ++i) {
        if (maps.shade[i] > 0.5f) dark += static_cast<double>(maps.uptake[i]), ++darks;
        if (maps.shade[i] < 0) pale += static_cast<double>(maps.uptake[i]), ++pales;
    }
    CHECK(dark / darks < 0.75 * pale / pales);
}

TEST_CASE("a material file that tells its grain wrongly is answered") {
    CHECK(problems_of(ash_text()).empty());
    expect_problem(replaced(ash_text(), "ring_mm = ", "ring_width = "), "key-missing", "ring_mm is missing");
    expect_problem(replaced(ash_text(), "late_share = { value = 0.62", "late_share = { value = 62"), "value-range",
                   "late_share");
    expect_problem(replaced(ash_text(), "value = \"ring-porous\"", "value = \"ring\""), "value-choice", "ring-porous");
    expect_problem(replaced(ash_text(), "pores = {", "pore_kind = {"), "key-missing", "pores is missing");
    expect_problem(replaced(ash_text(), "[grain]\npores = { value = \"ring-porous\", mark = \"published\",",
                            "[grain]\npores = { value = \"ring-porous\","),
                   "provenance-missing", "pores has no mark");
    expect_problem(replaced(ash_text(), "ray_um = {", "ray_um = 35 # {"), "provenance-missing",
                   "ray_um must say where it comes from");
    const auto unknown = problems_of(ash_text() + "knots = 3\n");
    REQUIRE(unknown.size() == 1);
    CHECK(unknown[0].id == "key-unknown");
    CHECK(unknown[0].text.find("knots") != std::string::npos);
}

TEST_CASE("a wood that does not tell its grain is drawn as a plain one") {
    const auto text = ash_text();
    scene::Problems problems;
    const auto m = scene::read_material_file(text.substr(0, text.find("\n[grain]")), "ash.toml", "ash", problems);
    problems.raise();
    CHECK_FALSE(wood_of(m).grain.has_value());
    auto plain = wood_of(m);
    plain.grain = material::plain_grain();
    CHECK(grain::grain(wood_of(m), Cut::flat, 60, 40, 0.5, 1).shade ==
          grain::grain(plain, Cut::flat, 60, 40, 0.5, 1).shade);
}

TEST_CASE("a wood of one's own may tell some of its grain, all, or none") {
    const auto board = [](const std::string& lines) {
        return scene::read_scene_text(
            "format = 1\n[wood]\nuse = \"mine\"\n[material.mine]\nkind = \"wood\"\nlike = \"ash\"\n" + lines +
                "[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\n",
            "test.toml", ".", library());
    };
    const auto ash = *wood_of(library().material("ash")).grain;
    const auto none = board(""), some = board("[material.mine.grain]\nring_mm = 1.2\npores = \"diffuse-porous\"\n");
    CHECK(wood_of(none.materials.at("mine")).grain->ring_mm.value == ash.ring_mm.value);
    CHECK(wood_of(some.materials.at("mine")).grain->ring_mm.value == 1.2);
    CHECK(wood_of(some.materials.at("mine")).grain->ring_mm.from.mark == material::Mark::stated);
    CHECK(wood_of(some.materials.at("mine")).grain->pores == Pores::diffuse);
    CHECK(wood_of(some.materials.at("mine")).grain->pore_um.value == ash.pore_um.value);
    for (const auto* s : {&none, &some}) {
        REQUIRE_FALSE(s->warnings.empty());
        CHECK(s->warnings[0].text.find("grain") != std::string::npos);
    }
    CHECK_THROWS_AS(board("[material.mine.grain]\nring_mm = 120\n"), scene::InputError);
    CHECK_THROWS_AS(board("[material.mine.grain]\nrings = 2\n"), scene::InputError);
}
