// HEIC pictures, made by the coder of libheif where it has one.

#ifdef FORETONE_HEIF

#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <memory>
#include <optional>

#include <libheif/heif.h>

#include "foretone/color/srgb.hpp"
#include "foretone/photo/photo_file.hpp"
#include "support/pictures/photo_maker.hpp"
#include "support/tolerance.hpp"

// The encoder that makes the pictures of these tests keeps tables of its own until the end. Asked by the leak
// sanitizer, where there is one.
extern "C" const char* __lsan_default_suppressions() { return "leak:x265_malloc\n"; }

namespace {

using namespace foretone;
using namespace foretone::test;

heif_error put(heif_context*, const void* data, std::size_t size, void* to) {
    const auto* from = static_cast<const std::uint8_t*>(data);
    static_cast<Bytes*>(to)->assign(from, from + size);
    return {heif_error_Ok, heif_suberror_Unspecified, ""};
}

// The codes as HEIC of best quality; `primaries` by ISO/IEC 23091-2. Nothing where there is no coder.
std::optional<Bytes> heic_of(const Codes& codes, int primaries = 1, int curve = 13) {
    heif_context* context = heif_context_alloc();
    heif_encoder* encoder = nullptr;
    if (heif_context_get_encoder_for_format(context, heif_compression_HEVC, &encoder).code != heif_error_Ok) {
        heif_context_free(context);
        return std::nullopt;
    }
    heif_encoder_set_lossy_quality(encoder, 100);
    heif_encoder_set_parameter_string(encoder, "chroma", "444");
    heif_image* image = nullptr;
    heif_image_create(codes.width, codes.height, heif_colorspace_RGB, heif_chroma_interleaved_RGB, &image);
    heif_image_add_plane(image, heif_channel_interleaved, codes.width, codes.height, 8);
    int stride = 0;
    std::uint8_t* plane = heif_image_get_plane(image, heif_channel_interleaved, &stride);
    for (int y = 0; y < codes.height; ++y)
        for (int x = 0; x < codes.width; ++x)
            for (int c = 0; c < 3; ++c) plane[y * stride + 3 * x + c] = std::uint8_t(codes.at(x, y, c));
    heif_color_profile_nclx* said = heif_nclx_color_profile_alloc();
    said->color_primaries = static_cast<heif_color_primaries>(primaries);
    said->transfer_characteristics = static_cast<heif_transfer_characteristics>(curve);
    said->matrix_coefficients = heif_matrix_coefficients_ITU_R_BT_601_6;
    said->full_range_flag = 1;
    heif_image_set_nclx_color_profile(image, said);
    heif_encoding_options* options = heif_encoding_options_alloc();
    options->output_nclx_profile = said;
    options->macOS_compatibility_workaround_no_nclx_profile = 0;
    heif_image_handle* handle = nullptr;
    const bool good = heif_context_encode_image(context, image, encoder, options, &handle).code == heif_error_Ok;
    Bytes out;
    heif_writer writer{1, put};
    if (good) heif_context_write(context, &writer, &out);
    if (handle) heif_image_handle_release(handle);
    heif_encoding_options_free(options);
    heif_nclx_color_profile_free(said);
    heif_image_release(image);
    heif_encoder_release(encoder);
    heif_context_free(context);
    return good && !out.empty() ? std::optional(out) : std::nullopt;
}

std::string fault_in_heic(const Bytes& file, const photo::PhotoLimits& limits = {}) {
    try {
        photo::read_photo(file, limits);
    } catch (const photo::PhotoFault& f) {
        return f.id;
    }
    return "none";
}

}  // namespace

TEST_CASE("an HEIC picture is read where libheif is there, its colors as it says") {
    const auto codes = example(64, 48);
    for (const int primaries : {1, 12}) {
        const auto file = heic_of(codes, primaries);
        if (!file) return;  // no coder here: nothing to read
        const auto photo = photo::read_photo(*file);
        CHECK(photo.head.format == "HEIC");
        REQUIRE(photo.pixels.width == 64);
        REQUIRE(photo.pixels.height == 48);
        double off = 0;
        for (int y = 0; y < 48; ++y)
            for (int x = 0; x < 64; ++x)
                for (int c = 0; c < 3; ++c) {
                    const double linear = photo.pixels.rgb[3 * std::size_t(y * 64 + x) + std::size_t(c)] / 65535.0;
                    off += std::abs(255 * color::srgb_encode(linear) - codes.at(x, y, c)) / (64 * 48 * 3);
                }
        CHECK(off < 2.5);  // codes; the coder loses a little
        // The red of the file: x of BT.709 0.640, of P3 0.680 (ISO/IEC 23091-2).
        const auto& m = photo.pixels.to_xyz;
        CHECK_THAT(m[0][0] / (m[0][0] + m[1][0] + m[2][0]), Near(primaries == 1 ? 0.640 : 0.680, 0.003));
    }
}

TEST_CASE("an HEIC picture that is cut, too large or for bright screens alone is refused, with a way out") {
    const auto whole = heic_of(example(64, 48));
    if (!whole) return;
    for (const double share : {0.2, 0.5, 0.9}) {
        const Bytes cut(whole->begin(), whole->begin() + std::ptrdiff_t(share * double(whole->size())));
        CHECK(fault_in_heic(cut) == "picture-kind");
    }
    photo::PhotoLimits limits;
    limits.megapixels = 0.001;
    CHECK(fault_in_heic(*whole, limits) == "picture-size");
    limits = {};
    limits.memory = 1000;
    CHECK(fault_in_heic(*whole, limits) == "picture-size");
    CHECK(fault_in_heic(*heic_of(example(64, 48), 9, 16)) == "picture-bits");
}

#endif
