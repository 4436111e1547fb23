#include "foretone/format/gltf.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/pictures/example_surfaces.hpp"
#include "foretone/format/png.hpp"
#include "support/pictures/renderer.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using Json = nlohmann::json;

namespace {

std::array<double, 3> numbers(const Json& j) {
    if (j.is_number()) return {j, j, j};
    return {j[0], j[1], j[2]};
}

// All factors of the first material by their names in the file.
test::Parameters parameters(const Json& doc) {
    test::Parameters out;
    const auto take = [&](const Json& from) {
        for (const auto& [key, value] : from.items())
            if (value.is_number() || (value.is_array() && value.size() >= 3)) out[key] = numbers(value);
    };
    const auto& m = doc["materials"][0];
    take(m["pbrMetallicRoughness"]);
    for (const auto& [name, extension] : m["extensions"].items()) take(extension);
    return out;
}

// RFC 4648 by the definition, to read what base64.cpp writes.
std::vector<std::uint8_t> from_base64(const std::string& text) {
    const std::string digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::vector<std::uint8_t> out;
    std::uint32_t bits = 0;
    int have = 0;
    for (const char c : text) {
        if (c == '=') break;
        bits = bits << 6 | static_cast<std::uint32_t>(digits.find(c));
        if ((have += 6) >= 8) out.push_back(static_cast<std::uint8_t>(bits >> (have -= 8)));
    }
    return out;
}

std::vector<std::uint8_t> data_of(const std::string& uri) { return from_base64(uri.substr(uri.find(',') + 1)); }

const format::FibreGlint glint{0.12, 0.3};

}  // namespace

TEST_CASE("glTF: what is written reads back at 45/0 as the board under D65", "[gltf]") {
    const auto lights = test::fit_lights();
    double worst = 0, worst_stated = 0;
    int clipped = 0, count = 0;
    std::string where;
    for (const auto& surface : test::example_surfaces()) {
        for (const auto& fibre : {format::FibreGlint{}, glint}) {
            const auto fit = format::fit_gltf(surface, lights, fibre);
            const auto doc = Json::parse(format::gltf(fit.material, {}));
            const auto loss = format::loss_of(test::gltf_reading(parameters(doc)), surface.reflectance, lights);
            worst_stated =
                test::worst_of({worst_stated, std::abs(loss.d65 - fit.loss.d65), std::abs(loss.a - fit.loss.a)});
            ++count;
            clipped += fit.loss.clipped;
            if (!fit.loss.clipped && test::worse(loss.d65, worst))
                worst = loss.d65, where = "surface " + std::to_string(count);
        }
    }
    INFO(where << "; clipped " << clipped << " of " << count);
    CHECK(worst < 0.01);
    CHECK(worst_stated < 1e-4);
    CHECK(clipped < count / 10);
}

TEST_CASE("glTF: roughness is the root of the facets' roughness, colors are linear, metal is none", "[gltf]") {
    auto surface = test::example_surface(8, 1, 0.5);
    surface.alpha = 0.16;
    const auto fit = format::fit_gltf(surface, test::fit_lights());
    const auto doc = Json::parse(format::gltf(fit.material, {}));
    const auto& m = doc["materials"][0];
    CHECK_THAT(m["extensions"]["KHR_materials_clearcoat"]["clearcoatRoughnessFactor"].get<double>(),
               test::Near(0.4, 1e-6));
    CHECK(m["extensions"]["KHR_materials_specular"]["specularFactor"] == 0.0);
    CHECK(m["extensions"].count("KHR_materials_anisotropy") == 0);
    CHECK(m["pbrMetallicRoughness"]["metallicFactor"] == 0.0);
    // Linear: by far the most of the board's reading at 45/0 in linear sRGB is the base color.
    const auto wanted = format::linear_srgb(surface.reflectance, test::fit_lights());
    CHECK_THAT(m["pbrMetallicRoughness"]["baseColorFactor"][1].get<double>(), test::Near(wanted[1], 0.05));
    CHECK(m["pbrMetallicRoughness"]["baseColorFactor"][3] == 1.0);
}

TEST_CASE("glTF: fibres glint across the grain and send their share of the light", "[gltf]") {
    const auto lights = test::fit_lights();
    const auto surface = test::example_surface(9, 1, 0.5);
    const auto doc = Json::parse(format::gltf(format::fit_gltf(surface, lights, glint).material, {}));
    const auto& a = doc["materials"][0]["extensions"]["KHR_materials_anisotropy"];
    CHECK(a["anisotropyStrength"] == 1.0);
    CHECK_THAT(a["anisotropyRotation"].get<double>(), test::Near(3.14159265 / 2, 1e-6));
    // Without the base color and without the coat what is left is the fibres: their share of the light from below.
    auto p = parameters(doc);
    const auto whole = test::gltf_reading(p);
    p["clearcoatRoughnessFactor"] = {0, 0, 0};
    const auto below = test::gltf_reading(p);
    p["baseColorFactor"] = {0, 0, 0};
    const auto fibres = test::gltf_reading(p);
    for (std::size_t c = 0; c < 3; ++c) {
        CHECK_THAT(fibres[c] / below[c], test::Near(glint.share, 0.002));  // Schlick's 2.6e-6 at 22.5°, six decimals
        CHECK(whole[c] > below[c]);
    }
}

