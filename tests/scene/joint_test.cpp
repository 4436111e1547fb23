/// A fitted file's covariance: written, read, edited.

#include <catch2/catch.hpp>

#include "foretone/job/preview.hpp"
#include "foretone/scene/boards.hpp"
#include "support/demo.hpp"
#include "support/folder.hpp"
#include "support/replaced.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string& fitted() {
    static const std::string text = [] {
        const auto boards = scene::read_boards(std::string(FORETONE_SCENES) + "/boards/maple-plank.toml", library());
        return scene::fitted_toml(boards, scene::fit_boards(boards).result());
    }();
    return text;
}

scene::Scene scene_with_fit(const std::string& materials, const std::string& wood_line = "") {
    const Folder f("joint");
    f.write("fitted.toml", materials);
    const auto path =
        f.write("scene.toml", "format = 1\nmaterials = [\"fitted.toml\"]\n[wood]\nuse = \"plank-maple\"\n" + wood_line +
                                  "[[finish]]\nname = \"a\"\n[[finish.step]]\nmix = [ { use = \"march-honey\", parts = "
                                  "4 }, { use = \"water\", parts = 36 } ]\nwet_g_per_m2 = 65\n[[finish.step]]\nuse = "
                                  "\"march-shellac\"\ncut_lb = 1.5\ncoats = 3\nmethod = \"spray\"\n");
    return scene::read_scene(path, library());
}

bool warned(const scene::Scene& s, const std::string& id) {
    return std::any_of(s.warnings.begin(), s.warnings.end(), [&](const auto& w) { return w.id == id; });
}

double spread_of(const scene::Scene& s) {
    return job::preview(s, library(), appearance::two_flux_solver())
        .finishes[0]
        .spread.regions.back()[0]
        .materials_de00;
}

}  // namespace

TEST_CASE("a scene that uses fitted materials uses their covariance whole, and is surer by it") {
    const auto with = scene_with_fit(fitted());
    REQUIRE(with.fits.size() == 1);
    CHECK(with.fits[0].figures.size() > 10);
    CHECK_FALSE(warned(with, "joint-edited"));
    CHECK_FALSE(warned(with, "joint-checksum"));
    // An old file: the same without the table.
    const auto without = scene_with_fit(fitted().substr(0, fitted().find("\n# How far the figures above")));
    CHECK(without.fits.empty());
    CHECK(spread_of(with) < 0.7 * spread_of(without));
}

TEST_CASE("an edited figure drops out with a note, the others still hang together") {
    const auto at = fitted().find("surface_k2 = { value = ");
    REQUIRE(at != std::string::npos);
    auto text = fitted();
    text.replace(at, 23, "surface_k2 = { value = 0.3 #");
    const auto end = text.find("sd = ", at);
    text.replace(at, end - at, "surface_k2 = { value = 0.31, ");
    const auto s = scene_with_fit(text);
    CHECK(warned(s, "joint-edited"));
    REQUIRE(s.fits.size() == 1);
    for (const auto& f : s.fits[0].figures) CHECK(f.name() != "plank-maple/surface_k2");
}

TEST_CASE("a table whose numbers were changed, or of another version, is left aside with a note") {
    const auto changed = scene_with_fit(replaced(fitted(), "\nrow = [", "\nrow = [9"));
    CHECK(warned(changed, "joint-checksum"));
    CHECK(changed.fits.empty());
    const auto later = scene_with_fit(replaced(fitted(), "[joint]\nversion = 1", "[joint]\nversion = 2"));
    CHECK(warned(later, "joint-version"));
    CHECK(later.fits.empty());
}

TEST_CASE("the same board is said in the scene and takes board to board away") {
    CHECK_FALSE(scene_with_fit(fitted()).same_board);
    const auto same = scene_with_fit(fitted(), "same_board = true\n");
    CHECK(same.same_board);
    const auto p = job::preview(same, library(), appearance::two_flux_solver());
    for (const auto& c : p.finishes[0].spread.contributions) CHECK(c.what.find("board to board") == std::string::npos);
}
