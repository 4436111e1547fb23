#include "foretone/job/export.hpp"

#include <lcms2.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <regex>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>

#include "support/demo.hpp"
#include "foretone/appearance/tones.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/measure/cgats.hpp"
#include "foretone/format/spectral_exr.hpp"
#include "foretone/job/board.hpp"
#include "support/pictures/exr_reader.hpp"
#include "support/pictures/png_reader.hpp"
#include "support/pictures/renderer.hpp"
#include "support/standards.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using job::ExportKind;

namespace {

scene::Scene stool() { return scene::read_scene(std::string(FORETONE_SCENES) + "/stool-maple.toml", test::library()); }

job::ExportRequest small(std::vector<ExportKind> kinds) {
    job::ExportRequest r;
    r.kinds = std::move(kinds);
    r.width_mm = 60;
    r.height_mm = 40;
    r.mm_per_px = 1;
    r.seed = 7;
    r.precision = format::Precision::full;
    return r;
}

std::map<std::string, std::vector<std::uint8_t>> by_name(const job::Export& made) {
    std::map<std::string, std::vector<std::uint8_t>> out;
    for (const auto& f : made.files) out[f.file.path.generic_string()] = f.file.bytes;
    return out;
}

std::string text_of(const std::vector<std::uint8_t>& bytes) { return {bytes.begin(), bytes.end()}; }

std::array<double, 3> numbers(const std::string& text) {
    const std::regex one("[-+0-9.eE]+");
    std::vector<double> found;
    for (std::sregex_iterator it(text.begin(), text.end(), one), end; it != end; ++it)
        found.push_back(std::stod(it->str()));
    return found.size() == 3 ? std::array<double, 3>{found[0], found[1], found[2]}
                             : std::array<double, 3>{found.at(0), found.at(0), found.at(0)};
}

test::Parameters mtlx_parameters(const std::string& text) {
    pugi::xml_document doc;
    REQUIRE(doc.load_buffer(text.data(), text.size()));
    test::Parameters out;
    for (const auto& input : doc.child("materialx").child("open_pbr_surface").children("input"))
        if (input.attribute("value")) out[input.attribute("name").value()] = numbers(input.attribute("value").value());
    return out;
}

test::Parameters gltf_parameters(const nlohmann::json& material) {
    test::Parameters out;
    const auto take = [&](const nlohmann::json& from) {
        for (const auto& [key, v] : from.items())
            if (v.is_number())
                out[key] = {v, v, v};
            else if (v.is_array())
                out[key] = {v[0], v[1], v[2]};
    };
    take(material["pbrMetallicRoughness"]);
    for (const auto& [name, extension] : material["extensions"].items()) take(extension);
    return out;
}

// "… 0.12 under D65, 3.45 under lamp A …" as hundredths.
std::pair<double, double> stated_losses(const std::string& text) {
    std::smatch m;
    REQUIRE(std::regex_search(text, m, std::regex("mean wood: ([0-9.]+) under D65, ([0-9.]+) under lamp A")));
    return {std::stod(m[1]), std::stod(m[2])};
}

// Reading at 45/0 of a finish's last state where the wood is of the shade and uptake said, by direct solving.
spectral::Spectrum solved(const scene::Scene& s, std::size_t finish, double shade, double uptake) {
    const auto& wood = std::get<material::Wood>(s.materials.at(s.wood).data);
    const auto state = appearance::boards(s.materials, s.wood, s.finishes[finish]).back();
    return appearance::render(appearance::at_uptake(state, uptake), appearance::shaded(wood, shade), s.look.geometry,
                              appearance::two_flux_solver())
        .total();
}

}  // namespace

