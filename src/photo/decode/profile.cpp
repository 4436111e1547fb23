// Most cameras' profiles are a curve a channel and a matrix: then the pixels keep their own primaries, nothing is
// clipped, and the matrix goes with them. A profile made of tables is carried out by LittleCMS into linear BT.2020,
// which holds every surface color. The profile's connection space is D50; Bradford takes it to D65, which undoes what
// the profile's maker did (ICC.1:2022, annex E).

#include "profile.hpp"

#include <lcms2.h>

#include <algorithm>
#include <cmath>

#include "foretone/color/adaptation.hpp"
#include "foretone/color/srgb.hpp"

namespace foretone::photo {
namespace {

using ProfileHandle = std::unique_ptr<void, decltype(&cmsCloseProfile)>;

constexpr color::Xyz d50{0.9642, 1.0, 0.8249};  // ICC.1:2022, 7.2.16

color::Xyz d65() { return {color::srgb_white.x / 100, 1.0, color::srgb_white.z / 100}; }

template <class Curve>
std::vector<std::uint16_t> tabulate(int bits, const Curve& linear) {
    std::vector<std::uint16_t> out(std::size_t(1) << bits);
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double v = linear(double(i) / double(out.size() - 1));
        out[i] = static_cast<std::uint16_t>(std::lround(65535 * std::clamp(std::isfinite(v) ? v : 0.0, 0.0, 1.0)));
    }
    return out;
}

std::string description(cmsHPROFILE profile) {
    char text[256] = {};
    cmsGetProfileInfoASCII(profile, cmsInfoDescription, "en", "US", text, sizeof text - 1);
    std::string out(text);
    std::erase_if(out,
                  [](char c) { return static_cast<unsigned char>(c) < 0x20 || static_cast<unsigned char>(c) > 0x7e; });
    return out.empty() ? "unnamed" : out;
}

ProfileHandle linear_bt2020() {
    const cmsCIExyY white{0.3127, 0.3290, 1.0};
    const cmsCIExyYTRIPLE primaries{
        {0.708, 0.292, 1.0}, {0.170, 0.797, 1.0}, {0.131, 0.046, 1.0}};  // ITU-R BT.2020-2, table 3
    cmsToneCurve* straight = cmsBuildGamma(nullptr, 1.0);
    cmsToneCurve* curves[3] = {straight, straight, straight};
    ProfileHandle out(cmsCreateRGBProfile(&white, &primaries, curves), &cmsCloseProfile);
    cmsFreeToneCurve(straight);
    return out;
}

// The profile's colorants, stored for D50, as a matrix to XYZ under D65; nothing if one is missing.
std::optional<ToXyz> matrix_of(cmsHPROFILE profile) {
    ToXyz m{};
    const auto to_d65 = color::adaptation_matrix(color::Cat::bradford, d50, d65());
    const cmsTagSignature tags[3] = {cmsSigRedColorantTag, cmsSigGreenColorantTag, cmsSigBlueColorantTag};
    for (std::size_t c = 0; c < 3; ++c) {
        const auto* v = static_cast<const cmsCIEXYZ*>(cmsReadTag(profile, tags[c]));
        if (v == nullptr) return std::nullopt;
        const glm::dvec3 seen = to_d65 * glm::dvec3(v->X, v->Y, v->Z);
        for (std::size_t r = 0; r < 3; ++r) m[r][c] = seen[static_cast<int>(r)];
    }
    return m;
}

}  // namespace

CodeMeaning CodeMeaning::srgb(int bits) {
    CodeMeaning m;
    m.curve_.fill(tabulate(bits, [](double v) { return color::srgb_decode(v); }));
    m.to_xyz_ = srgb_to_xyz_matrix();
    m.name_ = "sRGB";
    return m;
}

