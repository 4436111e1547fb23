#include "foretone/format/open_pbr.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include <catch2/catch.hpp>
#include <pugixml.hpp>

#include "support/pictures/example_surfaces.hpp"
#include "support/pictures/renderer.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone;

namespace {

std::array<double, 3> triple(const std::string& text) {
    std::array<double, 3> out{};
    std::size_t at = 0, used = 0;
    for (std::size_t i = 0; i < 3; ++i) {
        out[i] = std::stod(text.substr(at), &used);
        at = std::min(text.size(), at + used + 1);
        if (at >= text.size()) return i == 0 ? std::array<double, 3>{out[0], out[0], out[0]} : out;
    }
    return out;
}

test::Parameters parameters(const pugi::xml_node& shader) {
    test::Parameters out;
    for (const auto& input : shader.children("input"))
        if (input.attribute("value")) out[input.attribute("name").value()] = triple(input.attribute("value").value());
    return out;
}

const format::FibreGlint across_glint{0.12, 0.3};

}  // namespace

TEST_CASE("OpenPBR: what is written reads back at 45/0 as the board under D65", "[open-pbr]") {
    const auto lights = test::fit_lights();
    double worst = 0, worst_rgb = 0;
    int clipped = 0, count = 0;
    std::string where;
    for (const auto& surface : test::example_surfaces()) {
        for (const auto& fibre : {format::FibreGlint{}, across_glint}) {
            const auto fit = format::fit_open_pbr(surface, lights, fibre);
            pugi::xml_document doc;
            const std::string text = format::open_pbr_mtlx(fit.material, {"board", "", "", 0, 0});
            REQUIRE(doc.load_buffer(text.data(), text.size()));
            const auto read = test::open_pbr_reading(parameters(doc.child("materialx").child("open_pbr_surface")));
            const auto loss = format::loss_of(read, surface.reflectance, lights);
            // The loss that is told is the one of the document, evaluated by other hands.
            worst_rgb = test::worst_of({worst_rgb, std::abs(loss.d65 - fit.loss.d65), std::abs(loss.a - fit.loss.a)});
            ++count;
            clipped += fit.loss.clipped;
            if (!fit.loss.clipped && test::worse(loss.d65, worst))
                worst = loss.d65, where = "surface " + std::to_string(count) + ", n " + std::to_string(surface.n) +
                                          ", alpha " + std::to_string(surface.alpha);
        }
    }
    INFO(where << "; clipped " << clipped << " of " << count);
    CHECK(worst < 0.01);
    CHECK(worst_rgb < 1e-4);
    CHECK(clipped < count / 10);
}

TEST_CASE("OpenPBR: every parameter written is one of the standard's, of its type, once", "[open-pbr]") {
    // Names and types of the node as MaterialX 1.39.4 defines it (open_pbr_surface, version 1.1).
    std::map<std::string, std::string> known;
    for (const auto& row : test::table("open_pbr_inputs.csv")) known[row.text("input")] = row.text("type");
    REQUIRE(known.size() == 41);
    const auto lights = test::fit_lights();
    const auto fit = format::fit_open_pbr(test::example_surface(3, 0.9, 0.5), lights, across_glint);
    const std::string text =
        format::open_pbr_mtlx(fit.material, {"pine & \"oak\" 2", "a -- b --", "a<b>.png", 0.3, 0.2});
    INFO(text);
    pugi::xml_document doc;
    REQUIRE(doc.load_buffer(text.data(), text.size(), pugi::parse_default | pugi::parse_comments));
    const auto root = doc.child("materialx");
    CHECK(std::string(root.attribute("version").value()) == "1.39");
    CHECK(std::string(root.attribute("colorspace").value()) == "lin_rec709");
    const auto shader = root.child("open_pbr_surface");
    CHECK(std::string(shader.attribute("type").value()) == "surfaceshader");
    std::set<std::string> nodes, seen;
    for (const auto& node : root.children())
        if (node.type() == pugi::node_element) nodes.insert(node.attribute("name").value());
    for (const auto& input : shader.children("input")) {
        const std::string name = input.attribute("name").value();
        INFO(name);
        REQUIRE(known.count(name));
        CHECK(known[name] == input.attribute("type").value());
        CHECK(seen.insert(name).second);
        CHECK((input.attribute("value") || nodes.count(input.attribute("nodename").value())));
    }
    CHECK(seen.count("base_color"));
    CHECK(seen.count("geometry_tangent"));
    const auto material = root.child("surfacematerial");
    CHECK(std::string(material.attribute("name").value()) == "pine____oak__2");
    CHECK(std::string(material.child("input").attribute("nodename").value()) == shader.attribute("name").value());
    const auto file = root.child("image").child("input");
    CHECK(std::string(file.attribute("value").value()) == "a<b>.png");
    CHECK(std::string(file.attribute("colorspace").value()) == "srgb_texture");
}

TEST_CASE("OpenPBR: a bare board has no coat and no gloss, a covered one its film's", "[open-pbr]") {
    const auto lights = test::fit_lights();
    const auto bare = format::fit_open_pbr(test::example_surface(5, 0, 0.6), lights).material;
    CHECK(bare.coat_weight == 0);
    CHECK(bare.specular_weight == 0);
    CHECK(bare.coat_color == format::Rgb{1, 1, 1});
    auto surface = test::example_surface(5, 1, 0.6);
    surface.alpha = 0.09;
    const auto coated = format::fit_open_pbr(surface, lights).material;
    CHECK(coated.coat_weight == 1);
    CHECK_THAT(coated.coat_roughness, test::Near(0.3, 1e-6));  // OpenPBR 1.1: α is the roughness squared
    CHECK_THAT(coated.coat_ior, test::Near(surface.n, 1e-6));
    const auto tint = format::linear_srgb(surface.film_twice, lights);
    for (std::size_t c = 0; c < 3; ++c) CHECK_THAT(coated.coat_color[c], test::Near(std::min(1.0, tint[c]), 1e-6));
    // Under a clear coat the same reading needs a paler base: part of what comes up goes down again.
    CHECK(coated.base_color[1] > bare.base_color[1]);
}

TEST_CASE("OpenPBR: the closed form inverts itself for any weight and darkening", "[open-pbr]") {
    for (const double w : {0.0, 0.2, 0.7, 1.0})
        for (const double darkening : {0.0, 0.5, 1.0})
            for (const double b : {0.0, 0.05, 0.5, 0.97}) {
                format::OpenPbr m;
                m.coat_weight = w;
                m.coat_darkening = darkening;
                m.coat_roughness = 0.4;
                m.coat_ior = 1.52;
                m.coat_color = {0.9, 0.7, 0.3};
                m.base_color = {b, b / 2, b / 3};
                const auto back = format::base_solver(m)(format::reading_45_0(m));
                for (std::size_t c = 0; c < 3; ++c) CHECK_THAT(back[c], test::Near(m.base_color[c], test::closed_form));
            }
}
