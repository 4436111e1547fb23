// PNG by libpng. The chain of chunks is walked first, without unpacking anything: a file that breaks off, and one that
// says more than its bytes can hold, is refused before memory is taken.

#include <png.h>

#include <bit>
#include <cmath>
#include <csetjmp>
#include <cstring>
#include <optional>

#include "decode.hpp"
#include "sink.hpp"

namespace foretone::photo {
namespace {

struct Outline {
    std::uint32_t width = 0, height = 0;
    int bits = 0, kind = 0;
    bool interlaced = false, transparent = false, broken_off = false;
    double packed = 0;  // bytes of pixel data as stored
    std::span<const std::uint8_t> exif;

    int channels() const {
        return kind == PNG_COLOR_TYPE_RGB_ALPHA || transparent ? 4 : 3;
    }                          // once a palette is replaced by its colors
    double unpacked() const {  // bytes that the pixel data unfolds to, at least
        const int samples = kind == PNG_COLOR_TYPE_RGB_ALPHA    ? 4
                            : kind == PNG_COLOR_TYPE_RGB        ? 3
                            : kind == PNG_COLOR_TYPE_GRAY_ALPHA ? 2
                                                                : 1;
        return double(height) * std::floor(double(width) * samples * bits / 8);
    }
};

std::uint32_t u32(const std::uint8_t* p) {
    return std::uint32_t(p[0]) << 24 | std::uint32_t(p[1]) << 16 | std::uint32_t(p[2]) << 8 | std::uint32_t(p[3]);
}

// Walks the chunks. Throws nothing but refusals: a chain that breaks off before IEND.
Outline outline(std::span<const std::uint8_t> file, const PhotoHead& head) {
    Outline out;
    bool ended = false;
    std::size_t at = 8;
    while (!ended) {
        if (file.size() - at < 12) break;
        const std::size_t length = u32(&file[at]);
        const std::string_view type(reinterpret_cast<const char*>(&file[at + 4]), 4);
        const bool whole = length <= file.size() - at - 12;
        const auto data = file.subspan(at + 8, whole ? length : file.size() - at - 8);
        if (at == 8 && (type != "IHDR" || length != 13 || !whole)) {
            if (!whole && type == "IHDR") break;
            refuse_damaged(head, "it does not begin with its header");
        }
        if (at == 8) {  // the header, whole; what else calls itself one may be of any length
            out.width = u32(&data[0]);
            out.height = u32(&data[4]);
            out.bits = data[8];
            out.kind = data[9];
            out.interlaced = data[12] != 0;
        }
        if (type == "IDAT") out.packed += double(data.size());
        if (type == "tRNS") out.transparent = true;
        if (type == "eXIf" && whole) out.exif = data;
        ended = type == "IEND" || !whole;
        out.broken_off = !whole;
        if (whole) at += 12 + length;
    }
    out.broken_off = out.broken_off || !ended;
    return out;
}

struct Source {
    std::span<const std::uint8_t> file;
    std::size_t at = 0;
    bool ended = false;
    std::jmp_buf back{};
    char text[128] = {};
};

[[noreturn]] void leave(png_structp png, png_const_charp text) {
    auto* const source = static_cast<Source*>(png_get_error_ptr(png));
    std::strncpy(source->text, text, sizeof source->text - 1);
    std::longjmp(source->back, 1);
}

void warn(png_structp, png_const_charp) {}

void give(png_structp png, png_bytep to, std::size_t count) {
    auto* const source = static_cast<Source*>(png_get_io_ptr(png));
    if (source->file.size() - source->at < count) {
        source->ended = true;
        png_error(png, "the file ends");
    }
    std::memcpy(to, source->file.data() + source->at, count);
    source->at += count;
}

class Png {
public:
    explicit Png(std::span<const std::uint8_t> file) {
        source.file = file;
        png = png_create_read_struct(PNG_LIBPNG_VER_STRING, &source, leave, warn);
        if (png == nullptr) throw std::bad_alloc();
        info = png_create_info_struct(png);
        if (info == nullptr) {
            png_destroy_read_struct(&png, nullptr, nullptr);
            throw std::bad_alloc();
        }
        png_set_read_fn(png, &source, give);
        png_set_chunk_malloc_max(png, 8u << 20);  // a profile or text that unfolds to more is left out or refused
        png_set_chunk_cache_max(png, 128);
    }
    ~Png() { png_destroy_read_struct(&png, &info, nullptr); }
    Png(const Png&) = delete;
    Png& operator=(const Png&) = delete;

