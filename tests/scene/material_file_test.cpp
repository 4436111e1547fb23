/// Material files of a library: what is read, and that every figure, mark, spread and source is owed.

#include <sstream>

#include "foretone/material/figures.hpp"
#include "foretone/scene/material_file.hpp"
#include "scene/faults.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

std::string library_text(const std::string& id) { return library().text(*library().find(id)); }

std::vector<scene::Problem> file_faults(const std::string& text) {
    scene::Problems problems;
    scene::read_material_file(text, "m.toml", "mine", problems);
    return problems.list();
}
material::Material good_file(const std::string& text) {
    scene::Problems problems;
    auto m = scene::read_material_file(text, "m.toml", "mine", problems);
    for (const auto& p : problems.list()) UNSCOPED_INFO(p.place.text() << ": " << p.text);
    REQUIRE(problems.empty());
    return m;
}

std::vector<std::string> lines_in(const std::string& text) {
    std::vector<std::string> out;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) out.push_back(line);
    return out;
}
std::string joined_lines(const std::vector<std::string>& lines) {
    std::string out;
    for (const auto& l : lines) out += l + "\n";
    return out;
}
/// `text` with line `i` in other words.
std::string with_line(const std::vector<std::string>& lines, std::size_t i, const std::string& other) {
    auto changed = lines;
    changed[i] = other;
    return joined_lines(changed);
}
std::string without(const std::string& line, const std::string& from, const std::string& to) {
    const auto a = line.find(from), b = line.find(to, a);
    return a == std::string::npos || b == std::string::npos ? line : line.substr(0, a) + line.substr(b);
}

const char* const one_of_a_kind[] = {"ash",          "acid-black-1",   "honey-dye",    "red-iron-oxide",
                                     "tung",         "orange-shellac", "paste-wax",    "water",
                                     "walnut-stain", "liming-wax",     "iron-solution"};

/// The file's lines that say a figure in one line, outside [order].
std::vector<std::size_t> figure_lines(const std::vector<std::string>& lines) {
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < lines.size() && lines[i].rfind("[order", 0) != 0; ++i)
        if (lines[i].find(" = { value = ") != std::string::npos && lines[i].find("sd = ") != std::string::npos)
            out.push_back(i);
    return out;
}

/// Figures that a film may do without: another figure can stand for them.
bool can_be_left_out(const std::string& line) {
    for (const char* key : {"gardner", "density_g_per_ml", "solids_volume_percent", "resin_density_g_per_ml", "cut_lb",
                            "contact", "particle_um", "lightfastness", "uv_absorbed", "wipe", "brush", "spray", "roll"})
        if (line.rfind(key, 0) == 0) return true;
    return false;
}

}  // namespace

TEST_CASE("a figure of a library file says its mark, its source and its spread, or is told at its line") {
    for (const std::string id : one_of_a_kind) {
        const auto lines = lines_in(library_text(id));
        const auto figures = figure_lines(lines);
        REQUIRE_FALSE(figures.empty());
        for (const auto i : figures) {
            const std::string& line = lines[i];
            INFO(id << ": " << line);
            const auto at = line.find("{") + 1;
            holds_fault(file_faults(with_line(lines, i, without(line, "sd = ", "mark"))), "key-missing", i + 1, at,
                        "has no sd");
            holds_fault(file_faults(with_line(lines, i, without(line, "mark = ", "source"))), "provenance-missing",
                        i + 1, at, "has no mark");
            holds_fault(file_faults(with_line(lines, i, line.substr(0, line.find(", source")) + " }")),
                        "provenance-missing", i + 1, at, "has no source");
            holds_fault(file_faults(with_line(lines, i, without(line, "value = ", "sd"))), "key-missing", i + 1, at,
                        "has no value");
        }
    }
}

TEST_CASE("a figure that a library file leaves out is told, unless another can stand for it") {
    for (const std::string id : one_of_a_kind) {
        const auto lines = lines_in(library_text(id));
        bool grain = false;
        for (const auto i : figure_lines(lines)) {
            grain = std::find(lines.begin(), lines.begin() + static_cast<std::ptrdiff_t>(i), "[grain]") !=
                    lines.begin() + static_cast<std::ptrdiff_t>(i);
            const auto found = file_faults(with_line(lines, i, ""));
            const std::string key = lines[i].substr(0, lines[i].find(' '));
            INFO(id << (grain ? " [grain] " : " ") << key);
            const bool told = std::any_of(found.begin(), found.end(), [&](const auto& p) {
                return p.id == "key-missing" && p.text.find(key) != std::string::npos;
            });
            // What a complete material may do without: a wood's tannin, and what only some coats and treatments have.
            const bool may_lack = key == "tannin_percent" || key == "pore_fill" || key == "half_tannin_percent";
            const bool either_will_do = can_be_left_out(lines[i]) && !(id == "water" || id == "ash");
            if (!either_will_do && !may_lack) CHECK(told);
        }
    }
}

