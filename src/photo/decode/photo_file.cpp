#include "foretone/photo/photo_file.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "foretone/base/number.hpp"
#include "decode.hpp"

namespace foretone::photo {
namespace {

constexpr std::string_view wanted = "Foretone reads JPEG and PNG: save or export the photograph as one of them";

bool begins(std::span<const std::uint8_t> file, std::string_view magic, std::size_t at = 0) {
    return file.size() >= at + magic.size() &&
           std::equal(magic.begin(), magic.end(), file.begin() + std::ptrdiff_t(at),
                      [](char a, std::uint8_t b) { return static_cast<std::uint8_t>(a) == b; });
}

constexpr std::string_view heif =
    "an HEIC picture, as phones write them: share it from the phone as JPEG, set its camera to \"most compatible\" for "
    "the next one, or convert this one on a computer (heif-convert board.heic board.jpg; Debian has it in the package "
    "libheif-examples)";

// What else people take for a photograph, by the first bytes of the file; empty: not known.
std::string kind_of(std::span<const std::uint8_t> file) {
    using namespace std::string_view_literals;
    struct Known {
        std::string_view magic;
        std::size_t at;
        std::string_view name;
    };
    static constexpr Known known[] = {
        {"ftypheic"sv, 4, heif},
        {"ftypheix"sv, 4, heif},
        {"ftyphei"sv, 4, heif},
        {"ftyphevc"sv, 4, heif},
        {"ftypmif1"sv, 4, heif},
        {"ftypmsf1"sv, 4, heif},
        {"ftypavif"sv, 4, "an AVIF picture"},
        {"ftypcrx "sv, 4, "a camera's raw file"},
        {"ftyp"sv, 4, "a film or a picture in a film's container"},
        {"II*\0\x10\0\0\0CR"sv, 0, "a camera's raw file"},
        {"II*\0"sv, 0, "a TIFF picture or a camera's raw file"},
        {"MM\0*"sv, 0, "a TIFF picture or a camera's raw file"},
        {"FUJIFILM"sv, 0, "a camera's raw file"},
        {"GIF8"sv, 0, "a GIF picture"},
        {"BM"sv, 0, "a BMP picture"},
        {"WEBP"sv, 8, "a WebP picture"},
        {"%PDF"sv, 0, "a PDF file"},
        {"\0\0\0\x0cjP  "sv, 0, "a JPEG 2000 picture"},
        {"\0\0\0\x0cJXL "sv, 0, "a JPEG XL picture"},
        {"\xff\x0a"sv, 0, "a JPEG XL picture"},
        {"8BPS"sv, 0, "a layered picture of a picture editor"},
        {"PK\x03\x04"sv, 0, "a ZIP archive"},
    };
    for (const auto& k : known) {
        if (begins(file, k.magic, k.at)) return std::string(k.name);
    }
    const auto head = file.first(std::min<std::size_t>(file.size(), 512));
    const bool text =
        std::all_of(head.begin(), head.end(), [](std::uint8_t b) { return b >= 0x20 || (b >= 9 && b <= 13); });
    return text ? "text" : "";
}

std::string megapixels(const PhotoHead& head) { return base::fixed(double(head.width) * double(head.height) / 1e6, 1); }

}  // namespace

std::string sides(const PhotoHead& head) { return std::to_string(head.width) + " × " + std::to_string(head.height); }

void check_size(const PhotoHead& head, const PhotoLimits& limits) {
    if (double(head.width) * double(head.height) > limits.megapixels * 1e6) {
        throw PhotoFault("picture-size", "the picture says it is " + sides(head) + " pixels, " + megapixels(head) +
                                             " megapixels; up to " + base::fixed(limits.megapixels, 0) +
                                             " are read. Make it smaller: 12 megapixels show all there is to see");
    }
    const double together = double(head.width) * double(head.height) * double(limits.pictures) / 1e6;
    if (limits.pictures > 1 && together > limits.megapixels_together) {
        throw PhotoFault("picture-sum", std::to_string(limits.pictures) + " pictures of " + sides(head) +
                                            " pixels are " + base::fixed(together, 0) +
                                            " million pixels in all; at most " +
                                            base::fixed(limits.megapixels_together, 0) +
                                            " million: fewer finishes with --finish, or a smaller photograph");
    }
    if (head.memory > limits.memory) {
        throw PhotoFault(
            "picture-size",
            "decoding these " + sides(head) + " pixels would take " + base::fixed(double(head.memory) / 1048576, 0) +
                " MB of memory; up to " + base::fixed(double(limits.memory) / 1048576, 0) +
                " are taken. Make the picture smaller, or save it without interlacing or progressive display");
    }
}

CodeMeaning meaning_of(std::span<const std::uint8_t> profile, PhotoHead& head, std::vector<PhotoNote>& notes) {
    if (profile.empty()) {
        notes.push_back({"picture-no-profile", "the picture names no color profile: its codes are taken as sRGB"});
        return CodeMeaning::srgb(head.bits);
    }
    auto meaning = CodeMeaning::icc(head.bits, profile);
    if (!meaning) {
        notes.push_back(
            {"picture-profile",
             "the picture's color profile cannot be used (damaged, or not for RGB): its codes are taken as sRGB"});
        return CodeMeaning::srgb(head.bits);
    }
    head.profile = meaning->name();
    if (!meaning->like_srgb())
        notes.push_back({"picture-profile", "the picture's color profile \"" + head.profile + "\" was applied"});
    return *std::move(meaning);
}

void turn(PhotoHead& head, std::vector<PhotoNote>& notes) {
    if (head.orientation == 1) return;
    if (head.orientation >= 5) std::swap(head.width, head.height);
    notes.push_back({"picture-turned", "the picture was turned as its EXIF orientation (" +
                                           std::to_string(head.orientation) + ") says: it is " + sides(head) +
                                           " pixels, and the card is counted on it as seen"});
}

void refuse_truncated(const PhotoHead& head, long long rows) {
    const std::string where = rows < 0
                                  ? "before the picture is whole"
                                  : "after " + std::to_string(rows) + " of " + std::to_string(head.height) + " rows";
    throw PhotoFault("picture-truncated",
                     "the " + head.format + " file ends " + where + ": copy it again from the camera or card");
}

void refuse_damaged(const PhotoHead& head, const std::string& words) {
    throw PhotoFault("picture-damaged", "the " + head.format + " file is damaged (" + words +
                                            "): copy it again, or save it again from a program that can show it");
}

PhotoNote gain_map_note() {
    return {"picture-gain-map",
            "the picture holds a second one that brightens its lights on bright screens (a gain map): it was left out, "
            "and the plain picture used, as other screens show it"};
}

void refuse_grey(const PhotoHead& head) {
    throw PhotoFault("picture-grey",
                     "the " + head.format + " is in shades of grey and holds no color: photograph the board in color");
}

namespace {

// A second picture inside, by which bright screens make lights brighter (ISO 21496-1, and what phones wrote before it),
// is named in the segments before the picture's own data.
bool has_gain_map(std::span<const std::uint8_t> jpeg) {
    constexpr std::string_view names[] = {"urn:iso:std:iso:ts:21496:-1", "http://ns.adobe.com/hdr-gain-map/1.0/",
                                          "HDRGainMap"};
    std::size_t at = 2;
    while (at + 4 <= jpeg.size() && jpeg[at] == 0xFF && jpeg[at + 1] != 0xDA) {
        const std::size_t length = std::size_t(jpeg[at + 2]) << 8U | jpeg[at + 3];
        const auto segment = jpeg.subspan(at, std::min(length + 2, jpeg.size() - at));
        for (const auto name : names)
            if (std::search(segment.begin(), segment.end(), name.begin(), name.end(),
                            [](std::uint8_t a, char b) { return a == static_cast<std::uint8_t>(b); }) != segment.end())
                return true;
        at += length + 2;
    }
    return false;
}

}  // namespace

Photo read_photo(std::span<const std::uint8_t> file, const PhotoLimits& limits) {
    if (file.empty()) throw PhotoFault("picture-empty", "the file is empty; a JPEG or PNG photograph was expected");
    if (begins(file, "\xff\xd8\xff")) {
        auto photo = read_jpeg(file, limits);
        if (has_gain_map(file)) photo.notes.push_back(gain_map_note());
        return photo;
    }
    if (begins(file, "\x89PNG\r\n\x1a\n")) return read_png_photo(file, limits);
    if (begins(file, "\x89PNG") || begins(file, "\xff\xd8")) {
        throw PhotoFault(
            "picture-damaged",
            "the file begins like a picture and then breaks off or was altered (copied as text?): copy it again");
    }
    std::string kind = kind_of(file);
#ifdef FORETONE_HEIF
    if (kind == heif) {
        std::string why_not;
        if (auto photo = read_heif(file, limits, why_not)) return *std::move(photo);
        kind += "; this one cannot be read here (" + why_not + ")";
    }
#endif
    throw PhotoFault("picture-kind",
                     (kind.empty() ? "the file is no picture that Foretone knows" : "the file is " + kind) + ". " +
                         std::string(wanted));
}

}  // namespace foretone::photo
