// JPEG by libjpeg-turbo. Its errors leave by longjmp, so every call into it goes through `call`, whose frames hold
// nothing to destroy.

#include <array>
#include <csetjmp>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <memory>

#include <jpeglib.h>
#include <jerror.h>

#include "decode.hpp"
#include "foretone/base/parallel.hpp"
#include "sink.hpp"

namespace foretone::photo {
namespace {

constexpr int band_rows = 64;

struct Errors {
    jpeg_error_mgr base;
    std::jmp_buf back;
    char text[JMSG_LENGTH_MAX];  // the error, or the first warning about the pixels
    int code;
    bool ended;    // the file ended early
    bool corrupt;  // the decoder had to guess pixels
    bool too_many_scans;
};

struct Progress {
    jpeg_progress_mgr base;
    int scans;
};

[[noreturn]] void leave(j_common_ptr common) {
    auto* const errors = reinterpret_cast<Errors*>(common->err);
    errors->code = errors->base.msg_code;
    errors->base.format_message(common, errors->text);
    std::longjmp(errors->back, 1);
}

void note(j_common_ptr common, int level) {
    if (level >= 0) return;  // a trace, not a warning
    auto* const errors = reinterpret_cast<Errors*>(common->err);
    const int code = errors->base.msg_code;
    if (code == JWRN_JPEG_EOF) errors->ended = true;
    const bool harmless =
        code == JWRN_EXTRANEOUS_DATA || code == JWRN_JFIF_MAJOR || code == JWRN_ADOBE_XFORM || code == JWRN_BOGUS_ICC;
    if (harmless || errors->ended || errors->corrupt) return;
    errors->corrupt = true;
    errors->base.format_message(common, errors->text);
}

void silent(j_common_ptr) {}

void count_scans(j_common_ptr common) {
    auto* const d = reinterpret_cast<j_decompress_ptr>(common);
    if (d->input_scan_number <= reinterpret_cast<Progress*>(common->progress)->scans) return;
    auto* const errors = reinterpret_cast<Errors*>(common->err);
    errors->too_many_scans = true;
    std::longjmp(errors->back, 1);
}

class Jpeg {
public:
    Jpeg(std::span<const std::uint8_t> file, const PhotoLimits& limits) {
        d.err = jpeg_std_error(&errors.base);
        errors.base.error_exit = leave;
        errors.base.emit_message = note;
        errors.base.output_message = silent;
        progress.base.progress_monitor = count_scans;
        progress.scans = limits.scans;
        if (!call([&] { jpeg_create_decompress(&d); })) throw std::bad_alloc();
        d.progress = &progress.base;
        call([&] {
            jpeg_mem_src(&d, file.data(), static_cast<unsigned long>(file.size()));
            jpeg_save_markers(&d, JPEG_APP0 + 1, 0xFFFF);  // EXIF
            jpeg_save_markers(&d, JPEG_APP0 + 2, 0xFFFF);  // ICC profile
        });
    }
    ~Jpeg() { jpeg_destroy_decompress(&d); }
    Jpeg(const Jpeg&) = delete;
    Jpeg& operator=(const Jpeg&) = delete;

    /// False if libjpeg gave up; `errors` tells why.
    template <class F>
    bool call(const F& f) {
        if (setjmp(errors.back) != 0) return false;
        f();
        return true;
    }

