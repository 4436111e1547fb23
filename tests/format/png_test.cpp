#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <stdexcept>

#include "foretone/format/png_rows.hpp"
#include "support/pictures/png_reader.hpp"

using namespace foretone;
using light::Image;

namespace {

Image noise(int width, int height, unsigned levels, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    Image image = Image::filled(width, height, {0, 0, 0});
    for (std::uint8_t& v : image.rgb) {
        v = std::uint8_t((random() >> 20) % levels * (255 / (levels - 1)));
    }
    return image;
}

Image gradient(int width, int height) {
    Image image = Image::filled(width, height, {0, 0, 0});
    for (std::size_t i = 0; i < image.rgb.size(); ++i) {
        image.rgb[i] = std::uint8_t((i / 7 + i % 3 * 40) & 255);
    }
    return image;
}

std::vector<std::string> types_of(const std::vector<std::uint8_t>& png) {
    std::vector<std::string> types;
    for (const test::Chunk& chunk : test::chunks_of(png)) {
        types.push_back(chunk.type);
    }
    return types;
}

}  // namespace

TEST_CASE("a PNG read back by libpng has every pixel it was given") {
    std::vector<Image> images = {Image::filled(1, 1, {1, 2, 3}), Image::filled(2000, 900, {255, 255, 255}),
                                 gradient(701, 333), noise(1, 4000, 256, 1), noise(4000, 1, 256, 2)};
    for (std::uint64_t seed = 0; seed < 24; ++seed) {  // few levels make many short matches, many levels none
        const unsigned levels = seed % 3 == 0 ? 2 : seed % 3 == 1 ? 6 : 256;
        images.push_back(noise(1 + int(seed * 13 % 97), 1 + int(seed * 29 % 83), levels, seed));
    }
    // Repeats farther apart than the 32 KiB window, and just inside it.
    for (const int width : {10922, 10923, 10921, 12000}) {
        Image far = noise(width, 1, 256, 7);
        const std::vector<std::uint8_t> row = far.rgb;
        far.height = 3;
        far.rgb.insert(far.rgb.end(), row.begin(), row.end());
        far.rgb.insert(far.rgb.end(), row.begin(), row.end());
        images.push_back(far);
    }
    std::size_t wrong = 0, complaints = 0;
    for (const Image& image : images) {
        const test::PngContent read = test::read_png(format::encode_png(image));
        wrong += read.image.width != image.width || read.image.height != image.height || read.image.rgb != image.rgb;
        complaints += read.complaints.size();
    }
    CHECK(wrong == 0);
    CHECK(complaints == 0);
}

TEST_CASE("a PNG says that its codes are sRGB and how large it is, between IHDR and the pixels") {
    const auto png = format::encode_png(gradient(30, 20), {150, "Hall bench", "Step board"});
    CHECK(types_of(png) == std::vector<std::string>{"IHDR", "sRGB", "pHYs", "tEXt", "tEXt", "tEXt", "IDAT", "IEND"});
    for (const test::Chunk& chunk : test::chunks_of(png)) {
        INFO(chunk.type);
        CHECK(chunk.crc_right);
    }
    const test::PngContent read = test::read_png(png);
    CHECK(read.srgb_intent == 0);  // perceptual: ISO/IEC 15948, 11.3.3.5
    CHECK(read.unit_is_metre);
    CHECK(read.x_per_unit == 5906);  // computed from 150 pixels an inch, 0.0254 m an inch: 5905.5, rounded
    CHECK(read.y_per_unit == 5906);
    CHECK(read.texts == std::vector<std::pair<std::string, std::string>>{
                            {"Software", "foretone"}, {"Title", "Hall bench"}, {"Description", "Step board"}});
    CHECK(types_of(format::encode_png(gradient(3, 2))) ==
          std::vector<std::string>{"IHDR", "sRGB", "pHYs", "tEXt", "IDAT", "IEND"});
}

