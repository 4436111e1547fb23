#include "foretone/format/exr.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include <catch2/catch.hpp>

#include "support/pictures/exr_reader.hpp"
#include "foretone/format/spectral_exr.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using format::Precision;

namespace {

// Values as boards have them, some just outside 0–1, plain and repeated ones among them.
std::vector<float> values(std::size_t count, unsigned seed) {
    std::mt19937 random(seed);
    std::vector<float> out(count);
    for (auto& v : out) v = static_cast<float>(random()) / 4294967296.0f * 1.2f - 0.1f;
    for (std::size_t i = 0; i < count; i += 7) out[i] = 0.25f;
    return out;
}

format::SpectralImage spectral_image(int width, int height) {
    format::SpectralImage image{width, height, {}, {}, {}};
    const auto pixels = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    for (unsigned i = 0; i < 81; ++i) {
        image.wavelength_nm.push_back(380 + 5.0 * i);
        image.planes.push_back(values(pixels, i));
    }
    image.rgb = values(3 * pixels, 99);
    return image;
}

}  // namespace

TEST_CASE("OpenEXR reads back every float exactly as given, in channels sorted by name", "[exr]") {
    // Sides that do not fill the last block of 16 lines, and a picture of one pixel.
    for (const auto& [width, height] : std::vector<std::pair<int, int>>{{37, 41}, {1, 1}, {200, 16}}) {
        const auto pixels = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
        const std::vector<format::ExrChannel> given = {{"Z", values(pixels, 1)},
                                                       {"B", values(pixels, 2)},
                                                       {"R", values(pixels, 3)},
                                                       {"a", values(pixels, 4)},
                                                       {"G", values(pixels, 5)}};
        const auto file = test::read_exr(format::encode_exr(width, height, given, Precision::full, {}));
        CHECK(file.width == width);
        CHECK(file.height == height);
        CHECK(file.zip);
        CHECK(file.complete);
        CHECK(file.order == std::vector<std::string>{"B", "G", "R", "Z", "a"});
        REQUIRE(file.channels.size() == given.size());
        for (const auto& c : given) {
            CHECK(file.channels.at(c.name) == c.values);
            CHECK_FALSE(file.half.at(c.name));
        }
    }
}

TEST_CASE("half precision keeps every value within half a step of its 11 bits", "[exr]") {
    auto given = values(64 * 48, 6);
    const std::vector<float> edges = {0.0f,    -0.0f, 1.0f,  65504.0f,    -65504.0f,
                                      6.1e-5f, 1e-6f, 3e-8f, 0.33325195f, 2.0005f};
    std::copy(edges.begin(), edges.end(), given.begin());
    const auto file = test::read_exr(format::encode_exr(64, 48, {{"Y", given}}, Precision::half, {}));
    CHECK(file.half.at("Y"));
    const auto& read = file.channels.at("Y");
    double worst = 0;
    std::size_t where = 0;
    for (std::size_t i = 0; i < given.size(); ++i) {
        // IEEE 754 binary16: 10 stored bits above 2^-14, fixed steps of 2^-24 below.
        const double size = std::max(std::abs(static_cast<double>(given[i])), std::ldexp(1, -14));
        const double half_step = std::ldexp(0.5, std::ilogb(size) - 10);
        const double off = std::abs(static_cast<double>(read[i]) - given[i]) / half_step;
        if (test::worse(off, worst)) worst = off, where = i;
    }
    INFO("value " << where << ": " << given[where] << " read as " << read[where]);
    CHECK(worst <= 1);
    CHECK(worst > 0.5);  // 16 bits do round
}

TEST_CASE("the head of an RGB file states primaries, white, neutral, luminance, size, light and words", "[exr]") {
    format::ExrHead head;
    head.dpi = 254;
    head.title = "stool, maple";
    head.light = "D65";
    head.comments = "ΔE00 is not ΔE";
    head.white_cd_per_m2 = 159.155;
    head.texts = {{"geometry", "45/0"}, {"empty", ""}};
    const auto file =
        test::read_exr(format::linear_exr({2, 1, {0.1f, 0.2f, 0.3f, 0.4f, 0.5f, 0.6f}}, Precision::full, head));
    CHECK(file.channels.at("R") == std::vector<float>{0.1f, 0.4f});
    CHECK(file.channels.at("G") == std::vector<float>{0.2f, 0.5f});
    CHECK(file.channels.at("B") == std::vector<float>{0.3f, 0.6f});
    // IEC 61966-2-1, table 1: chromaticities of the primaries and of D65.
    const std::vector<float> srgb = {0.64f, 0.33f, 0.30f, 0.60f, 0.15f, 0.06f, 0.3127f, 0.3290f};
    REQUIRE(file.numbers.at("chromaticities").size() == srgb.size());
    for (std::size_t i = 0; i < srgb.size(); ++i)
        CHECK_THAT(file.numbers.at("chromaticities")[i], test::Near(srgb[i], 1e-6));
    REQUIRE(file.numbers.at("adoptedNeutral").size() == 2);
    CHECK_THAT(file.numbers.at("adoptedNeutral")[0], test::Near(0.3127, 1e-6));
    CHECK_THAT(file.numbers.at("adoptedNeutral")[1], test::Near(0.3290, 1e-6));
    CHECK(file.numbers.at("whiteLuminance") == std::vector<float>{159.155f});
    CHECK(file.numbers.at("xDensity") == std::vector<float>{254.0f});
    CHECK(file.texts.at("title") == head.title);
    CHECK(file.texts.at("light") == "D65");
    CHECK(file.texts.at("comments") == head.comments);
    CHECK(file.texts.at("geometry") == "45/0");
    CHECK(file.texts.count("empty") == 0);
    // A file without R, G and B has no primaries to state.
    CHECK(test::read_exr(format::encode_exr(1, 1, {{"Y", {0.5f}}}, Precision::full, {}))
              .numbers.count("chromaticities") == 0);
}