TEST_CASE("boards in spectra and in linear light show at each pixel what solving that spot shows", "[export]") {
    const auto s = stool();
    const auto made = job::export_scene(s, test::library(), small({ExportKind::exr, ExportKind::spectral_exr}), "");
    const auto files = by_name(made);
    const auto maps =
        grain::grain(std::get<material::Wood>(s.materials.at(s.wood).data), grain::Cut::flat, 60, 40, 1, 7);
    const auto eye = test::observer("2deg");
    double worst_r = 0, worst_de = 0, worst_preview = 0;
    std::string where;
    for (const auto& [file, light] : std::map<std::string, std::string>{{"d65", "D65"}, {"a", "A"}}) {
        const auto w = color::make_weights(test::light(light), eye);
        const auto linear = test::read_exr(files.at("stool-maple-dye-shellac-waterborne-" + file + ".exr"));
        const auto spectra = test::read_exr(files.at("stool-maple-dye-shellac-waterborne-spectral.exr"));
        CHECK(linear.order == std::vector<std::string>{"B", "G", "R"});
        CHECK(linear.texts.at("light") == light);
        CHECK(linear.texts.at("title") == "Piano stool, hard maple: dye, shellac, waterborne");
        CHECK(linear.texts.at("restsOn").find("memory") == 0);
        CHECK_THAT(linear.numbers.at("xDensity")[0], test::Near(25.4, 1e-4));
        REQUIRE(spectra.order.size() == 84);
        for (std::size_t p = 5; p < maps.shade.size(); p += 211) {
            const auto r = solved(s, 2, maps.shade[p], maps.uptake[p]);
            spectral::Spectrum stored;
            for (std::size_t i = 0; i < r.size(); ++i) {
                stored[i] = spectra.channels.at(format::reflective_channel(spectral::grid_nm(i)))[p];
                worst_r = test::worst_of(worst_r, std::abs(stored[i] - r[i]));
            }
            const auto lab = color::to_lab(color::xyz(r, w), w.white);
            const auto rgb =
                format::Rgb{linear.channels.at("R")[p], linear.channels.at("G")[p], linear.channels.at("B")[p]};
            const auto due = format::linear_srgb(color::xyz(r, w), w.white);
            format::Rgb coded = rgb, coded_due = due;
            for (std::size_t c = 0; c < 3; ++c)
                coded[c] = color::srgb_encode(rgb[c]), coded_due[c] = color::srgb_encode(due[c]);
            const double de = color::delta_e_00(color::to_lab(color::srgb_to_xyz(coded), color::srgb_white),
                                                color::to_lab(color::srgb_to_xyz(coded_due), color::srgb_white));
            if (test::worse(de, worst_de))
                worst_de = de, where = light + ", pixel " + std::to_string(p) + ", L* " + std::to_string(lab.l);
            if (light == "D65") {
                // The preview is the spectra's own color under the first light.
                const auto own = format::linear_srgb(color::xyz(stored, w), w.white);
                worst_preview =
                    test::worst_of(worst_preview, std::abs(own[1] - static_cast<double>(spectra.channels.at("G")[p])));
            }
        }
    }
    INFO(where);
    CHECK(worst_r < 2e-4);  // tones.hpp: 1e-4 within its default range; a board's blackest pores lie beyond
    CHECK(worst_de < 0.1);  // tones.hpp
    CHECK(worst_preview < 1e-3);
}

TEST_CASE("fields hold the stages' own reflectances, one row a finish", "[export]") {
    const auto made = job::export_scene(stool(), test::library(), small({ExportKind::spectral_exr}), "");
    const auto file = test::read_exr(by_name(made).at("stool-maple-fields-spectral.exr"));
    const auto& finishes = made.preview.finishes;
    std::size_t columns = 0, wrong = 0;
    for (const auto& f : finishes) columns = std::max(columns, f.stages.size());
    REQUIRE(file.width == static_cast<int>(64 * columns));
    REQUIRE(file.height == static_cast<int>(64 * finishes.size()));
    for (std::size_t i = 0; i < spectral::grid_size; ++i) {
        const auto& plane = file.channels.at(format::reflective_channel(spectral::grid_nm(i)));
        for (std::size_t f = 0; f < finishes.size(); ++f)
            for (std::size_t c = 0; c < columns; ++c) {
                const float due =
                    c < finishes[f].stages.size() ? static_cast<float>(finishes[f].stages[c].reflectance[i]) : 0.0f;
                for (const std::size_t at : {std::size_t{0}, std::size_t{63}})
                    wrong += plane[(64 * f + at) * static_cast<std::size_t>(file.width) + 64 * c + at] != due;
            }
    }
    CHECK(wrong == 0);
    CHECK(file.texts.at("comments").find("clear only (bare, coated, coated, finished)") != std::string::npos);
}