TEST_CASE("texts stay Latin-1 where they can and become Unicode where they must") {
    const std::string latin = "\xC3\xA9rable, 70 g/m\xC2\xB2", beyond =
                                                                   "\xCE\x94"
                                                                   "E \xE2\x89\xA4 1";
    const auto png = format::encode_png(gradient(3, 2), {300, latin, beyond});
    CHECK(types_of(png) == std::vector<std::string>{"IHDR", "sRGB", "pHYs", "tEXt", "tEXt", "iTXt", "IDAT", "IEND"});
    const test::PngContent read = test::read_png(png);
    REQUIRE(read.texts.size() == 3);
    CHECK(read.texts[1].second == "\xE9rable, 70 g/m\xB2");  // tEXt is Latin-1: ISO/IEC 15948, 11.3.4.3
    CHECK(read.texts[2].second == beyond);
    CHECK(read.x_per_unit == 11811);  // computed from 300 / 0.0254
    CHECK(read.complaints.empty());
}

TEST_CASE("a text that is not UTF-8 or holds a NUL still makes a sound file") {
    const std::string broken = std::string("a\0b\xFFz", 5);
    const test::PngContent read = test::read_png(format::encode_png(gradient(3, 2), {150, broken, ""}));
    REQUIRE(read.texts.size() == 2);
    CHECK(read.texts[1].second == "ab\xEF\xBF\xBDz");
    CHECK(read.complaints.empty());
}

TEST_CASE("the same picture gives the same bytes") {
    CHECK(format::encode_png(gradient(200, 100), {150, "t", "d"}) ==
          format::encode_png(gradient(200, 100), {150, "t", "d"}));
}

TEST_CASE("flat color packs to less than a sixtieth") {
    const Image flat = Image::filled(1700, 1000, {194, 148, 106});
    CHECK(format::encode_png(flat).size() * 60 < flat.rgb.size());
}

TEST_CASE("a picture that is not one is refused with its figures") {
    Image short_of_bytes = gradient(3, 2);
    short_of_bytes.rgb.pop_back();
    CHECK_THROWS_WITH(format::encode_png(short_of_bytes), "format::encode_png: 3 by 2 pixels do not go with 17 bytes");
    CHECK_THROWS_AS(format::encode_png(Image{}), std::invalid_argument);
    CHECK_THROWS_AS(Image::filled(0, 5, {}), std::invalid_argument);
    CHECK_THROWS_AS(Image::filled(5, 20001, {}), std::invalid_argument);
    for (const double dpi : {0.0, -150.0, 10001.0, std::nan("")}) {
        CHECK_THROWS_AS(format::encode_png(gradient(3, 2), {dpi, "", ""}), std::invalid_argument);
    }
}

TEST_CASE("a PNG packed row by row is the PNG packed at once, however the rows come") {
    const Image image = noise(37, 200, 40, 3);
    format::PngOptions options;
    options.photograph = true;
    options.title = "a board";
    const auto whole = format::encode_png(image, options);
    CHECK(test::read_png(whole).image.rgb == image.rgb);
    for (const int step : {1, 63, 64, 65, 200}) {
        std::vector<std::uint8_t> rest;
        format::PngRows rows(37, 200, options,
                             [&](auto bytes) { rest.insert(rest.end(), bytes.begin(), bytes.end()); });
        for (int y = 0; y < 200; y += step) {
            CHECK_THROWS_AS(rows.finish(), std::invalid_argument);
            rows.add(std::span(image.rgb).subspan(std::size_t(111) * std::size_t(y),
                                                  std::size_t(111) * std::size_t(std::min(step, 200 - y))));
        }
        auto file = rows.finish();
        file.insert(file.end(), rest.begin(), rest.end());
        CAPTURE(step);
        CHECK(file == whole);
        CHECK_THROWS_AS(rows.add(std::span(image.rgb).first(111)), std::invalid_argument);
    }
    format::PngRows rows(37, 200, options, [](auto) {});
    CHECK_THROWS_AS(rows.add(std::span(image.rgb).first(110)), std::invalid_argument);
    CHECK_THROWS_AS(format::PngRows(0, 200, options, [](auto) {}), std::invalid_argument);
}