TEST_CASE("a spectral file has the names, order and attributes of its layout and every value as given",
          "[exr][spectral]") {
    const auto image = spectral_image(19, 23);
    for (const auto precision : {Precision::full, Precision::half}) {
        const auto file = test::read_exr(format::spectral_exr(image, precision, {}));
        REQUIRE(file.order.size() == 84);
        // Fichet, Pacanowski & Wilkie 2021: RGB preview channels; "T", wavelength with a decimal comma, unit.
        CHECK(std::vector<std::string>(file.order.begin(), file.order.begin() + 5) ==
              std::vector<std::string>{"B", "G", "R", "T.380,000000nm", "T.385,000000nm"});
        CHECK(file.order.back() == "T.780,000000nm");
        CHECK(std::is_sorted(file.order.begin(), file.order.end()));
        CHECK(file.texts.at("spectralLayoutVersion") == "1.0");
        CHECK(file.texts.count("emissiveUnits") == 0);
        double worst = 0;
        for (std::size_t i = 0; i < image.planes.size(); ++i) {
            const auto& read = file.channels.at(format::reflective_channel(image.wavelength_nm[i]));
            for (std::size_t p = 0; p < read.size(); ++p)
                worst = test::worst_of(worst, static_cast<double>(std::abs(read[p] - image.planes[i][p])));
        }
        // Exact, or half a step of 11 bits at 1.1 (see above).
        CHECK(worst <= (precision == Precision::full ? 0.0 : std::ldexp(0.5, -10)));
        CHECK(file.channels.at("G").size() == 19 * 23);
    }
}

TEST_CASE("wavelengths are written with a comma and six decimals on any locale", "[exr][spectral]") {
    CHECK(format::reflective_channel(550) == "T.550,000000nm");
    CHECK(format::reflective_channel(386.125) == "T.386,125000nm");
}

TEST_CASE("the same spectral picture gives the same OpenEXR bytes", "[exr]") {
    const auto image = spectral_image(33, 65);
    CHECK(format::spectral_exr(image, Precision::half, {}) == format::spectral_exr(image, Precision::half, {}));
}

TEST_CASE("what cannot be written is refused, naming channel and value", "[exr]") {
    const auto refuses = [](int w, int h, const std::vector<format::ExrChannel>& c, Precision p,
                            const format::ExrHead& head, const std::string& words) {
        CHECK_THROWS_WITH(format::encode_exr(w, h, c, p, head), Catch::Contains(words));
    };
    const float nan = std::numeric_limits<float>::quiet_NaN();
    refuses(0, 1, {{"Y", {}}}, Precision::full, {}, "got 0 by 1");
    refuses(1, 20001, {{"Y", {}}}, Precision::full, {}, "got 1 by 20001");
    refuses(1, 1, {}, Precision::full, {}, "no channel");
    refuses(2, 1, {{"Y", {0.1f}}}, Precision::full, {}, "channel Y has 1 values for 2 pixels");
    refuses(1, 1, {{"Y", {nan}}}, Precision::full, {}, "channel Y holds nan");
    refuses(1, 1, {{"Y", {1e5f}}}, Precision::half, {}, "channel Y holds 1e+05");
    refuses(1, 1, {{"", {0}}}, Precision::full, {}, "1 to 31 bytes");
    refuses(1, 1, {{std::string(32, 'x'), {0}}}, Precision::full, {}, "1 to 31 bytes");
    refuses(1, 1, {{"Y", {0}}, {"Y", {0}}}, Precision::full, {}, "two channels are named Y");
    format::ExrHead head;
    head.title = "once";
    head.texts = {{"title", "again"}};
    refuses(1, 1, {{"Y", {0}}}, Precision::full, head, "two attributes are named title");
    head = {};
    head.dpi = 0;
    refuses(1, 1, {{"Y", {0}}}, Precision::full, head, "dpi must be 1 to 10000, got 0");
    head = {};
    head.white_cd_per_m2 = -1;
    refuses(1, 1, {{"Y", {0}}}, Precision::full, head, "got -1");
    CHECK_THROWS_WITH(format::rgb_channels({1, 2}), Catch::Contains("2 values"));
    format::SpectralImage image{1, 1, {500, 500}, {{0.1f}, {0.1f}}, {}};
    CHECK_THROWS_WITH(format::spectral_exr(image, Precision::full, {}), Catch::Contains("number 2 is 500"));
    image.planes.pop_back();
    CHECK_THROWS_WITH(format::spectral_exr(image, Precision::full, {}), Catch::Contains("2 wavelengths for 1 planes"));
}