TEST_CASE("the loss that a material tells is the loss of what it holds", "[export]") {
    const auto s = stool();
    const auto lights = test::fit_lights();
    auto request = small({ExportKind::open_pbr, ExportKind::gltf});
    request.grain = false;
    const auto made = job::export_scene(s, test::library(), request, "");
    REQUIRE(made.files.size() == 6);
    REQUIRE(made.materials.size() == 6);
    for (std::size_t i = 0; i < 3; ++i) {
        const auto& finish = s.finishes[i].name;
        INFO(finish);
        const auto reflectance = solved(s, i, 0, 1);
        const std::string mtlx = text_of(made.files[2 * i].file.bytes);
        const auto doc = nlohmann::json::parse(text_of(made.files[2 * i + 1].file.bytes));
        const auto& extras = doc["materials"][0]["extras"];
        const auto open_pbr = format::loss_of(test::open_pbr_reading(mtlx_parameters(mtlx)), reflectance, lights);
        const auto gltf =
            format::loss_of(test::gltf_reading(gltf_parameters(doc["materials"][0])), reflectance, lights);
        CHECK_THAT(stated_losses(mtlx).first, test::Near(open_pbr.d65, 0.006));  // two decimals
        CHECK_THAT(stated_losses(mtlx).second, test::Near(open_pbr.a, 0.006));
        CHECK_THAT(stated_losses(extras["loss"]).first, test::Near(gltf.d65, 0.006));
        CHECK_THAT(extras["loss_dE00_D65"].get<double>(), test::Near(gltf.d65, 1e-4));
        CHECK_THAT(extras["loss_dE00_A"].get<double>(), test::Near(gltf.a, 1e-4));
        CHECK(open_pbr.d65 < 0.01);
        CHECK(gltf.d65 < 0.01);
        CHECK(gltf.a > 1);  // three channels under a lamp do lose
        CHECK(mtlx.find("name=\"specular_roughness_anisotropy\"") != std::string::npos);
        CHECK(doc["materials"][0]["extensions"].count("KHR_materials_anisotropy") == 1);
        CHECK(mtlx.find("Rests on: memory") != std::string::npos);
    }
}

TEST_CASE("the loss told of a material's picture is that of its texels", "[export]") {
    const auto s = stool();
    const auto lights = test::fit_lights();
    auto request = small({ExportKind::open_pbr, ExportKind::gltf});
    request.finishes = {"dye, shellac, waterborne"};
    const auto files = by_name(job::export_scene(s, test::library(), request, ""));
    const auto maps =
        grain::grain(std::get<material::Wood>(s.materials.at(s.wood).data), grain::Cut::flat, 60, 40, 1, 7);
    const std::string stem = "stool-maple-dye-shellac-waterborne";
    const std::string mtlx = text_of(files.at(stem + ".mtlx"));
    CHECK(mtlx.find("value=\"" + stem + "-openpbr-base.png\" colorspace=\"srgb_texture\"") != std::string::npos);
    const auto texture = test::read_png(files.at(stem + "-openpbr-base.png"));
    CHECK(texture.srgb_intent == 0);
    REQUIRE(texture.image.width == 60);
    auto p = mtlx_parameters(mtlx);
    double mean = 0, worst = 0;
    int samples = 0;
    for (std::size_t i = 0; i < maps.shade.size(); i += 17, ++samples) {
        for (std::size_t c = 0; c < 3; ++c)
            p["base_color"][c] = color::srgb_decode(texture.image.rgb[3 * i + c] / 255.0);
        const auto loss =
            format::loss_of(test::open_pbr_reading(p), solved(s, 2, maps.shade[i], maps.uptake[i]), lights);
        mean += loss.d65;
        worst = test::worst_of(worst, loss.d65);
    }
    mean /= samples;
    std::smatch m;
    REQUIRE(std::regex_search(mtlx, m, std::regex("texels: mean ([0-9.]+) and worst ([0-9.]+) under D65")));
    CHECK_THAT(std::stod(m[1]), test::Near(mean, 0.02));  // a seventeenth of the texels
    CHECK(worst <= std::stod(m[2]) + 0.02);               // table against direct solving at the worst one
    CHECK(worst < 1);
    const auto doc = nlohmann::json::parse(text_of(files.at(stem + ".gltf")));
    CHECK(doc["materials"][0]["extras"]["texels_dE00_D65_worst"].get<double>() < 1);
}

