// How long a photograph takes: 12 megapixels (4000 × 3000) of a board, finished, with and without decoding and packing;
// beside it, in the same run, the same picture through a plain three-dimensional color table by LittleCMS (33 points a
// side, 8 bits in and out), one thread and two. Milliseconds of wall time.

#include <benchmark/benchmark.h>
#include <lcms2.h>

#include <algorithm>
#include <cstdio>
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <vector>

#include <jpeglib.h>

#include "foretone/appearance/tones.hpp"
#include "foretone/base/parallel.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/grain/grain.hpp"
#include "foretone/photo/photo.hpp"
#include "foretone/photo/photo_file.hpp"
#include "foretone/format/png.hpp"
#include "foretone/scene/library.hpp"

namespace {

using namespace foretone;

constexpr int width = 4000, height = 3000;
const photo::Card card{{60, 60, 300, 300}, 0.9};

struct Set {
    material::Materials materials;
    std::vector<std::uint8_t> codes, jpeg;
    photo::Pixels pixels;
    photo::Correction correction;
    std::unique_ptr<appearance::ToneTable> bare, coat, dye;
    std::unique_ptr<photo::PhotoBoard> board;
};

std::unique_ptr<appearance::ToneTable> table(const Set& set, const schedule::Finish& finish) {
    const scene::Library library;
    const auto boards = appearance::boards(set.materials, "cherry", finish);
    const appearance::ToneSpectra spectra(boards.back(), std::get<material::Wood>(set.materials.at("cherry").data),
                                          optics::Geometry::g45_0, appearance::two_flux_solver());
    return std::make_unique<appearance::ToneTable>(
        spectra, color::make_weights(library.illuminant("D65"), library.observer("2deg")));
}

std::vector<std::uint8_t> jpeg_of(const std::vector<std::uint8_t>& codes) {
    jpeg_compress_struct c{};
    jpeg_error_mgr errors{};
    c.err = jpeg_std_error(&errors);
    jpeg_create_compress(&c);
    unsigned char* bytes = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&c, &bytes, &size);
    c.image_width = width;
    c.image_height = height;
    c.input_components = 3;
    c.in_color_space = JCS_RGB;
    jpeg_set_defaults(&c);
    jpeg_set_quality(&c, 92, TRUE);
    jpeg_start_compress(&c, TRUE);
    for (std::size_t y = 0; y < height; ++y) {
        JSAMPROW row = const_cast<JSAMPROW>(&codes[y * 3 * width]);
        jpeg_write_scanlines(&c, &row, 1);
    }
    jpeg_finish_compress(&c);
    jpeg_destroy_compress(&c);
    std::vector<std::uint8_t> out(bytes, bytes + size);
    std::free(bytes);
    return out;
}

// Filled where it stays: the board refers to the pixels beside it.
const Set& set() {
    static Set made;
    [[maybe_unused]] static const bool filled = [](Set& s) {
        const scene::Library library;
        for (const auto& id : library.ids()) s.materials[id] = library.material(id);
        const auto& wood = std::get<material::Wood>(s.materials.at("cherry").data);
        schedule::Step coat;
        coat.mix = {{"oil-varnish", schedule::Amount::parts, 1}};
        coat.coats = 3;
        coat.method = material::Method::brush;
        schedule::Step dye;
        dye.mix = {{"umber-dye", schedule::Amount::parts, 1}, {"water", schedule::Amount::parts, 4}};
        dye.wet_g_per_m2 = 70;
        s.bare = table(s, {"bare", {}});
        s.coat = table(s, {"varnish", {coat}});
        s.dye = table(s, {"dye, varnish", {dye, coat}});
        // A board over the middle, the card at the upper left; noise of a camera, by a fixed sequence.
        const auto maps = grain::grain(wood, grain::Cut::flat, width - 800, height - 600, 0.1, 3);
        std::uint32_t noise = 1;
        for (int y = 0; y < height; ++y) {
            for (int x = 0; x < width; ++x) {
                color::Xyz c{95.047 * 0.3, 30, 108.88 * 0.3};
                if (x >= 400 && x < width - 400 && y >= 300 && y < height - 300)
                    c = s.bare->reading(double(maps.shade[maps.at(x - 400, y - 300)]), 1);
                if (x >= 40 && x < 380 && y >= 40 && y < 380) c = {95.047 * 0.85, 85, 108.88 * 0.85};
                const auto code = color::xyz_to_srgb(c);
                for (const double v : code) {
                    noise = noise * 1664525 + 1013904223;
                    s.codes.push_back(
                        static_cast<std::uint8_t>(std::clamp(255 * v + double(noise >> 24) / 64 - 1.5, 0.0, 255.0)));
                }
            }
        }
        s.pixels = photo::pixels_of_srgb(width, height, 3, s.codes.data(), s.codes.size());
        s.correction = photo::by_card(s.pixels, card);
        s.board = std::make_unique<photo::PhotoBoard>(s.pixels, s.correction, *s.bare, wood, &card.box);
        s.jpeg = jpeg_of(s.codes);
        return true;
    }(made);
    return made;
}

