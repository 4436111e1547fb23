// What goes into an OpenEXR file, checked and in order; exr_pack.cpp writes the container. Readers look channels up by
// name and some take the order in the file for alphabetical without looking: channels are sorted here.

#include "foretone/format/exr.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "exr_pack.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/spectral/text.hpp"

namespace foretone::format {
namespace {

using spectral::text;

constexpr double largest_half = 65504;
constexpr std::size_t longest_name = 31;  // longer ones need another version of the format

[[noreturn]] void refuse(const std::string& what) { throw std::invalid_argument("format::encode_exr: " + what); }

void put_float(std::vector<std::uint8_t>& out, double v) {
    const auto bits = std::bit_cast<std::uint32_t>(static_cast<float>(v));
    for (int shift = 0; shift < 32; shift += 8) out.push_back(static_cast<std::uint8_t>(bits >> shift));
}

PackedAttribute floats(const std::string& name, const std::string& type, const std::vector<double>& values) {
    PackedAttribute a{name, type, {}};
    for (const double v : values) put_float(a.bytes, v);
    return a;
}

void check_name(const std::string& kind, const std::string& name) {
    if (name.empty() || name.size() > longest_name || name.find('\0') != std::string::npos)
        refuse("the name of a " + kind + " has 1 to 31 bytes, got \"" + name + "\"");
}

void check_channel(const ExrChannel& c, std::size_t pixels, Precision precision) {
    check_name("channel", c.name);
    if (c.values.size() != pixels)
        refuse("channel " + c.name + " has " + std::to_string(c.values.size()) + " values for " +
               std::to_string(pixels) + " pixels");
    const double most = precision == Precision::half ? largest_half : std::numeric_limits<float>::max();
    for (const float v : c.values)
        if (!(std::abs(v) <= most))
            refuse("channel " + c.name + " holds " + text(v) + "; values are finite, half ones up to 65504");
}

std::vector<PackedAttribute> attributes(const ExrHead& head, bool colored) {
    if (!(head.dpi >= 1 && head.dpi <= 10000)) refuse("dpi must be 1 to 10000, got " + text(head.dpi));
    std::vector<PackedAttribute> out = {floats("xDensity", "float", {head.dpi})};
    if (colored) {
        const auto& w = color::srgb_white;
        const double sum = w.x + w.y + w.z;
        const Chromaticity white{w.x / sum, w.y / sum};
        out.push_back(
            floats("chromaticities", "chromaticities", {0.64, 0.33, 0.30, 0.60, 0.15, 0.06, white.x, white.y}));
        out.push_back(floats("adoptedNeutral", "v2f", {white.x, white.y}));
    }
    if (head.white_cd_per_m2 != 0) {
        if (!(head.white_cd_per_m2 > 0 && std::isfinite(head.white_cd_per_m2)))
            refuse("the white's luminance must be above 0, got " + text(head.white_cd_per_m2));
        out.push_back(floats("whiteLuminance", "float", {head.white_cd_per_m2}));
    }
    auto texts = head.texts;
    texts.insert(texts.begin(), {{"title", head.title}, {"light", head.light}, {"comments", head.comments}});
    for (const auto& [name, words] : texts) {
        check_name("attribute", name);
        if (!words.empty()) out.push_back({name, "string", {words.begin(), words.end()}});
    }
    std::sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.name < b.name; });
    const auto twice =
        std::adjacent_find(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.name == b.name; });
    if (twice != out.end()) refuse("two attributes are named " + twice->name);
    return out;
}

}  // namespace

std::vector<std::uint8_t> encode_exr(int width, int height, const std::vector<ExrChannel>& channels,
                                     Precision precision, const ExrHead& head) {
    if (width < 1 || height < 1 || width > 20000 || height > 20000)
        refuse("sides are 1 to 20000 pixels, got " + std::to_string(width) + " by " + std::to_string(height));
    if (channels.empty()) refuse("there is no channel");
    std::vector<PackedChannel> sorted;
    for (const auto& c : channels) {
        check_channel(c, static_cast<std::size_t>(width) * static_cast<std::size_t>(height), precision);
        sorted.push_back({c.name, c.values.data()});
    }
    std::sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.name < b.name; });
    const auto twice =
        std::adjacent_find(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.name == b.name; });
    if (twice != sorted.end()) refuse("two channels are named " + twice->name);
    const auto named = [&](const char* name) {
        return std::any_of(sorted.begin(), sorted.end(), [&](const auto& c) { return c.name == name; });
    };
    return pack_exr(width, height, sorted, precision == Precision::half,
                    attributes(head, named("R") && named("G") && named("B")));
}

std::vector<ExrChannel> rgb_channels(const std::vector<float>& rgb) {
    if (rgb.size() % 3 != 0)
        refuse("red, green and blue do not come out even: " + std::to_string(rgb.size()) + " values");
    std::vector<ExrChannel> channels = {{"R", {}}, {"G", {}}, {"B", {}}};
    for (std::size_t c = 0; c < 3; ++c) {
        channels[c].values.reserve(rgb.size() / 3);
        for (std::size_t i = c; i < rgb.size(); i += 3) channels[c].values.push_back(rgb[i]);
    }
    return channels;
}

std::vector<std::uint8_t> linear_exr(const LinearImage& image, Precision precision, const ExrHead& head) {
    return encode_exr(image.width, image.height, rgb_channels(image.rgb), precision, head);
}

}  // namespace foretone::format