TEST_CASE("LittleCMS and the reader of measured boards take the palette, with every value", "[export]") {
    const auto s = stool();
    const auto made = job::export_scene(s, test::library(), small({ExportKind::palette}), "");
    REQUIRE(made.files.size() == 2);
    const std::string text = text_of(made.files[0].file.bytes);
    CHECK(made.files[0].file.path == "stool-maple-palette-d65.txt");
    cmsHANDLE it8 = cmsIT8LoadFromMem(nullptr, text.data(), static_cast<cmsUInt32Number>(text.size()));
    REQUIRE(it8 != nullptr);
    CHECK(std::string(cmsIT8GetProperty(it8, "ILLUMINATION_NAME")) == "D65");
    std::size_t samples = 0;
    double worst = 0;
    for (const auto& f : made.preview.finishes)
        for (const auto& stage : f.stages) {
            const int row = static_cast<int>(samples++);
            const auto number = [&](const std::string& column) {
                return cmsIT8GetDataRowColDbl(it8, row, cmsIT8FindDataFormat(it8, column.c_str()));
            };
            const auto words = [&](const std::string& column) {
                return std::string(cmsIT8GetDataRowCol(it8, row, cmsIT8FindDataFormat(it8, column.c_str())));
            };
            CHECK(words("FINISH") == f.name);
            CHECK(words("STAGE") == appearance::word(stage.stage.kind));
            CHECK(words("SRGB_HEX") == stage.colors[0].screen.hex().substr(1));
            CHECK_THAT(number("LAB_L"), test::Near(stage.colors[0].lab.l, 6e-5));
            CHECK_THAT(number("LAB_B"), test::Near(stage.colors[0].lab.b, 6e-5));
            CHECK_THAT(number("XYZ_X"), test::Near(stage.colors[0].xyz.x, 6e-5));
            CHECK_THAT(number("STDEV_DE"), test::Near(stage.colors[0].spread_de00, 6e-4));
            for (std::size_t i = 0; i < spectral::grid_size; ++i)
                worst = test::worst_of(
                    worst, std::abs(number("SPECTRAL_NM_" + std::to_string(380 + 5 * i)) - stage.reflectance[i]));
        }
    CHECK(worst <= 5.1e-7);  // six decimals
    CHECK(std::string(cmsIT8GetProperty(it8, "NUMBER_OF_SETS")) == std::to_string(samples));
    cmsIT8Free(it8);
    const auto read = measure::read_cgats(text);
    CHECK(read.readings.size() == samples);
    CHECK(read.readings.back().light == "D65");
}

TEST_CASE("an export is the same bytes again, and another board with another seed", "[export]") {
    const auto s = stool();
    auto request = small({});
    request.finishes = {"clear only"};
    const auto once = by_name(job::export_scene(s, test::library(), request, "x")),
               again = by_name(job::export_scene(s, test::library(), request, "x"));
    CHECK(once == again);
    CHECK(once.size() ==
          2 + 2 + 1 + 1 + 2 + 1 +
              2);  // boards, fields, board and fields in spectra, OpenPBR and its picture, glTF, palettes
    request.seed = 8;
    request.kinds = {ExportKind::gltf};
    CHECK(by_name(job::export_scene(s, test::library(), request, "x")).begin()->second !=
          once.at("x/stool-maple-clear-only.gltf"));
    CHECK(job::seed_of("a") ==
          (0xaf63dc4c8601ec8cu & job::largest_seed));  // FNV-1a of "a": Noll's published test vector
}

TEST_CASE("what cannot be exported is refused with its id, the value and the choices", "[export]") {
    const auto s = stool();
    const auto refuses = [&](const job::ExportRequest& r, const std::string& id, const std::string& words) {
        try {
            job::export_scene(s, test::library(), r, "");
            FAIL("not refused: " + id);
        } catch (const scene::InputError& e) {
            CHECK(e.problems.front().id == id);
            CHECK_THAT(e.problems.front().text, Catch::Contains(words));
        }
    };
    auto r = small({ExportKind::palette});
    r.finishes = {"clear onyl"};
    refuses(r, "finish-unknown", "clear only");
    r = small({ExportKind::palette});
    r.lights = {"D66"};
    refuses(r, "light-unknown", "D65");
    r = small({ExportKind::exr});
    r.width_mm = 4000;
    refuses(r, "size-range", "got 4000 by 40");
    r = small({ExportKind::exr});
    r.mm_per_px = 0.001;
    refuses(r, "size-range", "got 0.001");
    r = small({ExportKind::exr});
    r.width_mm = r.height_mm = 3000;
    r.mm_per_px = 0.2;
    refuses(r, "export-large", "225 million");
    r.kinds = {ExportKind::spectral_exr};
    r.mm_per_px = 0.5;
    refuses(r, "export-large", "48.39 GB");
}
