// The chart's page taken as a photograph of itself: found, its camera fitted, its fields read as boards.

#include "foretone/job/chart.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>

#include "foretone/format/png.hpp"
#include "foretone/layout/chart_page.hpp"
#include "foretone/layout/photo_page.hpp"
#include "foretone/measure/cgats.hpp"
#include "foretone/scene/boards.hpp"
#include "foretone/scene/library.hpp"
#include "support/folder.hpp"
#include "support/tolerance.hpp"

namespace {

using namespace foretone;
using namespace foretone::test;

const scene::Library& whole() {
    static const scene::Library library{std::filesystem::path(FORETONE_SPECTRA)};
    return library;
}

void put_bytes(const std::filesystem::path& path, const std::vector<std::uint8_t>& bytes) {
    std::ofstream(path, std::ios::binary)
        .write(reinterpret_cast<const char*>(bytes.data()), std::streamsize(bytes.size()));
}
// The page, a third of its size: 4 pixels a millimetre, somewhat under full light.
std::filesystem::path photographed_page(const Folder& folder) {
    auto image = layout::shrunk(layout::chart_page(), 760, 520);
    for (auto& v : image.rgb) v = std::uint8_t(v * 9 / 10);
    put_bytes(folder / "shot.png", format::encode_png(image, {100, "", "", false}));
    return folder / "shot.png";
}

light::Box on_field(const std::string& name) {
    for (const auto& f : photo::chart_fields())
        if (f.name == name) return {int(4 * f.x_mm) - 10, int(4 * f.y_mm) - 10, 20, 20};
    throw std::runtime_error("no field " + name);
}

std::string fault_of_chart(const job::ChartQuestion& q) {
    try {
        job::read_chart(whole(), q);
    } catch (const scene::InputError& e) {
        return e.problems.front().id;
    }
    return "none";
}

}  // namespace

TEST_CASE("a photographed chart reads what lies beside it, each reading with its spread, for the fit to take") {
    const Folder folder("chart");
    const auto shot = photographed_page(folder).string();
    const auto r = job::read_chart(whole(), {shot, "", {{"bare", on_field("B1")}, {"dyed", on_field("C6")}}, "D65"});
    REQUIRE(r.readings.readings.size() == 2);
    CHECK(r.fit.used == 40);
    CHECK(r.truth_de == photo::chart_nominal_de);
    CHECK(r.warnings.back().id == "chart-planned");
    CHECK_THAT(r.spread_de,
               Near(std::sqrt(36 + std::pow(photo::wood_by_inks_de, 2) + std::pow(r.fit.left_out_de, 2)), 1e-9));
    CHECK_THAT(r.corners[2][0], Near(760.0, 2));
    for (std::size_t k = 0; k < 2; ++k) {
        const auto& f = photo::chart_fields()[k == 0 ? 8 : 21];
        CHECK(color::delta_e_00(*r.readings.readings[k].lab, f.lab) < 1.5);
    }
    // As a file it is read again, and the spread goes into the fit.
    folder.write("shot-readings.txt", job::chart_readings_text(r));
    folder.write("boards.toml",
                 "format = 1\nby = \"a test\"\n[look]\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"
                 "[readings]\nfile = \"shot-readings.txt\"\n[[board]]\nname = \"one\"\nwood = \"hard-maple\"\n"
                 "reading = [ { name = \"bare\", step = 0 } ]\n");
    const auto boards = scene::read_boards(folder / "boards.toml", whole());
    REQUIRE(boards.question.readings.size() == 1);
    CHECK_THAT(boards.question.readings[0].spread_de, Near(r.spread_de, 1e-3));
    CHECK_THAT(boards.question.readings[0].lab->l, Near(r.readings.readings[0].lab->l, 1e-3));
}

TEST_CASE("the chart's own readings take the place of its plan, by the fields' names in either case") {
    const Folder folder("chart-read");
    const auto shot = photographed_page(folder).string();
    auto plan = measure::read_cgats(job::chart_plan_text());
    CHECK(plan.readings.size() == 40);
    for (auto& r : plan.readings) {
        r.lab->a += 3;  // a print redder than planned
        r.spread_de = 0.4;
        for (char& c : r.name) c = char(std::tolower(c));
    }
    folder.write("read.txt", measure::write_cgats(plan, {"a test", "", "", {}}));
    const job::ChartQuestion q{shot, (folder / "read.txt").string(), {{"b", on_field("C4")}}, "A"};
    const auto r = job::read_chart(whole(), q);
    CHECK_THAT(r.truth_de, Near(0.4, 1e-6));
    CHECK(r.wood_de == photo::wood_by_inks_filament_de);
    CHECK_THAT(r.readings.readings[0].lab->a, Near(photo::chart_fields()[19].lab.a + 3, 1.5));

    folder.write("other.txt", "name,L,a,b\nmaple,80,4,18\n");
    CHECK(fault_of_chart({shot, (folder / "other.txt").string(), {}, ""}) != "none");
    folder.write("named.txt", "# light: D65\n# observer: 2deg\nname,L,a,b\nmaple,80,4,18\n");
    CHECK(fault_of_chart({shot, (folder / "named.txt").string(), {}, ""}) == "chart-readings");
    folder.write("d50.txt", "# light: A\n# observer: 2deg\nname,L,a,b\nA1,80,4,18\n");
    CHECK(fault_of_chart({shot, (folder / "d50.txt").string(), {}, ""}) == "chart-readings");
}

TEST_CASE("patches of a photograph with the chart that cannot be read are refused") {
    const Folder folder("chart-patches");
    const auto shot = photographed_page(folder).string();
    CHECK(fault_of_chart({shot, "", {{"a", {700, 500, 100, 100}}}, "D65"}) == "patch-outside");
    CHECK(fault_of_chart({shot, "", {{"a", {2147483647, 1, 2147483647, 10}}}, "D65"}) == "patch-outside");
    CHECK(fault_of_chart({shot, "", {{"a", {10, 10, 7, 100}}}, "D65"}) == "patch-small");
    CHECK(fault_of_chart({shot, "", {{"a", {100, 100, 9, 9}}, {"a", {200, 100, 9, 9}}}, "D65"}) == "patch-twice");
    put_bytes(folder / "plain.png",
              format::encode_png(light::Image::filled(60, 40, {90, 90, 90}), {100, "", "", false}));
    CHECK(fault_of_chart({(folder / "plain.png").string(), "", {}, ""}) == "chart-missing");
    CHECK(fault_of_chart({(folder / "none.png").string(), "", {}, ""}) == "picture-missing");
}