TEST_CASE("a number without its provenance is refused in a library, at the number") {
    for (const std::string id : one_of_a_kind) {
        const auto lines = lines_in(library_text(id));
        for (const auto i : figure_lines(lines)) {
            const std::string key = lines[i].substr(0, lines[i].find(" ="));
            INFO(id << ": " << key);
            holds_fault(file_faults(with_line(lines, i, key + " = 1")), "provenance-missing", i + 1, key.size() + 4,
                        "must say where it comes from");
        }
    }
}

TEST_CASE("figures beyond what a finisher's material can be are refused with the range") {
    for (const std::string id : one_of_a_kind) {
        const auto lines = lines_in(library_text(id));
        for (const auto i : figure_lines(lines)) {
            const auto at = lines[i].find("value = ") + 8;
            for (const char* wild : {"1e9", "-1e9"}) {
                const auto text =
                    with_line(lines, i, lines[i].substr(0, at) + wild + lines[i].substr(lines[i].find(',')));
                INFO(lines[i]);
                holds_fault(file_faults(text), "value-range", i + 1, at + 1, "is outside");
            }
        }
    }
}

TEST_CASE("a material file says its format, its kind and its name") {
    const std::string text = library_text("water");
    const auto drop = [&](const std::string& start) {
        auto lines = lines_in(text);
        std::erase_if(lines, [&](const auto& l) { return l.rfind(start, 0) == 0; });
        return joined_lines(lines);
    };
    holds_fault(file_faults(drop("format")), "key-missing", 1, 1, "format = 1 is missing");
    holds_fault(file_faults(drop("kind")), "key-missing", 1, 1, "kind is missing: wood, dye, stock, pigment");
    holds_fault(file_faults(drop("name")), "key-missing", 1, 1, "name is missing");
    holds_fault(file_faults(text + "colour = 3\n"), "key-unknown", place_in(text + "colour", "colour").line, 1,
                "colour");
    CHECK(good_file(text).name == library().material("water").name);
}

TEST_CASE("a curve of a library file has a start, a step, values, a spread and a source, and covers the visible") {
    const std::string head =
        "format = 1\nkind = \"pigment\"\nname = \"x\"\ndensity_g_per_cm3 = { value = 5, sd = 1, mark "
        "= \"practice\", source = \"x\" }\n[absorption_m2_per_g]\n";
    const std::string other =
        "[scattering_m2_per_g]\nstart_nm = 400\nstep_nm = 20\nvalues = [1, 1, 1, 1, 1, 1, 1, 1, "
        "1, 1, 1, 1, 1, 1, 1, 1]\nsd = 0.1\nmark = \"memory\"\nsource = \"x\"\n";
    const std::string ones = "values = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]\n";
    const std::string from = "sd = 0.1\nmark = \"memory\"\nsource = \"x\"\n";
    const auto good = good_file(head + "start_nm = 400\nstep_nm = 20\n" + ones + from + other);
    const auto& p = std::get<material::Pigment>(good.data);
    CHECK(p.absorption_m2_per_g.values[4] == 1);                         // 400 nm
    CHECK(p.absorption_m2_per_g.values[64] == 16);                       // 700 nm
    CHECK(p.absorption_m2_per_g.values[80] == 16);                       // held to 780 nm
    CHECK(p.absorption_m2_per_g.values[6] == Approx(1.5).margin(1e-9));  // 410 nm
    CHECK(p.absorption_m2_per_g.held_above);
    CHECK(p.scattering_m2_per_g.values[30] == 1);
    const auto refused_curve = [&](const std::string& curve, const std::string& id, const std::string& words,
                                   const std::string& says) {
        const auto text = head + curve + other;
        const auto at = place_in(text, words);
        INFO(curve);
        holds_fault(file_faults(text), id, at.line, at.column, says);
    };
    const std::string start = "start_nm = 400\n", step = "step_nm = 20\n";
    refused_curve(step + ones + from, "key-missing", "[absorption_m2_per_g]", "start_nm is missing");
    refused_curve(start + ones + from, "key-missing", "[absorption_m2_per_g]", "step_nm is missing");
    refused_curve(start + step + from, "key-missing", "[absorption_m2_per_g]", "values is missing");
    refused_curve(start + step + ones + "mark = \"memory\"\nsource = \"x\"\n", "key-missing", "[absorption_m2_per_g]",
                  "has no sd");
    refused_curve(start + step + ones + "sd = 0.1\nmark = \"memory\"\n", "provenance-missing", "[absorption_m2_per_g]",
                  "has no source");
    refused_curve(start + step + ones + "sd = 0.1\nsource = \"x\"\n", "provenance-missing", "[absorption_m2_per_g]",
                  "has no mark");
    refused_curve(start + step + "values = [3]\n" + from, "spectrum-short", "values = [3]", "at least two values");
    refused_curve(start + step + "values = [1, 2, 3]\n" + from, "spectrum-range-nm",
                  start + step + "values = [1, 2, 3]", "from 400 to 440 nm");
    refused_curve(start + step + "values = [1, -2, 3]\n" + from, "value-range", "-2, 3", "at 420 nm = -2");
    refused_curve("start_nm = 410\nstep_nm = 19.5\n" + ones + from, "spectrum-range-nm", "start_nm = 410",
                  "at least 400 to 700");
    refused_curve("start_nm = 400\nstep_nm = 21\n" + ones + from, "value-range", "21\n", "0.1 to 20 nm");
    refused_curve(start + step + ones + from + "unit = 5\n", "key-unknown", "unit", "absorption_m2_per_g");
}

