// Photographs out of files: every kind that works gives the pixels that were put in; every kind that does not is
// refused with a message that says what to do.

#include "foretone/photo/photo_file.hpp"

#include <lcms2.h>
#include <zlib.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <string_view>

#include "foretone/color/adaptation.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/color/srgb.hpp"
#include "support/pictures/photo_maker.hpp"
#include "support/tolerance.hpp"

namespace {

using namespace foretone;
using namespace foretone::test;
using photo::Photo;
using photo::read_photo;

double linear(double code, double most) { return 65535 * color::srgb_decode(code / most); }

// Largest difference of a channel, in 16-bit linear light, to the codes as sRGB.
double worst_off(const Photo& photo, const Codes& codes) {
    double worst = photo.pixels.width == codes.width && photo.pixels.height == codes.height ? 0 : 1e9;
    const double most = codes.bits == 16 ? 65535 : 255;
    for (int y = 0; y < codes.height && worst < 1e9; ++y) {
        for (int x = 0; x < codes.width; ++x) {
            for (int c = 0; c < 3; ++c) {
                const double read = photo.pixels.rgb[3 * std::size_t(y * codes.width + x) + std::size_t(c)];
                worst = worst_of(worst, std::abs(read - linear(codes.at(x, y, c), most)));
            }
        }
    }
    return worst;
}

// The picture as EXIF says it is seen; orientations as in EXIF 2.32, tag 274, written out one by one.
Codes seen(const Codes& stored, int orientation) {
    const int w = stored.width, h = stored.height;
    Codes out = stored;
    if (orientation >= 5) std::swap(out.width, out.height);
    for (int y = 0; y < out.height; ++y) {
        for (int x = 0; x < out.width; ++x) {
            int sx = x, sy = y;
            switch (orientation) {
                case 2:
                    sx = w - 1 - x;
                    break;
                case 3:
                    sx = w - 1 - x;
                    sy = h - 1 - y;
                    break;
                case 4:
                    sy = h - 1 - y;
                    break;
                case 5:
                    sx = y;
                    sy = x;
                    break;
                case 6:
                    sx = y;
                    sy = h - 1 - x;
                    break;
                case 7:
                    sx = w - 1 - y;
                    sy = h - 1 - x;
                    break;
                case 8:
                    sx = w - 1 - y;
                    sy = x;
                    break;
                default:
                    break;
            }
            for (int c = 0; c < 3; ++c) out.at(x, y, c) = stored.at(sx, sy, c);
        }
    }
    return out;
}

std::string note_of(const Photo& photo, std::string_view id) {
    for (const auto& n : photo.notes) {
        if (n.id == id) return n.text;
    }
    return "";
}

struct Refusal {
    std::string id, text;
};

Refusal refusal(const Bytes& file, const photo::PhotoLimits& limits = {}) {
    try {
        read_photo(file, limits);
    } catch (const photo::PhotoFault& fault) {
        return {fault.id, fault.what()};
    }
    return {"", "not refused"};
}

Bytes bytes_of(std::string_view text) { return {text.begin(), text.end()}; }

// A profile with the primaries of ITU-R BT.2020 and an exponent of 1.8, or, `table` true, the same as a table profile.
Bytes profile(bool table) {
    const cmsCIExyY white{0.3127, 0.3290, 1.0};
    const cmsCIExyYTRIPLE primaries{{0.708, 0.292, 1.0}, {0.170, 0.797, 1.0}, {0.131, 0.046, 1.0}};
    cmsToneCurve* curve = cmsBuildGamma(nullptr, 1.8);
    cmsToneCurve* curves[3] = {curve, curve, curve};
    cmsHPROFILE made = cmsCreateRGBProfile(&white, &primaries, curves);
    if (table) {
        cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
        cmsHTRANSFORM transform =
            cmsCreateTransform(made, TYPE_RGB_16, lab, TYPE_Lab_16, INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
        cmsHPROFILE link = cmsTransform2DeviceLink(transform, 4.3, cmsFLAGS_HIGHRESPRECALC);
        cmsSetDeviceClass(link, cmsSigInputClass);
        cmsDeleteTransform(transform);
        cmsCloseProfile(lab);
        cmsCloseProfile(made);
        made = link;
    }
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(made, nullptr, &size);
    Bytes out(size);
    cmsSaveProfileToMem(made, out.data(), &size);
    cmsCloseProfile(made);
    cmsFreeToneCurve(curve);
    return out;
}

}  // namespace

TEST_CASE("PNG of every kind of RGB gives the linear light of its codes") {
    const auto plain = example(61, 43);
    for (const bool interlaced : {false, true}) {
        CHECK(worst_off(read_photo(png_of(plain, {.interlaced = interlaced})), plain) <= 0.5);
        const auto deep = example(61, 43, 3, 16);
        const auto photo = read_photo(png_of(deep, {.interlaced = interlaced, .srgb = true}));
        CHECK(photo.head.bits == 16);
        CHECK(worst_off(photo, deep) <= 0.5);
        const auto clear = example(33, 20, 4);
        const auto opaque = read_photo(png_of(clear, {.interlaced = interlaced}));
        CHECK(worst_off(opaque, clear) <= 0.5);
        CHECK(note_of(opaque, "picture-alpha").empty());
    }
    auto few = example(30, 20);
    for (auto& v : few.values) v = std::uint16_t(v / 64 * 64);
    CHECK(worst_off(read_photo(png_of(few, {.palette = true})), few) <= 0.5);
}

TEST_CASE("a picture without a profile is said to be taken as sRGB, and one that says sRGB is not remarked upon") {
    CHECK(note_of(read_photo(png_of(example(20, 20))), "picture-no-profile").find("taken as sRGB") !=
          std::string::npos);
    CHECK(read_photo(png_of(example(20, 20), {.srgb = true})).notes.empty());
    CHECK(read_photo(png_of(example(20, 20), {.gamma = 0.45455})).notes.empty());
}

TEST_CASE("JPEG, full color or 4:2:0, baseline or progressive, gives the light of its codes within its quality") {
    const auto codes = example(160, 120);
    for (const bool full : {true, false}) {
        for (const bool progressive : {false, true}) {
            const auto photo =
                read_photo(jpeg_of(codes, {.quality = 98, .full_color = full, .progressive = progressive}));
            CHECK(photo.head.format == "JPEG");
            CHECK(worst_off(photo, codes) < 65535 * 0.03);  // 3 codes of 255 at mid-grey, libjpeg at quality 98
        }
    }
}

TEST_CASE("all eight EXIF orientations turn JPEG and PNG the right way up, and it is said") {
    const auto codes = example(53, 37);
    for (int orientation = 1; orientation <= 8; ++orientation) {
        const auto want = seen(codes, orientation);
        const auto png = read_photo(png_of(codes, {.orientation = orientation}));
        const auto jpeg = read_photo(jpeg_of(codes, {.quality = 98, .orientation = orientation}));
        CAPTURE(orientation);
        CHECK(worst_off(png, want) <= 0.5);
        CHECK(worst_off(jpeg, want) < 65535 * 0.03);
        CHECK(png.head.width == want.width);
        CHECK(note_of(png, "picture-turned").empty() == (orientation == 1));
        CHECK(photo::exif_orientation(exif_block(orientation, true)) == orientation);
        CHECK(photo::exif_orientation(exif_block(orientation, false)) == orientation);
    }
}

TEST_CASE("an EXIF block that is cut off or absurd leaves the picture upright") {
    const auto whole = exif_block(6, true);
    for (std::size_t n = 0; n < 32; ++n) CHECK(photo::exif_orientation({whole.data(), n}) == 1);
    auto far = whole;
    far[4] = far[5] = far[6] = far[7] = 0xFF;
    CHECK(photo::exif_orientation(far) == 1);
    CHECK(photo::exif_orientation(exif_block(9, true)) == 1);
    CHECK(photo::exif_orientation(exif_block(0, false)) == 1);
}

TEST_CASE("embedded profiles are honored: matrix profiles exactly, table profiles within the table") {
    // Expected: the code's own statement, exponent 1.8 and BT.2020 primaries, by LittleCMS's unoptimised transform to
    // XYZ.
    const Bytes matrix = profile(false), table = profile(true);
    const auto codes = example(24, 24);
    cmsHPROFILE from = cmsOpenProfileFromMem(matrix.data(), cmsUInt32Number(matrix.size()));
    cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
    cmsHTRANSFORM transform =
        cmsCreateTransform(from, TYPE_RGB_8, lab, TYPE_Lab_DBL, INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
    const Photo photos[] = {read_photo(png_of(codes, {.profile = matrix})),
                            read_photo(png_of(codes, {.profile = table})),
                            read_photo(jpeg_of(codes, {.quality = 100, .profile = matrix}))};
    double worst[2] = {};
    // The connection space: D50 (ICC.1:2022, 7.2.16), reached by Bradford (annex E) whatever pictures are adapted by.
    const color::Xyz d50{96.42, 100, 82.49};
    for (std::size_t i = 0; i < 24 * 24; ++i) {
        const std::uint8_t code[3] = {std::uint8_t(codes.values[3 * i]), std::uint8_t(codes.values[3 * i + 1]),
                                      std::uint8_t(codes.values[3 * i + 2])};
        cmsCIELab want{};
        cmsDoTransform(transform, code, &want, 1);
        for (std::size_t p = 0; p < 2; ++p) {
            std::array<double, 3> v{};
            for (std::size_t r = 0; r < 3; ++r) {
                for (std::size_t c = 0; c < 3; ++c)
                    v[r] += photos[p].pixels.to_xyz[r][c] * photos[p].pixels.rgb[3 * i + c] / 655.35;
            }
            const auto got =
                color::to_lab(color::adapt({v[0], v[1], v[2]}, color::srgb_white, d50, color::Cat::bradford), d50);
            worst[p] = worst_of(worst[p], color::delta_e_00(got, {want.L, want.a, want.b}));
        }
    }
    cmsDeleteTransform(transform);
    cmsCloseProfile(lab);
    cmsCloseProfile(from);
    CHECK(worst[0] < 0.05);
    CHECK(worst[1] < 0.3);  // a 49-point table
    double apart = 0;       // JPEG at quality 100 is three codes off at most, each worth up to 1.8/255 of full light
    for (std::size_t i = 0; i < photos[0].pixels.rgb.size(); ++i)
        apart = worst_of(apart, std::abs(double(photos[2].pixels.rgb[i]) - photos[0].pixels.rgb[i]));
    CHECK(apart <= 3 * 1.8 / 255 * 65535);
    CHECK(photos[2].pixels.to_xyz == photos[0].pixels.to_xyz);
    for (const auto& photo : photos) CHECK(note_of(photo, "picture-profile").find("was applied") != std::string::npos);
    const auto odd = read_photo(jpeg_of(codes, {.profile = Bytes(200, 7)}));
    CHECK(note_of(odd, "picture-profile").find("cannot be used") != std::string::npos);
}

TEST_CASE("transparent pixels are laid over white in linear light, and it is said") {
    auto codes = example(20, 10, 4);
    codes.at(3, 2, 3) = 0;
    codes.at(4, 2, 3) = 51;  // a fifth
    const auto photo = read_photo(png_of(codes));
    const auto* p = &photo.pixels.rgb[3 * (2 * 20 + 3)];
    CHECK(p[0] == 65535);
    CHECK(double(p[3]) == Approx(0.2 * linear(codes.at(4, 2, 0), 255) + 0.8 * 65535).margin(1));
    CHECK(note_of(photo, "picture-alpha").find("1 % of the picture is transparent") != std::string::npos);
}

TEST_CASE("a picture that is half transparent all over is refused: what shines through is not known") {
    Codes codes = example(20, 15, 4);
    for (int y = 0; y < 15; ++y)
        for (int x = 0; x < 20; ++x) codes.at(x, y, 3) = x < 10 ? 0 : 255;
    CHECK_NOTHROW(read_photo(png_of(codes)));  // a board cut out
    for (int y = 0; y < 15; ++y)
        for (int x = 0; x < 20; ++x) codes.at(x, y, 3) = 128;
    CHECK(refusal(png_of(codes)).id == "picture-transparent");
}

TEST_CASE("what is no JPEG or PNG is refused by name, with what to do") {
    using namespace std::string_view_literals;
    const std::pair<std::string_view, std::string_view> kinds[] = {{"\0\0\0\x18"
                                                                    "ftypheic\0\0\0\0mif1"sv,
                                                                    "HEIC"},
                                                                   {"II*\0\x08\0\0\0\0\0\0\0"sv, "TIFF"},
                                                                   {"MM\0*\0\0\0\x08"sv, "TIFF"},
                                                                   {"II*\0\x10\0\0\0CR\x02\0"sv, "raw file"},
                                                                   {"GIF89a......"sv, "GIF"},
                                                                   {"RIFF\x10\0\0\0WEBPVP8 "sv, "WebP"},
                                                                   {"%PDF-1.7\n"sv, "PDF"},
                                                                   {"format = 1\ntitle = \"x\"\n"sv, "text"},
                                                                   {"\x01\x02\x03\x04\xff"sv, "no picture"}};
    for (const auto& [magic, word] : kinds) {
        const auto r = refusal(bytes_of(magic));
        CAPTURE(r.text);
        CHECK(r.id == "picture-kind");
        CHECK(r.text.find(word) != std::string::npos);
        CHECK(r.text.find("JPEG and PNG") != std::string::npos);
    }
    CHECK(refusal({}).id == "picture-empty");
    CHECK(refusal(bytes_of("\x89PNG\n\x1a\n\0\0"sv)).id == "picture-damaged");  // line ends changed in transfer
}

TEST_CASE("grey and CMYK pictures are refused with what is missing") {
    CHECK(refusal(jpeg_of(example(40, 40, 1))).id == "picture-grey");
    CHECK(refusal(png_of(example(40, 40, 1))).id == "picture-grey");
    CHECK(refusal(png_of(example(40, 40, 2, 16))).id == "picture-grey");
    CHECK(refusal(png_of(example(40, 40, 1))).text.find("in color") != std::string::npos);
    const auto cmyk = refusal(jpeg_of(example(40, 40, 4), {.cmyk = true}));
    CHECK(cmyk.id == "picture-cmyk");
    CHECK(cmyk.text.find("RGB JPEG") != std::string::npos);
}

TEST_CASE("a file cut off anywhere is refused, and never read as a whole picture") {
    const auto codes = example(64, 48);
    for (const bool progressive : {false, true}) {
        const auto whole = jpeg_of(codes, {.progressive = progressive});
        for (std::size_t n = 4; n + 2 < whole.size(); n += 7) {
            const auto r = refusal({whole.begin(), whole.begin() + std::ptrdiff_t(n)});
            CAPTURE(n, r.text);
            REQUIRE((r.id == "picture-truncated" || r.id == "picture-damaged"));
        }
        CHECK(refusal({whole.begin(), whole.begin() + std::ptrdiff_t(whole.size() / 2)}).id == "picture-truncated");
    }
    for (const bool interlaced : {false, true}) {
        const auto whole = png_of(codes, {.interlaced = interlaced});
        for (std::size_t n = 8; n < whole.size(); n += 7) {
            const auto r = refusal({whole.begin(), whole.begin() + std::ptrdiff_t(n)});
            CAPTURE(n, r.text);
            REQUIRE(r.id == "picture-truncated");
        }
    }
    const auto jpeg = jpeg_of(example(64, 480));
    const auto r = refusal({jpeg.begin(), jpeg.begin() + std::ptrdiff_t(jpeg.size() / 2)});
    CHECK(r.text.find(" of 480 rows: copy it again") != std::string::npos);
}

TEST_CASE("a damaged file is refused or read, without harm, whatever byte is changed") {
    std::mt19937 random(5);
    const auto codes = example(64, 48);
    const Bytes files[] = {jpeg_of(codes, {.orientation = 6}), jpeg_of(codes, {.progressive = true}), png_of(codes),
                           png_of(codes, {.interlaced = true, .orientation = 3})};
    int refused = 0, png_read = 0;
    const photo::PhotoLimits small{.megapixels = 4, .memory = 64u << 20};
    for (std::size_t f = 0; f < 4; ++f) {
        for (int i = 0; i < 300; ++i) {
            auto file = files[f];
            for (int k = 0; k < 1 + i % 4; ++k) file[2 + random() % (file.size() - 2)] = std::uint8_t(random() & 0xFF);
            const bool stopped = !refusal(file, small).id.empty();
            refused += stopped;
            png_read += f >= 2 && !stopped;
        }
    }
    CHECK(refused > 600);
    CHECK(png_read < 60);  // of 600: PNG's check sums find nearly everything that is not of no account
}

TEST_CASE("a picture too large is refused from its header, before memory is taken") {
    const auto big = refusal(png_that_says(20000, 10000));
    CHECK(big.id == "picture-size");
    CHECK(big.text.find("20000 × 10000 pixels, 200.0 megapixels; up to 120 are read") != std::string::npos);
    CHECK(refusal(png_that_says(0x7FFFFFFF, 0x7FFFFFFF)).id == "picture-size");
    const auto bomb = refusal(png_that_says(10000, 10000));  // within the limit, but its bytes cannot hold it
    CHECK(bomb.id == "picture-damaged");
    CHECK(bomb.text.find("cannot unfold to") != std::string::npos);
    const auto memory = refusal(png_of(example(200, 200)), {.megapixels = 1, .memory = 100000});
    CHECK(memory.id == "picture-size");
    CHECK(memory.text.find("MB of memory") != std::string::npos);

    // Eleven pictures of 100 megapixels: each may be read, all together may not be held.
    const auto together = refusal(png_that_says(10000, 10000), {.pictures = 11});
    CHECK(together.id == "picture-sum");
    CHECK(together.text.find("11 pictures of 10000 × 10000 pixels are 1100 million pixels in all; at most 1000") !=
          std::string::npos);
    CHECK(refusal(png_that_says(10000, 10000), {.pictures = 10}).id == "picture-damaged");

    auto jpeg = jpeg_of(example(64, 48));
    for (std::size_t i = 0; i + 9 < jpeg.size(); ++i) {
        if (jpeg[i] != 0xFF || jpeg[i + 1] != 0xC0) continue;
        jpeg[i + 5] = jpeg[i + 7] = 0xF0;  // 61488 high, 61504 wide
        break;
    }
    CHECK(refusal(jpeg).id == "picture-size");
    const auto claimed = refusal(jpeg, {.megapixels = 1e5, .memory = std::size_t(1) << 40});
    CHECK(claimed.id == "picture-truncated");
}

TEST_CASE("a second header of a PNG, cut off or short, is not read as one") {
    // As the fuzzer found it: a header of 13 bytes, then one that says as much and has four.
    auto cut = png_that_says(2, 119040);
    cut.resize(33);
    for (const char c : std::string("\0\0\0\x0dIHDR\0\1\x84\x30", 12)) cut.push_back(static_cast<std::uint8_t>(c));
    CHECK_FALSE(refusal(cut).id.empty());
    cut.resize(33);
    for (const char c : std::string("\0\0\0\0IHDR\0\0\0\0", 12)) cut.push_back(static_cast<std::uint8_t>(c));
    CHECK_FALSE(refusal(cut).id.empty());
}

TEST_CASE("a JPEG of endless passes is refused, one of many passes is read") {
    const auto codes = example(64, 48);
    const auto many = refusal(jpeg_of(codes, {.scans = 150}));
    CHECK(many.id == "picture-scans");
    CHECK(many.text.find("more than 64 passes") != std::string::npos);
    CHECK(refusal(jpeg_of(codes, {.scans = 60})).id.empty());
}

TEST_CASE("a profile that unfolds to hundreds of megabytes is not unfolded") {
    Bytes profile(std::size_t(64) << 20, 0), packed(compressBound(std::size_t(64) << 20));
    uLongf size = packed.size();
    REQUIRE(compress2(packed.data(), &size, profile.data(), profile.size(), 1) == Z_OK);
    packed.resize(size);
    Bytes data(6 + packed.size(), 0);
    std::copy_n("bomb", 4, data.begin());
    std::copy(packed.begin(), packed.end(), data.begin() + 6);
    auto file = png_of(example(20, 20));
    const auto chunk = png_chunk("iCCP", data);
    file.insert(file.begin() + 33, chunk.begin(), chunk.end());
    const auto photo = read_photo(file);
    CHECK(photo.head.profile.empty());
}

TEST_CASE("codes of a canvas become linear light, alpha left out") {
    const std::uint8_t rgba[8] = {255, 0, 128, 255, 10, 20, 30, 0};
    const auto pixels = photo::pixels_of_srgb(2, 1, 4, rgba, 8);
    CHECK(pixels.rgb[0] == 65535);
    CHECK(double(pixels.rgb[2]) == Approx(linear(128, 255)).margin(0.5));
    CHECK(double(pixels.rgb[3]) == Approx(linear(10, 255)).margin(0.5));
    CHECK_THROWS_AS(photo::pixels_of_srgb(2, 1, 4, rgba, 6), std::invalid_argument);
    CHECK_THROWS_AS(photo::pixels_of_srgb(0, 1, 3, rgba, 0), std::invalid_argument);
}

TEST_CASE("a phone's picture that cannot be read says how to get one that can; a gain map is told") {
    for (const std::string_view brand : {"ftypheic", "ftypheix", "ftypheim", "ftyphevc", "ftypmif1", "ftypmsf1"}) {
        Bytes file = {0, 0, 0, 24};
        file.insert(file.end(), brand.begin(), brand.end());
        file.resize(64);
        try {
            read_photo(file);
            FAIL("not refused");
        } catch (const photo::PhotoFault& f) {
            CAPTURE(std::string(brand));
            CHECK(f.id == "picture-kind");
            CHECK(std::string(f.what()).find("share it from the phone as JPEG") != std::string::npos);
            CHECK(std::string(f.what()).find("heif-convert") != std::string::npos);
        }
    }
    const auto plain = jpeg_of(example(40, 30));
    const auto told = [](const Bytes& jpeg) {
        const auto notes = read_photo(jpeg).notes;
        return std::any_of(notes.begin(), notes.end(), [](const auto& n) { return n.id == "picture-gain-map"; });
    };
    CHECK_FALSE(told(plain));
    for (const std::string name : {"urn:iso:std:iso:ts:21496:-1", "http://ns.adobe.com/hdr-gain-map/1.0/"}) {
        Bytes with(plain.begin(), plain.begin() + 2);  // an APP2 segment right after the start of the picture
        const auto length = std::uint8_t(name.size() + 3);
        with.insert(with.end(), {0xFF, 0xE2, 0, length});
        with.insert(with.end(), name.begin(), name.end());
        with.push_back(0);
        with.insert(with.end(), plain.begin() + 2, plain.end());
        CHECK(told(with));
        CHECK(read_photo(with).pixels.rgb == read_photo(plain).pixels.rgb);
        for (std::size_t cut = 3; cut < 60; ++cut)
            CHECK_THROWS_AS(read_photo(std::span(with).first(cut)), photo::PhotoFault);
    }
}