    template <class F>
    bool call(const F& f) {
        if (setjmp(source.back) != 0) return false;
        f();
        return true;
    }

    Source source;
    png_structp png = nullptr;
    png_infop info = nullptr;
};

[[noreturn]] void refuse(const Png& png, const PhotoHead& head, long long rows) {
    if (png.source.ended) refuse_truncated(head, rows);
    refuse_damaged(head, png.source.text);
}

CodeMeaning meaning_of_png(Png& p, PhotoHead& head, std::vector<PhotoNote>& notes) {
    png_charp name = nullptr;
    png_bytep profile = nullptr;
    png_uint_32 size = 0;
    int compression = 0, intent = 0;
    if (png_get_iCCP(p.png, p.info, &name, &compression, &profile, &size) != 0)
        return meaning_of({profile, size}, head, notes);
    if (png_get_sRGB(p.png, p.info, &intent) != 0) {
        head.profile = "sRGB";
        return CodeMeaning::srgb(head.bits);
    }
    double gamma = 0;
    if (png_get_gAMA(p.png, p.info, &gamma) == 0) return meaning_of({}, head, notes);
    std::array<double, 8> q{0.3127, 0.3290, 0.64, 0.33, 0.30, 0.60, 0.15, 0.06};
    const bool named = png_get_cHRM(p.png, p.info, &q[0], &q[1], &q[2], &q[3], &q[4], &q[5], &q[6], &q[7]) != 0;
    if (!(gamma > 0.1 && gamma < 5)) return meaning_of({}, head, notes);
    auto meaning = CodeMeaning::stated(head.bits, gamma, q);
    // 1/2.2 with sRGB's primaries is how sRGB was said before there was a chunk for it.
    if (std::abs(gamma - 1 / 2.2) < 0.005 && meaning.like_srgb()) {
        head.profile = "sRGB";
        return CodeMeaning::srgb(head.bits);
    }
    head.profile = meaning.name();
    notes.push_back({"picture-profile", std::string("the exponent") + (named ? " and primaries" : "") +
                                            " stated in the PNG were applied"});
    return meaning;
}

constexpr double most_half_open = 0.05;  // of the picture; the soft edge of a board that was cut out is less

// How many pixels are not opaque, and of them how many are neither (nearly) opaque nor (nearly) gone.
struct Open {
    std::size_t all = 0, half = 0;
};

// Pixels laid over white, in linear light.
template <class Code>
Open over_white(const Code* rgba, std::uint16_t* linear, int count) {
    constexpr std::uint32_t most = sizeof(Code) == 1 ? 255 : 65535;
    Open open;
    for (int i = 0; i < count; ++i, rgba += 4, linear += 3) {
        const std::uint32_t a = rgba[3];
        if (a == most) continue;
        ++open.all;
        open.half += a > most / 20 && a < most - most / 20 ? 1 : 0;
        for (int c = 0; c < 3; ++c) {
            const std::uint64_t sum = std::uint64_t(linear[c]) * a + std::uint64_t(65535) * (most - a);
            linear[c] = static_cast<std::uint16_t>((sum + most / 2) / most);
        }
    }
    return open;
}

// One row of codes as libpng leaves it into linear light.
template <class Code>
Open lay(const std::uint8_t* bytes, int channels, const CodeMeaning& meaning, std::uint16_t* to, int width,
         std::vector<Code>& scratch) {
    const auto* const codes = reinterpret_cast<const Code*>(bytes);
    if (channels == 3) {
        meaning.decode(codes, to, width);
        return {};
    }
    scratch.resize(3 * std::size_t(width));
    for (std::size_t i = 0; i < std::size_t(width); ++i) {
        for (std::size_t c = 0; c < 3; ++c) scratch[3 * i + c] = codes[4 * i + c];
    }
    meaning.decode(scratch.data(), to, width);
    return over_white(codes, to, width);
}

void check_outline(const Outline& o, PhotoHead& head, const PhotoLimits& limits) {
    if (o.width == 0 || o.height == 0) refuse_truncated(head, -1);
    if (o.width > 1'000'000 || o.height > 1'000'000) {
        throw PhotoFault("picture-size", "the PNG says it is " + std::to_string(o.width) + " × " +
                                             std::to_string(o.height) +
                                             " pixels; up to 1000000 a side are read. Make it smaller");
    }
    head.width = static_cast<int>(o.width);
    head.height = static_cast<int>(o.height);
    head.bits = o.bits == 16 ? 16 : 8;
    const std::size_t pixels = std::size_t(o.width) * o.height;
    head.memory = 6 * pixels;
    if (o.interlaced) head.memory += pixels * std::size_t(o.channels()) * std::size_t(head.bits / 8);
    check_size(head, limits);
    if (o.kind == PNG_COLOR_TYPE_GRAY || o.kind == PNG_COLOR_TYPE_GRAY_ALPHA) refuse_grey(head);
    constexpr double most_unfolding = 1032;  // of deflate (RFC 1951: 258 bytes from 2 bits)
    if (o.unpacked() > most_unfolding * (o.packed + 1)) {
        if (o.broken_off) refuse_truncated(head, -1);
        throw PhotoFault("picture-damaged",
                         "the PNG says it is " + sides(head) + " pixels, which its " +
                             std::to_string(static_cast<long long>(o.packed)) +
                             " bytes of pixel data cannot unfold to: it is damaged or made to fill memory");
    }
}

}  // namespace

Photo read_png_photo(std::span<const std::uint8_t> file, const PhotoLimits& limits) {
    Photo out;
    auto& head = out.head;
    head.format = "PNG";
    const Outline o = outline(file, head);
    check_outline(o, head, limits);
    head.orientation = exif_orientation(o.exif);

    Png p(file);
    if (!p.call([&] { png_set_user_limits(p.png, o.width, o.height), png_read_info(p.png, p.info); }))
        refuse(p, head, -1);
    const CodeMeaning meaning = meaning_of_png(p, head, out.notes);
    int channels = 0, passes = 1;
    const bool set = p.call([&] {
        png_set_expand(p.png);
        if (head.bits == 16 && std::endian::native == std::endian::little) png_set_swap(p.png);
        passes = png_set_interlace_handling(p.png);
        png_read_update_info(p.png, p.info);
        channels = png_get_channels(p.png, p.info);
    });
    if (!set) refuse(p, head, -1);
    if (channels != 3 && channels != 4) refuse_damaged(head, std::to_string(channels) + " channels");

    const std::size_t row_bytes = std::size_t(head.width) * std::size_t(channels) * std::size_t(head.bits / 8);
    std::vector<std::uint8_t> codes(row_bytes * (passes > 1 ? std::size_t(head.height) : 1));
    std::vector<std::uint8_t> narrow;
    std::vector<std::uint16_t> wide;
    Sink sink(head.width, head.height, head.orientation);
    Open open;
    int pass = 0, y = 0;
    const auto row_at = [&](int line) { return codes.data() + (passes > 1 ? std::size_t(line) * row_bytes : 0); };
    const auto lay_row = [&](int line) {
        const Open row = head.bits == 8 ? lay(row_at(line), channels, meaning, sink.row(), head.width, narrow)
                                        : lay(row_at(line), channels, meaning, sink.row(), head.width, wide);
        open.all += row.all;
        open.half += row.half;
        sink.keep();
    };
    for (pass = 0; pass < passes; ++pass) {
        for (y = 0; y < head.height; ++y) {
            if (!p.call([&] { png_read_row(p.png, row_at(y), nullptr); })) refuse(p, head, pass + 1 < passes ? -1 : y);
            if (passes == 1) lay_row(y);
        }
    }
    if (!p.call([&] { png_read_end(p.png, nullptr); })) refuse(p, head, head.height);
    if (passes > 1) {
        for (y = 0; y < head.height; ++y) lay_row(y);
    }
    head.alpha = channels == 4;
    out.pixels = sink.take();
    out.pixels.to_xyz = meaning.to_xyz();
    const double pixels = double(head.width) * double(head.height);
    if (double(open.half) > most_half_open * pixels) {
        throw PhotoFault("picture-transparent",
                         std::to_string(std::lround(100 * double(open.half) / pixels)) +
                             " % of the picture is half transparent: what shines through is not known, and "
                             "with it no color. Save the photograph without transparency");
    }
    if (open.all > 0) {
        const double share = 100 * double(open.all) / pixels;
        out.notes.push_back(
            {"picture-alpha", std::to_string(std::lround(std::ceil(share))) +
                                  " % of the picture is transparent: it is shown over white and no finish goes there"});
    }
    turn(head, out.notes);
    return out;
}

}  // namespace foretone::photo
