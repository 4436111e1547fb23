// HEIC pictures, where libheif was there to build with: decoded whole by it, then row by row into linear light.
//
// The container turns and mirrors its picture itself; an EXIF orientation beside that counts for nothing (ISO/IEC
// 23008-12). Colors: an embedded ICC profile, or numbers of ISO/IEC 23091-2 for primaries and curve, made a profile
// here.

#ifdef FORETONE_HEIF

#include <cstring>
#include <memory>

#include <lcms2.h>
#include <libheif/heif.h>

#include "decode.hpp"
#include "sink.hpp"

namespace foretone::photo {
namespace {

constexpr std::size_t bytes_a_pixel = 16;  // planes of the coder, its RGB, and ours

template <class T>
using Owned = std::unique_ptr<T, void (*)(T*)>;

struct Said {
    std::uint8_t primaries;
    cmsCIExyYTRIPLE rgb;
};
// x and y of red, green, blue (ISO/IEC 23091-2: BT.709, BT.2020, P3 with the white of D65).
constexpr Said known_primaries[] = {
    {1, {{0.640, 0.330, 1}, {0.300, 0.600, 1}, {0.150, 0.060, 1}}},
    {9, {{0.708, 0.292, 1}, {0.170, 0.797, 1}, {0.131, 0.046, 1}}},
    {12, {{0.680, 0.320, 1}, {0.265, 0.690, 1}, {0.150, 0.060, 1}}},
};

// A profile of those primaries with sRGB's curve; empty for ones that are not known.
std::vector<std::uint8_t> profile_of(int primaries) {
    for (const auto& known : known_primaries) {
        if (known.primaries != primaries) continue;
        const cmsCIExyY white{0.3127, 0.3290, 1};
        const cmsFloat64Number srgb[] = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
        cmsToneCurve* curve = cmsBuildParametricToneCurve(nullptr, 4, srgb);
        cmsToneCurve* const curves[] = {curve, curve, curve};
        const cmsHPROFILE profile = cmsCreateRGBProfile(&white, &known.rgb, curves);
        cmsFreeToneCurve(curve);
        cmsUInt32Number size = 0;
        std::vector<std::uint8_t> out;
        if (profile && cmsSaveProfileToMem(profile, nullptr, &size)) {
            out.resize(size);
            if (!cmsSaveProfileToMem(profile, out.data(), &size)) out.clear();
        }
        if (profile) cmsCloseProfile(profile);
        return out;
    }
    return {};
}

std::vector<std::uint8_t> profile_in(const heif_image_handle* handle) {
    const auto type = heif_image_handle_get_color_profile_type(handle);
    if (type == heif_color_profile_type_nclx) {
        heif_color_profile_nclx* said = nullptr;
        if (heif_image_handle_get_nclx_color_profile(handle, &said).code != heif_error_Ok || !said) return {};
        const Owned<heif_color_profile_nclx> kept(said, heif_nclx_color_profile_free);
        const auto curve = said->transfer_characteristics;
        if (curve == heif_transfer_characteristic_ITU_R_BT_2100_0_PQ ||
            curve == heif_transfer_characteristic_ITU_R_BT_2100_0_HLG)
            throw PhotoFault("picture-bits",
                             "the HEIC picture is one for bright screens alone (PQ or HLG): export it as a plain JPEG");
        return profile_of(said->color_primaries);
    }
    const std::size_t size = heif_image_handle_get_raw_color_profile_size(handle);
    std::vector<std::uint8_t> out(size);
    if (size == 0 || heif_image_handle_get_raw_color_profile(handle, out.data()).code != heif_error_Ok) return {};
    return out;
}

bool holds_gain_map(const heif_image_handle* handle) {
    const int count = heif_image_handle_get_number_of_auxiliary_images(handle, LIBHEIF_AUX_IMAGE_FILTER_OMIT_ALPHA);
    if (count <= 0 || count > 64) return false;
    std::vector<heif_item_id> ids(static_cast<std::size_t>(count));
    const int got = heif_image_handle_get_list_of_auxiliary_image_IDs(handle, LIBHEIF_AUX_IMAGE_FILTER_OMIT_ALPHA,
                                                                      ids.data(), count);
    for (int k = 0; k < got; ++k) {
        heif_image_handle* one = nullptr;
        if (heif_image_handle_get_auxiliary_image_handle(handle, ids[static_cast<std::size_t>(k)], &one).code !=
            heif_error_Ok)
            continue;
        const Owned<const heif_image_handle> kept(one, heif_image_handle_release);
        const char* type = nullptr;
        if (heif_image_handle_get_auxiliary_type(one, &type).code != heif_error_Ok || !type) continue;
        const bool map = std::strstr(type, "hdrgainmap") != nullptr;
        heif_image_handle_free_auxiliary_types(one, &type);
        if (map) return true;
    }
    return false;
}

}  // namespace

std::optional<Photo> read_heif(std::span<const std::uint8_t> file, const PhotoLimits& limits, std::string& why_not) {
    const auto failed = [&](const heif_error& error) {
        if (error.code == heif_error_Ok) return false;
        why_not = error.message ? error.message : "";
        return true;
    };
    const Owned<heif_context> context(heif_context_alloc(), heif_context_free);
    if (failed(heif_context_read_from_memory_without_copy(context.get(), file.data(), file.size(), nullptr)))
        return std::nullopt;
    heif_image_handle* raw_handle = nullptr;
    if (failed(heif_context_get_primary_image_handle(context.get(), &raw_handle))) return std::nullopt;
    const Owned<const heif_image_handle> handle(raw_handle, heif_image_handle_release);

    Photo out;
    out.head.format = "HEIC";
    out.head.width = heif_image_handle_get_width(handle.get());
    out.head.height = heif_image_handle_get_height(handle.get());
    const int stored = heif_image_handle_get_luma_bits_per_pixel(handle.get());
    out.head.bits = stored > 8 ? 16 : 8;
    out.head.alpha = heif_image_handle_has_alpha_channel(handle.get()) != 0;
    if (out.head.width < 1 || out.head.height < 1) {
        why_not = "it says that it has no pixels";
        return std::nullopt;
    }
    out.head.memory = bytes_a_pixel * std::size_t(out.head.width) * std::size_t(out.head.height);
    check_size(out.head, limits);
    const auto profile = profile_in(handle.get());
    const CodeMeaning meaning = meaning_of(profile, out.head, out.notes);

    heif_image* raw_image = nullptr;
    const auto layout = stored > 8 ? heif_chroma_interleaved_RRGGBB_LE : heif_chroma_interleaved_RGB;
    if (failed(heif_decode_image(handle.get(), &raw_image, heif_colorspace_RGB, layout, nullptr))) return std::nullopt;
    const Owned<const heif_image> image(raw_image, heif_image_release);
    int stride = 0;
    const std::uint8_t* plane = heif_image_get_plane_readonly(image.get(), heif_channel_interleaved, &stride);
    const int width = heif_image_get_width(image.get(), heif_channel_interleaved),
              height = heif_image_get_height(image.get(), heif_channel_interleaved);
    if (!plane || width != out.head.width || height != out.head.height || stride < width * (stored > 8 ? 6 : 3)) {
        why_not = "its pixels do not fill the size it says";
        return std::nullopt;
    }
    const int range = heif_image_get_bits_per_pixel_range(image.get(), heif_channel_interleaved);
    Sink sink(width, height, 1);
    std::vector<std::uint16_t> codes(stored > 8 ? 3 * std::size_t(width) : 0);
    for (int y = 0; y < height; ++y) {
        const std::uint8_t* row = plane + std::ptrdiff_t(y) * stride;
        if (stored > 8) {
            const unsigned most = (1U << static_cast<unsigned>(std::min(std::max(range, 9), 16))) - 1;
            for (std::size_t k = 0; k < codes.size(); ++k) {
                const unsigned v = std::min<unsigned>(row[2 * k] | unsigned(row[2 * k + 1]) << 8U, most);
                codes[k] = static_cast<std::uint16_t>((v * 65535U + most / 2) / most);
            }
            meaning.decode(codes.data(), sink.row(), width);
        } else {
            meaning.decode(row, sink.row(), width);
        }
        sink.keep();
    }
    out.pixels = sink.take();
    out.pixels.to_xyz = meaning.to_xyz();
    if (holds_gain_map(handle.get())) out.notes.push_back(gain_map_note());
    return out;
}

}  // namespace foretone::photo

#endif