    jpeg_decompress_struct d{};
    Errors errors{};
    Progress progress{};
};

[[noreturn]] void refuse(const Jpeg& jpeg, const PhotoHead& head, const PhotoLimits& limits, long long rows) {
    if (jpeg.errors.too_many_scans) {
        throw PhotoFault("picture-scans", "the JPEG is built up in more than " + std::to_string(limits.scans) +
                                              " passes, which no camera does: save it again as an ordinary JPEG");
    }
    const int code = jpeg.errors.code;
    if (code == JERR_BAD_PRECISION || code == JERR_SOF_UNSUPPORTED) {
        throw PhotoFault(
            "picture-bits",
            "the JPEG is of a rare kind (12 bits a channel, or lossless): save it as an ordinary 8-bit JPEG");
    }
    if (code == JERR_IMAGE_TOO_BIG) {
        throw PhotoFault("picture-size", "the JPEG says it is more than 65500 pixels wide or high; save it smaller");
    }
    if (code == JERR_OUT_OF_MEMORY) throw std::bad_alloc();
    if (jpeg.errors.ended || code == JERR_INPUT_EOF || code == JERR_INPUT_EMPTY || code == JERR_NO_IMAGE)
        refuse_truncated(head, rows);
    refuse_damaged(head, jpeg.errors.text);
}

std::span<const std::uint8_t> exif_of(const jpeg_decompress_struct& d) {
    for (auto* m = d.marker_list; m != nullptr; m = m->next) {
        if (m->marker == JPEG_APP0 + 1 && m->data_length > 6 && std::memcmp(m->data, "Exif\0\0", 6) == 0)
            return {m->data + 6, m->data_length - 6};
    }
    return {};
}

// Bytes while decoding: the pixels, one row, and all coefficients if the file has to be read to its end before the
// first row.
std::size_t memory_of(jpeg_decompress_struct& d) {
    const std::size_t pixels = std::size_t(d.image_width) * d.image_height;
    std::size_t bytes = 6 * pixels;
    if (!jpeg_has_multiple_scans(&d)) return bytes;
    for (int i = 0; i < d.num_components; ++i) {
        const auto& c = d.comp_info[i];
        bytes += 2 * pixels * std::size_t(c.h_samp_factor * c.v_samp_factor) /
                 std::size_t(d.max_h_samp_factor * d.max_v_samp_factor);
    }
    return bytes;
}

void check_color(const jpeg_decompress_struct& d, const PhotoHead& head) {
    if (d.jpeg_color_space == JCS_CMYK || d.jpeg_color_space == JCS_YCCK) {
        throw PhotoFault("picture-cmyk",
                         "the JPEG is in CMYK, made for a printing press: save it as an RGB JPEG (sRGB)");
    }
    if (d.jpeg_color_space == JCS_GRAYSCALE) refuse_grey(head);
    if (d.num_components != 3) refuse_damaged(head, std::to_string(d.num_components) + " color channels");
}

}  // namespace

Photo read_jpeg(std::span<const std::uint8_t> file, const PhotoLimits& limits) {
    Photo out;
    auto& head = out.head;
    head.format = "JPEG";
    Jpeg jpeg(file, limits);
    auto& d = jpeg.d;
    if (!jpeg.call([&] { jpeg_read_header(&d, TRUE); })) refuse(jpeg, head, limits, -1);
    head.width = static_cast<int>(d.image_width);
    head.height = static_cast<int>(d.image_height);
    check_color(d, head);
    head.memory = memory_of(d);
    check_size(head, limits);
    // The shortest code of a block of 64 pixels is one bit, and luminance has a block for each: less cannot be a whole
    // picture.
    const double least = double(head.width) * double(head.height) / 64 / 8;
    if (!jpeg_has_multiple_scans(&d) && double(file.size()) < least) refuse_truncated(head, -1);

    head.orientation = exif_orientation(exif_of(d));
    JOCTET* icc = nullptr;
    unsigned icc_size = 0;
    if (!jpeg.call([&] { jpeg_read_icc_profile(&d, &icc, &icc_size); })) refuse(jpeg, head, limits, -1);
    const std::unique_ptr<JOCTET, decltype(&std::free)> keep(icc, &std::free);
    const CodeMeaning meaning = meaning_of({icc, icc_size}, head, out.notes);

    d.out_color_space = JCS_RGB;
    if (!jpeg.call([&] { jpeg_start_decompress(&d); })) refuse(jpeg, head, limits, -1);
    if (jpeg.errors.ended || jpeg.errors.corrupt) refuse(jpeg, head, limits, -1);
    Sink sink(head.width, head.height, head.orientation);
    // A band of rows is decoded while the one before it is turned into light.
    struct Band {
        std::vector<JSAMPLE> codes;
        int rows = 0;
    };
    const std::size_t stride = 3 * std::size_t(head.width);
    std::array<Band, 2> bands;
    for (Band& b : bands) b.codes.resize(stride * std::size_t(std::min(band_rows, head.height)));
    int decoded = 0;
    bool well = true;
    const auto decode = [&](Band& band) {
        band.rows = 0;
        while (well && band.rows < band_rows && decoded < head.height) {
            JSAMPROW rows[1] = {band.codes.data() + stride * std::size_t(band.rows)};
            JDIMENSION got = 0;
            well = jpeg.call([&] { got = jpeg_read_scanlines(&d, rows, 1); }) && got == 1 && !jpeg.errors.ended &&
                   !jpeg.errors.corrupt;
            if (well) ++band.rows, ++decoded;
        }
    };
    const auto into_light = [&](const Band& band) {
        for (int r = 0; r < band.rows; ++r) {
            meaning.decode(band.codes.data() + stride * std::size_t(r), sink.row(), head.width);
            sink.keep();
        }
    };
    decode(bands[0]);
    for (std::size_t k = 0; well && sink.rows() < head.height; ++k) {
        Band &before = bands[k % 2], &next = bands[1 - k % 2];
        if (decoded == head.height)
            into_light(before);
        else
            base::parallel_for(2, 2, [&](std::size_t i) { i == 0 ? decode(next) : into_light(before); });
    }
    if (!well) refuse(jpeg, head, limits, decoded);
    out.pixels = sink.take();
    out.pixels.to_xyz = meaning.to_xyz();
    turn(head, out.notes);
    return out;
}

}  // namespace foretone::photo
