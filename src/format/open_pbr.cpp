// The fit. With t what the base must send up through the coat, over the factors that do not depend on b,
//   t = (R − w L)/((1 − w F0)(1 − w + w c)),    q = w·coat_darkening,
//   ((1 − q) + q (1−K)/(1−K b))·B = t,    B = (1 − m) b + s, m the largest of the fibres' reflectances, s what they
//   send to the eye.
// Multiplied out it is a quadratic in B; with q = 0 or K = 0 it is linear. Its root that grows from 0 with t is taken
// in the form 2c/(b + √…), which does not cancel.

#include "foretone/format/open_pbr.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "foretone/optics/gloss.hpp"
#include "normal_reflectance.hpp"
#include "round6.hpp"
#include "xml.hpp"

namespace foretone::format {
namespace {

// The parts of the closed form that the channels share.
struct PbrTerms {
    double w, coat_lobe, through, inside, q;
    explicit PbrTerms(const OpenPbr& m) : w(m.coat_weight) {
        const double r0 = f0(m.coat_ior);
        coat_lobe =
            w > 0 ? optics::surface_radiance(m.coat_roughness * m.coat_roughness, m.coat_ior, optics::Geometry::g45_0)
                  : 0;
        through = 1 - w * r0;
        inside = 1 - (1 - r0) / (m.coat_ior * m.coat_ior);
        q = w * m.coat_darkening;
    }
    double tint(const OpenPbr& m, std::size_t c) const { return through * (1 - w + w * m.coat_color[c]); }
};

// Base reflectance of the fibres at normal incidence, by channel, and the lobe they make.
struct PbrFibres {
    Rgb strength{};
    double largest = 0, lobe = 0;
    explicit PbrFibres(const OpenPbr& m) {
        // The base's interface as MaterialX has it: its index against the coat's (the larger over the smaller) by the
        // coat's share.
        const double step = std::max(m.specular_ior / m.coat_ior, m.coat_ior / m.specular_ior);
        const double eta = m.specular_ior + m.coat_weight * (step - m.specular_ior);
        const double r0 = std::min(0.99999, m.specular_weight * f0(eta));
        for (std::size_t c = 0; c < 3; ++c) strength[c] = r0 * m.specular_color[c];
        largest = r0;
        const double inverse = 1 - m.specular_roughness_anisotropy;
        const double wide = m.specular_roughness * m.specular_roughness * std::sqrt(2 / (inverse * inverse + 1));
        lobe = r0 > 0 ? lobe_45_0(inverse * wide, wide) : 0;
    }
};

// Six decimals at most, never an exponent.
std::string decimal(double v) {
    char buffer[400];
    std::string text(buffer, std::to_chars(buffer, buffer + sizeof buffer, round6(v), std::chars_format::fixed, 6).ptr);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string decimal(const Rgb& v) { return decimal(v[0]) + ", " + decimal(v[1]) + ", " + decimal(v[2]); }

}  // namespace

Rgb reading_45_0(const OpenPbr& m) {
    const PbrTerms t(m);
    const PbrFibres f(m);
    Rgb out;
    for (std::size_t c = 0; c < 3; ++c) {
        const double dark = 1 - t.q + t.q * (1 - t.inside) / (1 - t.inside * m.base_color[c]);
        const double base = (1 - f.largest) * m.base_color[c] + f.strength[c] * f.lobe;
        out[c] = t.w * t.coat_lobe + t.tint(m, c) * dark * base;
    }
    return out;
}

BaseSolver base_solver(const OpenPbr& m) {
    return [m, t = PbrTerms(m), f = PbrFibres(m)](const Rgb& target) {
        Rgb out;
        for (std::size_t c = 0; c < 3; ++c) {
            const double up = (target[c] - t.w * t.coat_lobe) / t.tint(m, c);
            const double k = t.inside, open = 1 - f.largest, glint = f.strength[c] * f.lobe;
            // (1 − q)(1 − k b)(open b + glint) + q (1 − k)(open b + glint) = up (1 − k b), as −a2 b² + a1 b = a0.
            const double share = (1 - t.q) + t.q * (1 - k);
            const double a2 = (1 - t.q) * k * open, a1 = share * open - (1 - t.q) * k * glint + up * k,
                         a0 = up - share * glint;
            out[c] = 2 * a0 / (a1 + std::sqrt(std::max(0.0, a1 * a1 - 4 * a2 * a0)));
        }
        return out;
    };
}

OpenPbrFit fit_open_pbr(const Surface& surface, const FitLights& lights, const FibreGlint& fibre) {
    OpenPbrFit fit;
    auto& m = fit.material;
    m.coat_weight = round6(surface.covered);
    m.coat_ior = round6(surface.n);
    m.coat_roughness = round6(std::sqrt(surface.alpha));
    if (m.coat_weight > 0) {
        const Rgb tint = linear_srgb(surface.film_twice, lights);
        // A tint of no light at all would leave the base nothing to show.
        for (std::size_t c = 0; c < 3; ++c) m.coat_color[c] = round6(std::clamp(tint[c], 0.01, 1.0));
    }
    const Rgb target = linear_srgb(surface.reflectance, lights);
    m.specular_ior = 1.5;
    Rgb wanted = base_solver(m)(target);
    const Rgb lit = {std::clamp(wanted[0], 0.0, 1.0), std::clamp(wanted[1], 0.0, 1.0), std::clamp(wanted[2], 0.0, 1.0)};
    const double strongest = fibre.share * *std::max_element(lit.begin(), lit.end()) / lobe_45_0(fibre.along, 1);
    if (strongest > 0) {
        // The fibres' share of what comes up from the base, as a reflectance at normal incidence: the index whose step
        // against the coat has it.
        const double root = std::sqrt(strongest), index = (1 + root) / (1 - root);
        m.specular_ior = round6((m.coat_weight > 0 ? m.coat_ior : 1) * index);
        m.specular_weight = 1;
        if (m.coat_weight > 0 && m.coat_weight < 1) {
            // Between bare and coated MaterialX blends the indices: the weight makes up for it.
            const double eta = m.specular_ior + m.coat_weight * (m.specular_ior / m.coat_ior - m.specular_ior);
            m.specular_weight = round6(std::min(1.0, strongest / f0(eta)));
        }
        const double whitest = *std::max_element(lit.begin(), lit.end());
        for (std::size_t c = 0; c < 3; ++c) m.specular_color[c] = round6(lit[c] / whitest);
        m.specular_roughness_anisotropy = round6(1 - fibre.along);
        m.specular_roughness = round6(std::pow((1 + fibre.along * fibre.along) / 2, 0.25));
        wanted = base_solver(m)(target);
    }
    bool clipped = false;
    for (std::size_t c = 0; c < 3; ++c) {
        clipped = clipped || wanted[c] < 0 || wanted[c] > 1;
        m.base_color[c] = std::clamp(wanted[c], 0.0, 1.0);
    }
    m.base_color = round6(m.base_color);
    fit.loss = loss_of(reading_45_0(m), surface.reflectance, lights);
    fit.loss.clipped = clipped;
    return fit;
}

std::string open_pbr_mtlx(const OpenPbr& m, const MaterialWords& words) {
    const std::string name = xml_name(words.name);
    std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    if (!words.comment.empty()) out += "<!--\n" + xml_comment(words.comment) + "\n-->\n";
    out += "<materialx version=\"1.39\" colorspace=\"lin_rec709\">\n";
    const auto input = [&](const std::string& key, const std::string& type, const std::string& rest) {
        out += "    <input name=\"" + key + "\" type=\"" + type + "\" " + rest + " />\n";
    };
    const auto value = [](const std::string& text) { return "value=\"" + text + "\""; };
    const bool fibres = m.specular_weight > 0;
    if (!words.texture.empty()) {
        if (words.width_m > 0 && words.height_m > 0)
            out += "  <!-- the picture is " + decimal(words.width_m * 1000) + " by " + decimal(words.height_m * 1000) +
                   " mm of board -->\n";
        out += "  <image name=\"" + name + "_board\" type=\"color3\">\n";
        input("file", "filename", value(xml_text(words.texture)) + " colorspace=\"srgb_texture\"");
        out += "  </image>\n";
    }
    if (fibres) {
        out +=
            "  <normal name=\"" + name +
            "_normal\" type=\"vector3\">\n    <input name=\"space\" type=\"string\" value=\"world\" />\n  </normal>\n"
            "  <tangent name=\"" +
            name +
            "_grain\" type=\"vector3\">\n    <input name=\"space\" type=\"string\" value=\"world\" />\n  </tangent>\n"
            "  <!-- the grain runs along u; the fibres' highlight is wide across it -->\n"
            "  <rotate3d name=\"" +
            name + "_across\" type=\"vector3\">\n";
        input("in", "vector3", "nodename=\"" + name + "_grain\"");
        input("amount", "float", value("90"));
        input("axis", "vector3", "nodename=\"" + name + "_normal\"");
        out += "  </rotate3d>\n";
    }
    out += "  <open_pbr_surface name=\"" + name + "_surface\" type=\"surfaceshader\">\n";
    if (words.texture.empty())
        input("base_color", "color3", value(decimal(m.base_color)));
    else
        input("base_color", "color3", "nodename=\"" + name + "_board\"");
    input("specular_weight", "float", value(decimal(m.specular_weight)));
    if (fibres) {
        input("specular_color", "color3", value(decimal(m.specular_color)));
        input("specular_roughness", "float", value(decimal(m.specular_roughness)));
        input("specular_ior", "float", value(decimal(m.specular_ior)));
        input("specular_roughness_anisotropy", "float", value(decimal(m.specular_roughness_anisotropy)));
        input("geometry_tangent", "vector3", "nodename=\"" + name + "_across\"");
    }
    input("coat_weight", "float", value(decimal(m.coat_weight)));
    if (m.coat_weight > 0) {
        input("coat_color", "color3", value(decimal(m.coat_color)));
        input("coat_roughness", "float", value(decimal(m.coat_roughness)));
        input("coat_ior", "float", value(decimal(m.coat_ior)));
        input("coat_darkening", "float", value(decimal(m.coat_darkening)));
    }
    out += "  </open_pbr_surface>\n  <surfacematerial name=\"" + name + "\" type=\"material\">\n";
    input("surfaceshader", "surfaceshader", "nodename=\"" + name + "_surface\"");
    return out + "  </surfacematerial>\n</materialx>\n";
}

}  // namespace foretone::format