TEST_CASE("a cone of fibres becomes the facets that mirror as widely", "[gltf]") {
    // β = 0.2 inside n = 1.5: facet tilts of one standard deviation 0.15, Beckmann roughness √2 times that (Walter et
    // al. 2007).
    CHECK_THAT(format::fibre_glint(0.1, 0.2, 1.5).along, test::Near(0.15 * std::sqrt(2.0), test::identity));
    CHECK_THROWS_WITH(format::fibre_glint(0.6, 0.2, 1.5), Catch::Contains("is 0.6"));
    CHECK_THROWS_WITH(format::fibre_glint(0.1, 0, 1.5), Catch::Contains("is 0"));
}

TEST_CASE("glTF: the board has its size, faces +z, carries grain along u and its picture upright", "[gltf]") {
    const std::vector<std::uint8_t> png = format::encode_png(light::Image::filled(3, 2, {10, 20, 30}));
    const format::GltfBoard board{0.6, 0.25, png, "ash \"A\"", "foretone", {{"title", "bench"}}, {{"loss", 0.5}}};
    const auto doc = Json::parse(format::gltf({}, board));
    CHECK(doc["asset"]["version"] == "2.0");
    CHECK(doc["materials"][0]["extras"]["title"] == "bench");
    CHECK(doc["materials"][0]["extras"]["loss"] == 0.5);
    CHECK(data_of(doc["images"][0]["uri"]) == png);
    CHECK(doc["materials"][0]["pbrMetallicRoughness"]["baseColorTexture"]["index"] == 0);
    CHECK(doc["materials"][0]["pbrMetallicRoughness"].count("baseColorFactor") == 0);
    for (const auto& name : doc["extensionsUsed"])
        CHECK(doc["materials"][0]["extensions"].count(name.get<std::string>()) == 1);
    CHECK(doc["extensionsUsed"].size() == doc["materials"][0]["extensions"].size());

    const auto bytes = data_of(doc["buffers"][0]["uri"]);
    REQUIRE(bytes.size() == doc["buffers"][0]["byteLength"].get<std::size_t>());
    const auto at = [&](const char* attribute, std::size_t corner, std::size_t part) {
        const auto& accessor =
            doc["accessors"][doc["meshes"][0]["primitives"][0]["attributes"][attribute].get<std::size_t>()];
        const auto& view = doc["bufferViews"][accessor["bufferView"].get<std::size_t>()];
        const std::size_t parts = accessor["type"] == "VEC4" ? 4 : accessor["type"] == "VEC3" ? 3 : 2;
        float v = 0;
        std::memcpy(&v, bytes.data() + view["byteOffset"].get<std::size_t>() + 4 * (parts * corner + part), 4);
        return static_cast<double>(v);
    };
    for (std::size_t i = 0; i < 4; ++i) {
        const double x = at("POSITION", i, 0), y = at("POSITION", i, 1);
        CHECK(std::abs(x) == static_cast<double>(0.3f));
        CHECK(std::abs(y) == 0.125);
        CHECK(at("NORMAL", i, 2) == 1);
        CHECK(at("TANGENT", i, 0) == 1);
        // Left is u = 0, the top row of the picture is v = 0.
        CHECK(at("TEXCOORD_0", i, 0) == (x > 0 ? 1 : 0));
        CHECK(at("TEXCOORD_0", i, 1) == (y > 0 ? 0 : 1));
    }
    // Both triangles run counter-clockwise seen from +z.
    const auto& view = doc["bufferViews"][4];
    for (std::size_t t = 0; t < 2; ++t) {
        std::array<std::size_t, 3> k{};
        for (std::size_t i = 0; i < 3; ++i) k[i] = bytes[view["byteOffset"].get<std::size_t>() + 2 * (3 * t + i)];
        const double ax = at("POSITION", k[1], 0) - at("POSITION", k[0], 0),
                     ay = at("POSITION", k[1], 1) - at("POSITION", k[0], 1);
        const double bx = at("POSITION", k[2], 0) - at("POSITION", k[0], 0),
                     by = at("POSITION", k[2], 1) - at("POSITION", k[0], 1);
        CHECK(ax * by - ay * bx > 0);
    }
    CHECK_THROWS_WITH(format::gltf({}, {0, 1, {}, "", "", {}, {}}), Catch::Contains("got 0 by 1 m"));
}