const material::Wood& wood() { return std::get<material::Wood>(set().materials.at("cherry").data); }

void photo_decode_jpeg(benchmark::State& state) {
    set();
    for (auto _ : state) benchmark::DoNotOptimize(photo::read_photo(set().jpeg));
}

void photo_find_board(benchmark::State& state) {
    set();
    for (auto _ : state)
        benchmark::DoNotOptimize(photo::PhotoBoard(set().pixels, set().correction, *set().bare, wood(), &card.box));
}

void photo_finish_clear(benchmark::State& state) {
    set();
    for (auto _ : state) benchmark::DoNotOptimize(set().board->finished(*set().coat));
}

void photo_finish_dyed(benchmark::State& state) {
    set();
    for (auto _ : state) benchmark::DoNotOptimize(set().board->finished(*set().dye));
}

// Everything from pixels in memory: card, board, table, finish.
void photo_whole_without_files(benchmark::State& state) {
    set();
    for (auto _ : state) {
        const auto correction = photo::by_card(set().pixels, card);
        const photo::PhotoBoard board(set().pixels, correction, *set().bare, wood(), &card.box);
        benchmark::DoNotOptimize(board.finished(*set().coat));
    }
}

void photo_whole_with_decoding(benchmark::State& state) {
    set();
    for (auto _ : state) {
        const auto photo = photo::read_photo(set().jpeg);
        const auto correction = photo::by_card(photo.pixels, card);
        const photo::PhotoBoard board(photo.pixels, correction, *set().bare, wood(), &card.box);
        benchmark::DoNotOptimize(board.finished(*set().coat));
    }
}

void photo_pack_png(benchmark::State& state) {
    const auto photo = set().board->finished(*set().coat);
    format::PngOptions options;
    options.photograph = true;
    for (auto _ : state) benchmark::DoNotOptimize(format::encode_png(photo.image, options));
}

// The yardstick: one color table applied to every pixel.
int sample(const cmsUInt16Number in[], cmsUInt16Number out[], void*) {
    for (int c = 0; c < 3; ++c) out[c] = static_cast<cmsUInt16Number>(in[c] * (0.6 + 0.4 * in[(c + 1) % 3] / 65535.0));
    return TRUE;
}

void lcms_color_table(benchmark::State& state) {
    cmsPipeline* pipeline = cmsPipelineAlloc(nullptr, 3, 3);
    cmsStage* stage = cmsStageAllocCLut16bit(nullptr, 33, 3, 3, nullptr);
    cmsStageSampleCLut16bit(stage, sample, nullptr, 0);
    cmsPipelineInsertStage(pipeline, cmsAT_BEGIN, stage);
    cmsHPROFILE link = cmsCreateProfilePlaceholder(nullptr);
    cmsSetProfileVersion(link, 4.3);
    cmsSetDeviceClass(link, cmsSigLinkClass);
    cmsSetColorSpace(link, cmsSigRgbData);
    cmsSetPCS(link, cmsSigRgbData);
    cmsWriteTag(link, cmsSigAToB0Tag, pipeline);
    cmsHTRANSFORM transform =
        cmsCreateTransform(link, TYPE_RGB_8, nullptr, TYPE_RGB_8, INTENT_PERCEPTUAL, cmsFLAGS_NOCACHE);
    if (transform == nullptr) return state.SkipWithError("no transform");
    std::vector<std::uint8_t> out(set().codes.size());
    const auto threads = static_cast<std::size_t>(state.range(0));
    for (auto _ : state) {
        base::parallel_for(threads, static_cast<unsigned>(threads), [&](std::size_t t) {
            const std::size_t from = std::size_t(height) * t / threads, to = std::size_t(height) * (t + 1) / threads;
            cmsDoTransform(transform, &set().codes[from * 3 * width], &out[from * 3 * width],
                           static_cast<cmsUInt32Number>((to - from) * width));
        });
        benchmark::DoNotOptimize(out);
    }
    cmsDeleteTransform(transform);
    cmsCloseProfile(link);
    cmsPipelineFree(pipeline);
}

BENCHMARK(photo_decode_jpeg)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(photo_find_board)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(photo_finish_clear)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(photo_finish_dyed)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(photo_whole_without_files)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(photo_whole_with_decoding)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(photo_pack_png)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(lcms_color_table)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