TEST_CASE("a powder names what dissolves it, a stock what it is in") {
    const auto lacking = [](const std::string& id, const std::string& start) {
        auto lines = lines_in(library_text(id));
        std::erase_if(lines, [&](const auto& l) { return l.rfind(start, 0) == 0; });
        return file_faults(joined_lines(lines));
    };
    holds_fault(lacking("acid-black-1", "carriers"), "key-missing", 1, 1, "carriers (what dissolves it) is missing");
    holds_fault(lacking("honey-dye", "carrier"), "key-missing", 1, 1, "carrier is missing");
    const auto dye = std::get<material::Dye>(good_file(library_text("acid-black-1")).data);
    CHECK(std::find(dye.carriers.begin(), dye.carriers.end(), "water") != dye.carriers.end());
}

TEST_CASE("parts of a stock say a powder and grams a litre") {
    const std::string head =
        "format = 1\nkind = \"stock\"\nname = \"x\"\ncarrier = \"water\"\nstrength = { value = 1, sd = "
        "0.1, mark = \"practice\", source = \"x\" }\n";
    const auto m = good_file(head +
                             "mix = [ { use = \"acid-black-1\", g_per_l = 2.5 }, { use = \"acid-red-1\", g_per_l = "
                             "4 } ]\n");
    const auto& s = std::get<material::Stock>(m.data);
    CHECK(s.carrier == "water");
    REQUIRE(s.mix.size() == 2);
    CHECK(s.mix[0].use == "acid-black-1");
    CHECK(s.mix[1].g_per_l == 4);
    const auto refused_mix = [&](const std::string& mix, const std::string& id, const std::string& words,
                                 const std::string& says) {
        const auto at = place_in(head + mix, words);
        INFO(mix);
        holds_fault(file_faults(head + mix), id, at.line, at.column, says);
    };
    refused_mix("mix = [ { use = \"acid-black-1\" } ]\n", "key-missing", "{ use", "needs use and g_per_l");
    refused_mix("mix = [ { g_per_l = 1 } ]\n", "key-missing", "{ g_per_l", "needs use and g_per_l");
    refused_mix("mix = [ 5 ]\n", "value-type", "5 ]", "each part of a stock");
    refused_mix("mix = [ { use = \"acid-black-1\", g_per_l = 0 } ]\n", "value-range", "0 } ]", "1000 g/L");
    refused_mix("mix = [ { use = \"acid-black-1\", ml_per_l = 1 } ]\n", "key-unknown", "ml_per_l", "a part of a stock");
    holds_fault(file_faults(head), "key-missing", 1, 1, "mix = [ { use = \"dye\", g_per_l = 10 } ] is missing");
    holds_fault(file_faults(head + "mix = []\n"), "key-missing", 1, 1, "is missing");
}

TEST_CASE("a film says its color and its solids, one way or the other") {
    auto lines = lines_in(library_text("oil-varnish"));
    const auto drop = [&](std::initializer_list<const char*> starts) {
        auto left = lines;
        std::erase_if(left, [&](const auto& l) {
            return std::any_of(starts.begin(), starts.end(), [&](const char* s) { return l.rfind(s, 0) == 0; });
        });
        return file_faults(joined_lines(left));
    };
    CHECK(drop({"gardner_solids"}).empty());
    CHECK(drop({"wipe", "roll"}).empty());
    holds_fault(drop({"gardner"}), "key-missing", 1, 1, "its color is missing: gardner, or a table absorption_per_mm");
    holds_fault(drop({"solids_volume_percent"}), "key-missing", 1, 1,
                "solids_volume_percent (or resin_density_g_per_ml");
    const auto m = good_file(joined_lines(lines));
    const auto& b = std::get<material::Binder>(m.data);
    CHECK(b.carrier == "mineral-spirits");
    CHECK((b.solids_volume_percent && b.density_g_per_ml && !b.resin_density_g_per_ml && !b.cut_lb));
    const auto shellac = std::get<material::Binder>(good_file(library_text("orange-shellac")).data);
    CHECK((!shellac.solids_volume_percent && shellac.resin_density_g_per_ml && shellac.cut_lb));
}
