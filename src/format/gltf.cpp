// glTF 2.0, appendix B (metallic-roughness, dielectric part) with KHR_materials_clearcoat, _ior, _specular and
// _anisotropy.
//
// fresnel_coat takes its Fresnel factor at the normal: 0.04 for an eye along it. fresnel_mix takes its own at the half
// vector, 22.5°, by Schlick's formula, and takes the largest component off what lies below.

#include "foretone/format/gltf.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include <nlohmann/json.hpp>

#include "base64.hpp"
#include "foretone/spectral/text.hpp"
#include "normal_reflectance.hpp"
#include "round6.hpp"

namespace foretone::format {
namespace {

constexpr double coat_f0 = 0.04;  // fixed by KHR_materials_clearcoat (index 1.5)

// What does not depend on the base color.
struct GltfTerms {
    double through, coat, largest = 0, lobe = 0;
    Rgb fresnel{};
    explicit GltfTerms(const GltfMaterial& m) {
        const double alpha = m.clearcoat_roughness * m.clearcoat_roughness;
        coat = coat_f0 * m.clearcoat * lobe_45_0(alpha, alpha);
        through = 1 - coat_f0 * m.clearcoat;
        const double grazing = std::pow(1 - std::cos(std::numbers::pi / 8), 5);
        for (std::size_t c = 0; c < 3; ++c) {
            const double normal = std::min(f0(m.ior) * m.specular_color[c], 1.0) * m.specular;
            fresnel[c] = normal + (m.specular - normal) * grazing;
            largest = std::max(largest, fresnel[c]);
        }
        const double along = m.roughness * m.roughness;
        if (largest > 0) lobe = lobe_45_0(along, along + (1 - along) * m.anisotropy * m.anisotropy);
    }
};

using Json = nlohmann::ordered_json;

void put(std::vector<std::uint8_t>& out, float v) {
    const auto bits = std::bit_cast<std::uint32_t>(v);
    for (int shift = 0; shift < 32; shift += 8) out.push_back(static_cast<std::uint8_t>(bits >> shift));
}

// Four corners: where, normal, tangent (along the grain), place in the picture; two triangles seen from +z.
std::vector<std::uint8_t> corners(float w, float h) {
    std::vector<std::uint8_t> out;
    const std::array<std::array<float, 2>, 4> at = {{{-w, -h}, {w, -h}, {w, h}, {-w, h}}};
    for (const auto& p : at)
        for (const float v : {p[0], p[1], 0.0f}) put(out, v);
    for (std::size_t i = 0; i < 4; ++i)
        for (const float v : {0.0f, 0.0f, 1.0f}) put(out, v);
    for (std::size_t i = 0; i < 4; ++i)
        for (const float v : {1.0f, 0.0f, 0.0f, 1.0f}) put(out, v);
    for (const auto& p : at)
        for (const float v : {p[0] > 0 ? 1.0f : 0.0f, p[1] > 0 ? 0.0f : 1.0f}) put(out, v);
    for (const int index : {0, 1, 2, 0, 2, 3}) {
        out.push_back(static_cast<std::uint8_t>(index));
        out.push_back(0);
    }
    return out;
}

Json material_json(const GltfMaterial& m, const GltfBoard& board) {
    Json pbr;
    if (board.png.empty())
        pbr["baseColorFactor"] = {m.base_color[0], m.base_color[1], m.base_color[2], 1.0};
    else
        pbr["baseColorTexture"] = {{"index", 0}};
    pbr["metallicFactor"] = 0.0;
    pbr["roughnessFactor"] = m.roughness;
    Json extensions;
    if (m.clearcoat > 0)
        extensions["KHR_materials_clearcoat"] = {{"clearcoatFactor", m.clearcoat},
                                                 {"clearcoatRoughnessFactor", m.clearcoat_roughness}};
    extensions["KHR_materials_ior"] = {{"ior", m.ior}};
    extensions["KHR_materials_specular"] = {{"specularFactor", m.specular}, {"specularColorFactor", m.specular_color}};
    if (m.anisotropy > 0)
        extensions["KHR_materials_anisotropy"] = {{"anisotropyStrength", m.anisotropy},
                                                  {"anisotropyRotation", round6(std::numbers::pi / 2)}};
    Json out = {{"name", board.name}, {"pbrMetallicRoughness", pbr}, {"extensions", extensions}};
    Json extras;
    for (const auto& [key, words] : board.words) extras[key] = words;
    for (const auto& [key, figure] : board.figures) extras[key] = figure;
    if (!extras.empty()) out["extras"] = extras;
    return out;
}

}  // namespace

Rgb reading_45_0(const GltfMaterial& m) {
    const GltfTerms t(m);
    Rgb out;
    for (std::size_t c = 0; c < 3; ++c)
        out[c] = t.coat + t.through * ((1 - t.largest) * m.base_color[c] + t.fresnel[c] * t.lobe);
    return out;
}

BaseSolver base_solver(const GltfMaterial& m) {
    return [t = GltfTerms(m)](const Rgb& target) {
        Rgb out;
        for (std::size_t c = 0; c < 3; ++c)
            out[c] = ((target[c] - t.coat) / t.through - t.fresnel[c] * t.lobe) / (1 - t.largest);
        return out;
    };
}

GltfFit fit_gltf(const Surface& surface, const FitLights& lights, const FibreGlint& fibre) {
    GltfFit fit;
    auto& m = fit.material;
    m.clearcoat = round6(surface.covered);
    m.clearcoat_roughness = round6(std::sqrt(surface.alpha));
    m.ior = round6(surface.n);
    const Rgb target = linear_srgb(surface.reflectance, lights);
    Rgb wanted = base_solver(m)(target);
    const Rgb lit = {std::clamp(wanted[0], 0.0, 1.0), std::clamp(wanted[1], 0.0, 1.0), std::clamp(wanted[2], 0.0, 1.0)};
    const double lobe = lobe_45_0(fibre.along, 1),
                 strongest = fibre.share * *std::max_element(lit.begin(), lit.end()) / lobe;
    if (strongest > 0) {
        // The fibres' share of what comes up from the base, as a reflectance at normal incidence.
        m.specular = round6(std::min(1.0, strongest / f0(m.ior)));
        for (std::size_t c = 0; c < 3; ++c)
            m.specular_color[c] = round6(fibre.share * lit[c] / lobe / (m.specular * f0(m.ior)));
        m.roughness = round6(std::sqrt(fibre.along));
        m.anisotropy = 1;
        wanted = base_solver(m)(target);
    }
    bool clipped = false;
    for (std::size_t c = 0; c < 3; ++c) {
        clipped = clipped || wanted[c] < 0 || wanted[c] > 1;
        m.base_color[c] = round6(std::clamp(wanted[c], 0.0, 1.0));
    }
    fit.loss = loss_of(reading_45_0(m), surface.reflectance, lights);
    fit.loss.clipped = clipped;
    return fit;
}

std::string gltf(const GltfMaterial& material, const GltfBoard& board) {
    if (!(board.width_m > 0 && board.height_m > 0))
        throw std::invalid_argument("format::gltf: a board is wider and higher than 0, got " +
                                    spectral::text(board.width_m) + " by " + spectral::text(board.height_m) + " m");
    const auto w = static_cast<float>(board.width_m / 2), h = static_cast<float>(board.height_m / 2);
    const auto buffer = corners(w, h);
    Json doc;
    doc["asset"] = {{"version", "2.0"}};
    if (!board.generator.empty()) doc["asset"]["generator"] = board.generator;
    const Json made = material_json(material, board);
    for (const auto& [key, unused] : made["extensions"].items()) doc["extensionsUsed"].push_back(key);
    doc["scene"] = 0;
    doc["scenes"] = {{{"nodes", {0}}}};
    doc["nodes"] = {{{"mesh", 0}, {"name", board.name}}};
    doc["meshes"] = {{{"name", board.name},
                      {"primitives",
                       {{{"attributes", {{"POSITION", 0}, {"NORMAL", 1}, {"TANGENT", 2}, {"TEXCOORD_0", 3}}},
                         {"indices", 4},
                         {"material", 0}}}}}};
    doc["materials"] = Json::array({made});
    if (!board.png.empty()) {
        doc["textures"] = {{{"source", 0}, {"sampler", 0}}};
        doc["samplers"] = {{{"magFilter", 9729},
                            {"minFilter", 9987},
                            {"wrapS", 33071},
                            {"wrapT", 33071}}};  // smooth, held at the edge
        doc["images"] = {{{"mimeType", "image/png"}, {"uri", "data:image/png;base64," + base64(board.png)}}};
    }
    const auto accessor = [](int view, const char* type, int component, int count) {
        return Json{{"bufferView", view}, {"componentType", component}, {"count", count}, {"type", type}};
    };
    Json position = accessor(0, "VEC3", 5126, 4);
    position["min"] = {-w, -h, 0.0f};
    position["max"] = {w, h, 0.0f};
    doc["accessors"] = {position, accessor(1, "VEC3", 5126, 4), accessor(2, "VEC4", 5126, 4),
                        accessor(3, "VEC2", 5126, 4), accessor(4, "SCALAR", 5123, 6)};
    std::size_t at = 0;
    for (const std::size_t size : {48u, 48u, 64u, 32u, 12u}) {
        doc["bufferViews"].push_back(
            {{"buffer", 0}, {"byteOffset", at}, {"byteLength", size}, {"target", size == 12 ? 34963 : 34962}});
        at += size;
    }
    doc["buffers"] = {
        {{"byteLength", buffer.size()}, {"uri", "data:application/octet-stream;base64," + base64(buffer)}}};
    return doc.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::format