CodeMeaning CodeMeaning::stated(int bits, double gamma, const std::array<double, 8>& chromaticities) {
    const auto& q = chromaticities;
    const cmsCIExyY white{q[0], q[1], 1.0};
    const cmsCIExyYTRIPLE primaries{{q[2], q[3], 1.0}, {q[4], q[5], 1.0}, {q[6], q[7], 1.0}};
    cmsToneCurve* straight = cmsBuildGamma(nullptr, 1.0);
    cmsToneCurve* curves[3] = {straight, straight, straight};
    const ProfileHandle profile(cmsCreateRGBProfile(&white, &primaries, curves), &cmsCloseProfile);
    cmsFreeToneCurve(straight);
    CodeMeaning m;
    const auto matrix = profile ? matrix_of(profile.get()) : std::nullopt;
    m.to_xyz_ = matrix ? *matrix : srgb_to_xyz_matrix();
    m.curve_.fill(tabulate(bits, [gamma](double v) { return std::pow(v, 1 / gamma); }));
    m.name_ = "stated in the PNG";
    return m;
}

std::optional<CodeMeaning> CodeMeaning::icc(int bits, std::span<const std::uint8_t> bytes) {
    cmsSetLogErrorHandler(nullptr);
    const ProfileHandle profile(cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size())),
                                &cmsCloseProfile);
    if (!profile || cmsGetColorSpace(profile.get()) != cmsSigRgbData) return std::nullopt;
    CodeMeaning m;
    m.name_ = description(profile.get());
    if (cmsIsMatrixShaper(profile.get())) {
        const auto matrix = matrix_of(profile.get());
        if (!matrix) return std::nullopt;
        m.to_xyz_ = *matrix;
        const cmsTagSignature tags[3] = {cmsSigRedTRCTag, cmsSigGreenTRCTag, cmsSigBlueTRCTag};
        for (std::size_t c = 0; c < 3; ++c) {
            const auto* curve = static_cast<const cmsToneCurve*>(cmsReadTag(profile.get(), tags[c]));
            if (curve == nullptr) return std::nullopt;
            m.curve_[c] = tabulate(
                bits, [curve](double v) { return double(cmsEvalToneCurveFloat(curve, static_cast<float>(v))); });
        }
        return m;
    }
    const auto target = linear_bt2020();
    const auto matrix = matrix_of(target.get());
    const auto from = bits == 8 ? TYPE_RGB_8 : TYPE_RGB_16;
    void* transform =
        cmsCreateTransform(profile.get(), from, target.get(), TYPE_RGB_16, INTENT_RELATIVE_COLORIMETRIC, 0);
    if (!matrix || transform == nullptr) return std::nullopt;
    m.table_ = std::shared_ptr<void>(transform, &cmsDeleteTransform);
    m.to_xyz_ = *matrix;
    return m;
}

void CodeMeaning::decode(const std::uint8_t* codes, std::uint16_t* linear, int count) const {
    if (table_) return cmsDoTransform(table_.get(), codes, linear, static_cast<cmsUInt32Number>(count));
    for (int i = 0; i < count; ++i, codes += 3, linear += 3) {
        for (std::size_t c = 0; c < 3; ++c) linear[c] = curve_[c][codes[c]];
    }
}

void CodeMeaning::decode(const std::uint16_t* codes, std::uint16_t* linear, int count) const {
    if (table_) return cmsDoTransform(table_.get(), codes, linear, static_cast<cmsUInt32Number>(count));
    for (int i = 0; i < count; ++i, codes += 3, linear += 3) {
        for (std::size_t c = 0; c < 3; ++c) linear[c] = curve_[c][codes[c]];
    }
}

bool CodeMeaning::like_srgb() const {
    const auto own = srgb_to_xyz_matrix();
    double worst = 0;
    for (std::size_t r = 0; r < 3; ++r) {
        for (std::size_t c = 0; c < 3; ++c) worst = std::max(worst, std::abs(own[r][c] - to_xyz_[r][c]));
    }
    return worst < 2e-3;
}

}  // namespace foretone::photo
